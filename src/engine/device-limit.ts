import type { Limits } from '../job/setup.ts';
import type { GuardFrame } from '../link/frames.ts';
import { refusal } from '../link/greeting.ts';
import type { LimitAnswer } from '../link/limit.ts';
import type { Session } from '../link/session.ts';
import type { Timers } from '../link/timers.ts';
import { countsAt } from '../sensing/counts.ts';
import type { SensingState } from '../sensing/sensing.ts';
import type { CurrentRun } from './current-run.ts';

/** What arming needs of a session: who answers, and the command. */
export type LimitSession = Pick<Session, 'limit' | 'greeting'>;

interface LimitOrder {
  readonly channel: number;
  readonly counts: number;
  readonly mbar: number;
}

/**
 * The device's own limit on the pressure channel, in the counts at which the reading shows that pressure; null where
 * that can't be said.
 */
function orderOf(session: LimitSession, sensing: SensingState, mbar: number): LimitOrder | null {
  const at = countsAt(sensing, mbar / 1000);
  // The counts are those of the device that was read, by its scale and its zero.
  const { greeting } = session;
  const { hello, channels } = sensing;
  const same =
    greeting !== null && hello !== null && refusal(greeting, { deviceId: hello.deviceId, channels }) === null;
  return at === null || mbar < 1 || !same ? null : { ...at, mbar };
}

const isSame = (a: LimitOrder | null, b: LimitOrder | null): boolean =>
  a === b ||
  (a !== null && b !== null && a.channel === b.channel && a.counts === b.counts && a.mbar === b.mbar);

const NOT_KEPT: LimitAnswer = { kept: false, counts: null, mbar: null };

const give = (session: LimitSession, order: LimitOrder | null): Promise<LimitAnswer> =>
  order === null ? Promise.resolve(NOT_KEPT) : session.limit(order.channel, order.counts, order.mbar);

/** Arms or lowers the device's own limit. Never rejects. */
export const armLimit = (session: LimitSession, sensing: SensingState, mbar: number): Promise<LimitAnswer> =>
  give(session, orderOf(session, sensing, mbar));

/** Keeps the device's own limit at the run's ceiling; the guard frames that follow tell the watch. */
export interface DeviceLimit {
  /** The limits, the counts of a pressure or the device are others now. */
  renew(): void;
  /** What the device says of its limit. */
  check(guard: GuardFrame): void;
}

/** The device says its limit's state once a second; asking it again sooner than this would only fill the line. */
const ARM_AGAIN_US = 5_000_000;

/** The device keeps whole millibars, never above the ceiling. */
const deviceMbar = (limits: Limits): number => Math.floor(limits.ceilingBar * 1000);

export function createDeviceLimit(
  timers: Timers,
  current: CurrentRun,
  session: () => LimitSession | null,
): DeviceLimit {
  let armedUs = Number.NEGATIVE_INFINITY;
  /** What is being asked of whom; null: nothing. */
  let asked: { readonly of: LimitSession; readonly order: LimitOrder | null } | null = null;
  let armAgain = false;

  const limitsNow = (): Limits | null => current.live.run.setup?.limits ?? null;

  async function arm(anew: boolean): Promise<void> {
    const limits = limitsNow();
    const to = session();
    if (to === null || limits === null) return;
    const order = orderOf(to, current.live.run.sensing, deviceMbar(limits));
    if (asked !== null) {
      // The answer that is awaited may be to a limit that holds no longer.
      armAgain ||= anew && !(asked.of === to && isSame(asked.order, order));
      return;
    }
    if (!anew && timers.nowUs() - armedUs < ARM_AGAIN_US) return;
    asked = { of: to, order };
    armedUs = timers.nowUs();
    try {
      await give(to, order);
    } finally {
      asked = null;
    }
    if (!armAgain) return;
    armAgain = false;
    await arm(true);
  }

  return {
    renew() {
      void arm(true);
    },
    check({ limitMbar }) {
      const limits = limitsNow();
      // The device guards no limit, or one over the run's.
      const over = limits !== null && (limitMbar ?? Number.POSITIVE_INFINITY) > deviceMbar(limits);
      if (over) void arm(false);
    },
  };
}
