import { fireEvent } from '@solidjs/testing-library';

/** Holds a key that is to be held, as a screen reader does: by two presses that have no length. */
export function held(key: HTMLElement): void {
  fireEvent.click(key, { detail: 0 });
  fireEvent.click(key, { detail: 0 });
}
