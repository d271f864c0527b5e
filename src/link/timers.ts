/**
 * Time as the link sees it: a monotonic clock and one-shot timers, handed in, so that every time-out can be
 * tested without waiting for it and the room stays free of the platform.
 */
export interface Timers {
  /** Monotonic, µs, any origin. */
  nowUs(): number;
  /** Calls once after so many milliseconds; the returned function cancels and may be called at any time. */
  after(ms: number, call: () => void): () => void;
}

/** Settles after so many milliseconds. */
export function pause(timers: Timers, ms: number): Promise<void> {
  return new Promise((resolve) => {
    timers.after(ms, resolve);
  });
}
