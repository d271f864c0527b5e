/** After a refusal (low battery, a policy) the lock is asked for again this late, ms. */
const AGAIN_MS = 30_000;

/**
 * Keeps the screen on while wanted. The lock is lost whenever the page is hidden: asked again when visible. One that is
 * refused is asked for again slowly: the check comes with every moment.
 * @param nowMs a clock that only goes forward
 */
export function keepAwake(
  wanted: () => boolean,
  onState: (held: boolean) => void,
  nowMs: () => number = () => performance.now(),
): { check(): void } {
  let lock: WakeLockSentinel | null = null;
  let asking = false;
  let notBeforeMs = Number.NEGATIVE_INFINITY;
  const check = () => {
    if (!('wakeLock' in navigator)) return;
    if (!wanted()) {
      if (lock !== null) void lock.release();
      lock = null;
      return;
    }
    if (lock !== null || asking || document.visibilityState !== 'visible' || nowMs() < notBeforeMs) return;
    asking = true;
    navigator.wakeLock
      .request('screen')
      .then(
        (held) => {
          lock = held;
          onState(true);
          held.addEventListener('release', () => {
            lock = null;
            onState(false);
          });
        },
        () => {
          notBeforeMs = nowMs() + AGAIN_MS;
          onState(false); // the mark on the screen says it
        },
      )
      .finally(() => {
        asking = false;
      });
  };
  document.addEventListener('visibilitychange', () => {
    // Who looks at the page again may have changed what refused it.
    notBeforeMs = Number.NEGATIVE_INFINITY;
    check();
  });
  return { check };
}
