import { LinkFault } from '../link/fault.ts';
import type { SampleFrame } from '../link/frames.ts';
import { type Greeting, identityOf } from '../link/greeting.ts';
import { createHostClock } from '../link/maps/host-clock.ts';
import { sourceOf } from '../link/maps/opening.ts';
import { createSession, type Session } from '../link/session.ts';
import type { BesideEntry } from '../record/log.ts';
import type { PortIds } from '../record/types.ts';
import type { CurrentRun } from './current-run.ts';
import type { HostDeps, OpenedPort } from './deps.ts';
import { besideEntries } from './early.ts';
import type { KnownSpeeds } from './known-speeds.ts';
import type { BesideView, SerialChoice } from './messages.ts';
import type { ScaledTimers } from './scaled-timers.ts';

/**
 * The stream of entries of the second adapter: temperatures beside the pressure. It comes and goes for itself, is told no limit,
 * and nothing of the first device's link hangs on it.
 */
export interface BesideFeed {
  /**
   * Meets whatever is behind the port. Rejects with a LinkFault.
   * @param besideOf the device with the pressure, beside which it is remembered
   */
  connect(choice: SerialChoice, besideOf: string): Promise<Greeting>;
  disconnect(): Promise<void>;
  /** What answers now, or answered last; null: none. */
  readonly greeting: Greeting | null;
  readonly port: PortIds | null;
  view(): BesideView | null;
}

/** Temperatures change over minutes: what comes more often would only fill the record. */
const RATE_HZ = 5;
const LEAST_US = 0.9e6 / RATE_HZ;

/** Passes a sample over where all that it has was kept just before. */
function createThinning(): (frame: SampleFrame, tUs: number) => boolean {
  const keptUs: number[] = [];
  return ({ counts }, tUs) => {
    const isDue = counts.some(
      (c, i) => c !== null && tUs - (keptUs[i] ?? Number.NEGATIVE_INFINITY) >= LEAST_US,
    );
    if (isDue)
      counts.forEach((c, i) => {
        if (c !== null) keptUs[i] = tUs;
      });
    return isDue;
  };
}

export function createBesideFeed(
  deps: Pick<HostDeps, 'openPort' | 'random16'>,
  timers: ScaledTimers,
  current: CurrentRun,
  speeds: KnownSpeeds,
  stirred: () => void,
  lookAtClock: () => void,
): BesideFeed {
  let session: Session | null = null;
  let port: PortIds | null = null;
  let giveUp: OpenedPort['giveUp'];
  let connecting: Promise<unknown> = Promise.resolve();
  const clock = createHostClock(deps.random16());

  async function drop(): Promise<void> {
    const was = session;
    // While it is still the one that is read: that it was closed belongs into the log.
    await was?.close();
    session = null;
    port = null;
    giveUp?.();
    giveUp = undefined;
    stirred();
  }

  async function connect(choice: SerialChoice, besideOf: string): Promise<Greeting> {
    await drop();
    const { map } = choice;
    const order = map === undefined ? await speeds.order(choice, true) : [map.baud];
    const opened = await deps.openPort(choice, timers);
    giveUp = opened.giveUp;
    const isKept = createThinning();
    let known = false;
    const mine: Session = createSession(
      opened.port,
      timers,
      {
        frame(frame, tUs, raw) {
          if (!known || (frame.t === 'S' && !isKept(frame, tUs))) return;
          lookAtClock();
          const of: Pick<BesideEntry, 'map' | 'raw'> =
            frame.t === 'H' && map !== undefined ? { map } : raw === undefined ? {} : { raw };
          current.entry({ l: 'beside', tUs: current.runUs(tUs), frame, ...of });
        },
        stray(reason, bytes, tUs) {
          if (known) current.entry({ l: 'beside-stray', tUs: current.runUs(tUs), reason, bytes });
        },
        state(state) {
          if (session === mine) current.notice({ n: 'beside-link', state });
        },
        error: () => stirred(),
        greeted(greeting) {
          if (!known) for (const said of besideEntries(greeting, current.nowUs())) current.entry(said);
          known = true;
          mine.expect(identityOf(greeting));
        },
      },
      {
        rateHz: RATE_HZ,
        expected: null,
        needs: 'temp',
        firstCommand: deps.random16(),
        speeds: order,
        ...(map === undefined ? {} : { source: sourceOf(map, clock) }),
      },
    );
    session = mine;
    try {
      await mine.connect();
    } catch (cause) {
      if (session === mine) await drop();
      throw cause;
    }
    const { usbVendorId, usbProductId } = choice;
    if (session === mine) port = { usbVendorId, usbProductId, ...(map === undefined ? {} : { map }) };
    const { greeting } = mine;
    // It greeted, and was taken away before it could be said.
    if (greeting === null) throw new LinkFault('port-gone', 'the second adapter is gone');
    void speeds.worked(choice, mine.baudRate ?? map?.baud ?? null, greeting.hello.deviceId, besideOf);
    return greeting;
  }

  return {
    connect(choice, besideOf) {
      const next = connecting.then(
        () => connect(choice, besideOf),
        () => connect(choice, besideOf),
      );
      connecting = next.catch(() => undefined);
      return next;
    },
    disconnect: drop,
    get greeting() {
      return session?.greeting ?? null;
    },
    get port() {
      return port;
    },
    view() {
      const s = session;
      if (s === null) return null;
      return {
        state: s.state,
        error: s.error,
        hello: s.greeting?.hello ?? null,
        channels: s.greeting?.channels ?? [],
        rateHz: s.rateHz,
        baudRate: s.baudRate,
        strayLine: s.strayLine,
        map: s.greeting?.map ?? port?.map ?? null,
        doubts: s.doubts,
      };
    },
  };
}
