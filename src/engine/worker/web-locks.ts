import { ANSWER_MS, within } from '../../record/stores/within.ts';
import type { RunLocks } from '../deps.ts';

type Release = () => void;

function request(locks: LockManager, name: string): Promise<Release | null> {
  return new Promise((resolve, reject) => {
    locks
      .request(`steadybar-${name}`, { ifAvailable: true }, (lock) => {
        if (lock === null) {
          resolve(null);
          return;
        }
        // Held until released, or until this worker ends, whatever ends it.
        return new Promise<void>((release) => resolve(release));
      })
      .catch(reject);
  });
}

/**
 * The browser's own locks, over all tabs and workers of the origin. Where the browser does not say whether a name is
 * held, it counts as free: the names only tell two tabs early and in words. A run's port and files can be opened once by
 * themselves, and no guard may wait for a lock.
 */
export function createWebLocks(locks: LockManager = navigator.locks): RunLocks {
  return {
    async acquire(name) {
      const asked = request(locks, name);
      try {
        return await within(ANSWER_MS, `the lock ${name}`, asked);
      } catch {
        // One that comes after all is given back with the name.
        return () => {
          asked.then(
            (release) => release?.(),
            () => undefined,
          );
        };
      }
    },
    async released(name) {
      // It comes to those who wait when the holder is done with it, and is given back at once.
      await locks.request(`steadybar-${name}`, { mode: 'shared' }, () => undefined);
    },
  };
}
