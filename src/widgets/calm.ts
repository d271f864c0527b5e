import { type Accessor, createEffect, createSignal, on, onCleanup, untrack } from 'solid-js';

/** Digits change five times a second at most, ms. */
export const CALM_MS = 200;

/**
 * The same value, passed on at most every `ms`: what is read by eyes need not change thirty times a second. Where `sign`
 * tells another it is passed on at once, and the last of a burst is never lost.
 */
export function createCalm<T>(
  source: Accessor<T>,
  sign: (value: T) => string,
  ms = CALM_MS,
  now: () => number = () => performance.now(),
): Accessor<T> {
  const first = untrack(source);
  const [calm, setCalm] = createSignal<T>(first, { equals: false });
  let passed = now();
  let last = sign(first);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const pass = () => {
    clearTimeout(timer);
    timer = undefined;
    passed = now();
    const value = untrack(source);
    last = sign(value);
    setCalm(() => value);
  };
  createEffect(
    on(
      source,
      (value) => {
        const left = passed + ms - now();
        if (left <= 0 || sign(value) !== last) pass();
        else timer ??= setTimeout(pass, left);
      },
      { defer: true },
    ),
  );
  onCleanup(() => clearTimeout(timer));
  return calm;
}
