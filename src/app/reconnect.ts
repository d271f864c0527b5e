import { type Accessor, createEffect, createMemo, createSignal, on, onCleanup } from 'solid-js';
import type { Services } from '../screens/context.ts';
import { knownPort, onPlugged } from './serial.ts';

/**
 * The page was loaded again in mid-run: pressure is shown as soon as the port of that very run is there. Only a port that
 * was granted and that the run was read from, once, and never over a connection that somebody made; the run itself is
 * gone on with by a press. What it does is said beside what may be full, and hides nothing of it.
 */
export function createReconnect(
  app: Pick<Services, 'ask' | 'live' | 'openRuns'>,
): Accessor<'trying' | 'failed' | null> {
  const { live } = app;
  const [state, setState] = createSignal<'trying' | 'failed' | null>(null);
  let over = false;
  const kind = createMemo(() => live.link()?.kind ?? null);
  const running = createMemo(() => live.run() !== null);

  const attempt = async () => {
    if (kind() !== null || running()) over = true;
    const run = over ? undefined : app.openRuns().find((r) => !r.practice && r.port !== undefined);
    const ids = run?.port;
    const port = ids === undefined ? null : await knownPort(ids);
    // Somebody was quicker meanwhile.
    if (port === null || over || kind() !== null) return;
    over = true;
    setState('trying');
    await app.ask({ q: 'connect', port });
    setState(null);
    // The temperatures beside it come by themselves too; where they do not, the page says that they are missing.
    const beside = run?.beside === undefined ? null : await knownPort(run.beside);
    if (beside !== null) await app.ask({ q: 'connect-beside', port: beside }).catch(() => undefined);
  };
  const tried = () => void attempt().catch(() => setState('failed'));
  createEffect(on([app.openRuns, kind, running], tried));
  onCleanup(onPlugged(tried));
  return state;
}
