/**
 * Whether a press was meant for what stands at its place now. What has just come was not yet read, and a press that began
 * before it came was meant for what stood there before, however late it ends.
 */

export interface PressGuard {
  /** Something else stands at this place from now on. */
  changed(): void;
  /** A press begins: pointer down, or the first of a key's repeats. */
  begun(): void;
  /** It ended as a press: may it count? A press without a begin (of a screen reader) began now. */
  meant(): boolean;
}

/** Time to see that another thing stands there, ms (common practice, no source). */
export const REST_MS = 700;

export function createPressGuard(
  restMs: number = REST_MS,
  now: () => number = () => performance.now(),
): PressGuard {
  let changedAt = Number.NEGATIVE_INFINITY;
  let begunAt: number | null = null;
  return {
    changed: () => {
      changedAt = now();
    },
    begun: () => {
      begunAt = now();
    },
    meant: () => {
      const at = begunAt ?? now();
      begunAt = null;
      return at - changedAt >= restMs;
    },
  };
}
