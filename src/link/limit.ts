import type { GuardFrame } from './frames.ts';
import type { CommandQueue } from './queue.ts';
import type { Timers } from './timers.ts';

/** The device's guard frames as they come: the newest, and the next one. */
export interface GuardWatch {
  readonly newest: GuardFrame | null;
  take(frame: GuardFrame): void;
  forget(): void;
  /** The next guard frame, or null when none comes in time: a device sends one a second and on each change. */
  next(ms: number): Promise<GuardFrame | null>;
}

export function createGuardWatch(timers: Timers): GuardWatch {
  let newest: GuardFrame | null = null;
  const waiters = new Set<(frame: GuardFrame | null) => void>();
  return {
    get newest() {
      return newest;
    },
    take(frame) {
      newest = frame;
      for (const waiter of [...waiters]) waiter(frame);
    },
    forget() {
      newest = null;
    },
    next(ms) {
      return new Promise((resolve) => {
        const done = (frame: GuardFrame | null): void => {
          waiters.delete(done);
          cancel();
          resolve(frame);
        };
        const cancel = timers.after(ms, () => done(null));
        waiters.add(done);
      });
    },
  };
}

export interface LimitAnswer {
  /** The device confirmed and reads back exactly the limit asked for. */
  readonly kept: boolean;
  readonly counts: number | null;
  readonly mbar: number | null;
}

const READ_BACK_MS = 1500;

/**
 * Arms or lowers the device's own limit and believes only what is read back.
 * @throws CommandError when the device does not answer
 */
export async function setLimit(
  queue: CommandQueue,
  guard: GuardWatch,
  channel: number,
  counts: number,
  mbar: number,
): Promise<LimitAnswer> {
  const reply = await queue.ask({ verb: 'limit', channel, counts, mbar });
  const back = guard.next(READ_BACK_MS);
  await queue.ask({ verb: 'read' });
  const read = await back;
  const kept =
    reply.result === 'ok' &&
    read !== null &&
    read.state !== 'unarmed' &&
    read.channel === channel &&
    read.limitCounts === counts;
  return { kept, counts: read?.limitCounts ?? null, mbar: read?.limitMbar ?? null };
}
