/** Looks at the wall clock beside the monotonic one. */
export interface WallClock {
  /** Seconds by which the wall clock jumped since the last look (a sleep, or it was set); null: it did not. */
  jumpS(): number | null;
}

/** The two differ by more than this from what they did: sleep, or a set clock. */
const JUMP_MS = 2000;
/** Slower than this share they only drift apart: a day's hold must not end in a jump that never was. */
const DRIFT = 1e-3;

/**
 * @param utcMs the wall clock
 * @param nowUs the monotonic one
 */
export function createWallClock(utcMs: () => number, nowUs: () => number): WallClock {
  const lead = (): number => utcMs() - nowUs() / 1000;
  let leadMs = lead();
  let lookedUs = nowUs();

  return {
    jumpS() {
      const now = nowUs();
      const offMs = lead() - leadMs;
      const mostMs = (DRIFT * (now - lookedUs)) / 1000;
      lookedUs = now;
      if (Math.abs(offMs) > JUMP_MS) {
        leadMs += offMs;
        return Math.round(offMs / 100) / 10;
      }
      leadMs += Math.max(-mostMs, Math.min(mostMs, offMs));
      return null;
    },
  };
}
