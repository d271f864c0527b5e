import type { RunLocks } from '../deps.ts';

/** The browser's own locks, over all tabs and workers of the origin. */
export function createWebLocks(): RunLocks {
  return {
    acquire: (name) =>
      new Promise((resolve, reject) => {
        navigator.locks
          .request(`steadybar-${name}`, { ifAvailable: true }, (lock) => {
            if (lock === null) {
              resolve(null);
              return;
            }
            // Held until released, or until this worker ends, whatever ends it.
            return new Promise<void>((release) => resolve(release));
          })
          .catch(reject);
      }),
  };
}
