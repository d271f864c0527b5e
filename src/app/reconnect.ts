import { createEffect, createMemo, on, onCleanup } from 'solid-js';
import type { Services } from '../screens/context.ts';
import { UI } from '../words/ui.ts';
import { knownPort, onPlugged } from './serial.ts';

/**
 * The page was loaded again in mid-run: pressure is shown as soon as the port of that very run is there. Only a port that
 * was granted and that the run was read from, once, and never over a connection that somebody made; the run itself is
 * gone on with by a press.
 */
export function createReconnect(app: Pick<Services, 'ask' | 'live' | 'openRuns' | 'say' | 'fail'>): void {
  const { live } = app;
  let over = false;
  const kind = createMemo(() => live.link()?.kind ?? null);
  const running = createMemo(() => live.run() !== null);

  const attempt = async () => {
    if (kind() !== null || running()) over = true;
    const ids = over ? undefined : app.openRuns().find((r) => !r.practice && r.port !== undefined)?.port;
    const port = ids === undefined ? null : await knownPort(ids);
    // Somebody was quicker meanwhile.
    if (port === null || over || kind() !== null) return;
    over = true;
    app.say(UI.reconnecting);
    await app.ask({ q: 'connect', port });
  };
  const tried = () => void attempt().catch(app.fail);
  createEffect(on([app.openRuns, kind, running], tried));
  onCleanup(onPlugged(tried));
}
