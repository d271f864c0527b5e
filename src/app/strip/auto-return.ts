import { type Accessor, createEffect, onCleanup } from 'solid-js';

/** Untouched for so long with an urgent alarm on, another page gives way to the live one, ms. */
export const UNTOUCHED_MS = 10_000;

/** Presses, keys and turns of a wheel: somebody is at the page. */
const TOUCHES = ['pointerdown', 'pointermove', 'keydown', 'wheel', 'input'] as const;

/**
 * Calls `back` once nobody has touched the page for a while, as long as something waits there.
 * @param waiting what waits; another one starts the time anew
 */
export function createAutoReturn(waiting: Accessor<string | null>, back: () => void): void {
  createEffect(() => {
    if (waiting() === null) return;
    let timer = setTimeout(back, UNTOUCHED_MS);
    const again = () => {
      clearTimeout(timer);
      timer = setTimeout(back, UNTOUCHED_MS);
    };
    for (const touch of TOUCHES) addEventListener(touch, again, { passive: true });
    onCleanup(() => {
      clearTimeout(timer);
      for (const touch of TOUCHES) removeEventListener(touch, again);
    });
  });
}
