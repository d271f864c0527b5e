import { type Accessor, createEffect, createSignal, on, onCleanup, untrack } from 'solid-js';

/**
 * Digits change three times a second, ms: an eye reads no more of them (common practice of panel meters, no source), a count
 * of seconds stays even, and the frames between have nothing to do. The ladder's pointer follows every reading.
 */
export const CALM_MS = 1000 / 3;
/** A moment comes at least so often while anything is heard, ms. */
const NEXT_MS = 50;

/**
 * The same value, passed on once in each stretch of `ms`: what is read by eyes need not change thirty times a second. The
 * stretches are those of the clock, so that all that is calm changes in the same frame. Where `sign` tells another it is
 * passed on at once, and the last of a burst is never lost.
 */
export function createCalm<T>(
  source: Accessor<T>,
  sign: (value: T) => string,
  ms = CALM_MS,
  now: () => number = () => performance.now(),
): Accessor<T> {
  const first = untrack(source);
  const [calm, setCalm] = createSignal<T>(first, { equals: false });
  const stretch = () => Math.floor(now() / ms);
  let passed = stretch();
  let last = sign(first);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const pass = () => {
    clearTimeout(timer);
    timer = undefined;
    passed = stretch();
    const value = untrack(source);
    last = sign(value);
    setCalm(() => value);
  };
  createEffect(
    on(
      source,
      (value) => {
        if (stretch() !== passed || sign(value) !== last) pass();
        // Passed on with the next value, in the work that one makes anyway; the timer is for the last of all.
        else timer ??= setTimeout(pass, (passed + 1) * ms - now() + NEXT_MS);
      },
      { defer: true },
    ),
  );
  onCleanup(() => clearTimeout(timer));
  return calm;
}
