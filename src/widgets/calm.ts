import { type Accessor, createEffect, createSignal, on, onCleanup, untrack } from 'solid-js';

/** Digits change five times a second at most, ms. */
export const CALM_MS = 200;

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
        else timer ??= setTimeout(pass, (passed + 1) * ms - now());
      },
      { defer: true },
    ),
  );
  onCleanup(() => clearTimeout(timer));
  return calm;
}
