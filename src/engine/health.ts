import type { StoreErrorCode } from '../record/stores/store.ts';

/** `end`: pages of a run that has ended and still waits for its disk. `log`: the witness log. `left`: what hangs on the line. */
export type StorePart = 'pages' | 'trace' | 'list' | 'snapshot' | 'left' | 'end' | 'log';

/**
 * One answer to 'is everything being kept?' out of the parts that write: told on a change only, so that one full
 * disk is one alarm and it ends when the last part writes again.
 */
export interface StoreHealth {
  set(part: StorePart, code: StoreErrorCode | null): void;
  /**
   * A run begins or goes on: what failed before is over.
   * @param told fault that the run has been told of and believes; null: none
   */
  begin(told: string | null): void;
}

export function createStoreHealth(tell: (ok: boolean, code: string) => void): StoreHealth {
  const faults = new Map<StorePart, StoreErrorCode>();
  let told: string | null = null;
  function say(): void {
    const [first] = faults.values();
    const now = first ?? null;
    if (now === told) return;
    told = now;
    tell(now === null, now ?? '');
  }
  return {
    set(part, code) {
      if (code === null) faults.delete(part);
      else faults.set(part, code);
      say();
    },
    begin(believed) {
      faults.clear();
      told = believed;
    },
  };
}
