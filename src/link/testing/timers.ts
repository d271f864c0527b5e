import type { Timers } from '../timers.ts';

export interface ManualTimers extends Timers {
  /** Moves the clock on, firing what falls due in order; promises settle between two timers. */
  run(ms: number): Promise<void>;
  /** Moves the clock on and fires nothing: the whole process stood still. */
  stand(ms: number): void;
  readonly pending: number;
}

/** Lets every promise that can settle do so. */
export async function settle(): Promise<void> {
  for (let i = 0; i < 30; i++) await Promise.resolve();
}

/** A clock that only the test moves. */
export function createManualTimers(startUs = 0): ManualTimers {
  let now = startUs;
  let order = 0;
  const due = new Map<number, { atUs: number; call: () => void }>();
  return {
    nowUs: () => now,
    after(ms, call) {
      const key = order++;
      due.set(key, { atUs: now + Math.max(0, ms) * 1000, call });
      return () => {
        due.delete(key);
      };
    },
    async run(ms) {
      const end = now + ms * 1000;
      await settle();
      for (;;) {
        let next: [number, { atUs: number; call: () => void }] | null = null;
        for (const entry of due) {
          if (entry[1].atUs <= end && (next === null || entry[1].atUs < next[1].atUs)) next = entry;
        }
        if (next === null) break;
        due.delete(next[0]);
        now = Math.max(now, next[1].atUs);
        next[1].call();
        await settle();
      }
      now = end;
      await settle();
    },
    stand(ms) {
      now += ms * 1000;
    },
    get pending() {
      return due.size;
    },
  };
}
