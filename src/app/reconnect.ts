import { createEffect, createMemo, on, onCleanup } from 'solid-js';
import type { PortChoice } from '../engine/messages.ts';
import type { Services } from '../screens/context.ts';
import { UI } from '../words/ui.ts';
import { knownPort, onPlugged, type PortIds } from './serial.ts';

type SerialChoice = Extract<PortChoice, { kind: 'serial' }>;

interface Kept extends PortIds {
  readonly runId: string;
}

const KEY = 'steadybar.port';

/** The port of the run that goes on, beside it: the page is loaded again before anything else is known. */
function remember(kept: Kept): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(kept));
  } catch {
    // Without storage it is connected by a press, as ever.
  }
}

function kept(): Kept | null {
  try {
    const { runId, usbVendorId, usbProductId } = Object(JSON.parse(localStorage.getItem(KEY) ?? '{}'));
    const isId = (n: unknown) => n === null || Number.isInteger(n);
    return typeof runId === 'string' && isId(usbVendorId) && isId(usbProductId)
      ? { runId, usbVendorId, usbProductId }
      : null;
  } catch {
    return null;
  }
}

/**
 * The page was loaded again in mid-run: pressure is shown as soon as the port of that very run is there. Only a port that
 * was granted and that the run knew, once, and never over a connection that somebody made; the run itself is gone on with
 * by a press.
 */
export function createReconnect(app: Pick<Services, 'ask' | 'live' | 'openRuns' | 'say' | 'fail'>): {
  connected(choice: SerialChoice): void;
} {
  const { live } = app;
  let port: SerialChoice | null = null;
  let over = false;

  const runId = createMemo(() => (live.run()?.practice === false ? live.run()!.runId : null));
  const kind = createMemo(() => live.link()?.kind ?? null);
  const note = () => {
    const id = runId();
    if (id === null || port === null || kind() !== 'serial') return;
    const { usbVendorId, usbProductId } = port;
    remember({ runId: id, usbVendorId, usbProductId });
  };

  const attempt = async () => {
    if (kind() !== null || live.run() !== null) over = true;
    const known = over ? null : kept();
    if (known === null || !app.openRuns().some((r) => r.runId === known.runId && !r.practice)) return;
    const found = await knownPort(known);
    // Somebody was quicker meanwhile.
    if (found === null || over || kind() !== null) return;
    over = true;
    app.say(UI.reconnecting);
    await app.ask({ q: 'connect', port: found });
    port = found;
    note();
  };
  const tried = () => void attempt().catch(app.fail);
  createEffect(on([runId, kind], note));
  createEffect(on([app.openRuns, kind, () => live.run() !== null], tried));
  onCleanup(onPlugged(tried));
  return {
    connected(choice) {
      over = true;
      port = choice;
      note();
    },
  };
}
