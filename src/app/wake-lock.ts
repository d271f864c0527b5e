/** Keeps the screen on while wanted. The lock is lost whenever the page is hidden: asked again when visible. */
export function keepAwake(wanted: () => boolean, onState: (held: boolean) => void): { check(): void } {
  let lock: WakeLockSentinel | null = null;
  let asking = false;
  const check = () => {
    if (!('wakeLock' in navigator)) return;
    if (!wanted()) {
      if (lock !== null) void lock.release();
      lock = null;
      return;
    }
    if (lock !== null || asking || document.visibilityState !== 'visible') return;
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
        () => onState(false), // low battery or a policy: the mark on the screen says it
      )
      .finally(() => {
        asking = false;
      });
  };
  document.addEventListener('visibilitychange', check);
  return { check };
}
