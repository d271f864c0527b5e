import { createRoot, createSignal } from 'solid-js';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { createAutoReturn, UNTOUCHED_MS } from './auto-return.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

function bench() {
  const [waiting, setWaiting] = createSignal<string | null>(null);
  const back = vi.fn();
  const end = createRoot((dispose) => {
    createAutoReturn(waiting, back);
    return dispose;
  });
  return { setWaiting, back, end };
}

it('goes back when nobody touched the page for ten seconds', () => {
  const { setWaiting, back, end } = bench();
  vi.advanceTimersByTime(2 * UNTOUCHED_MS);
  expect(back).not.toHaveBeenCalled();
  setWaiting('rising 1');
  vi.advanceTimersByTime(UNTOUCHED_MS - 1);
  expect(back).not.toHaveBeenCalled();
  vi.advanceTimersByTime(1);
  expect(back).toHaveBeenCalledTimes(1);
  end();
});

it('whoever works on the page is not taken away from it', () => {
  const { setWaiting, back, end } = bench();
  setWaiting('rising 1');
  for (const touch of ['keydown', 'pointerdown', 'input', 'wheel']) {
    vi.advanceTimersByTime(UNTOUCHED_MS - 100);
    dispatchEvent(new Event(touch));
  }
  expect(back).not.toHaveBeenCalled();
  vi.advanceTimersByTime(UNTOUCHED_MS);
  expect(back).toHaveBeenCalledTimes(1);
  end();
});

it('an alarm that is over or acknowledged takes nobody back', () => {
  const { setWaiting, back, end } = bench();
  setWaiting('rising 1');
  vi.advanceTimersByTime(5000);
  setWaiting(null);
  vi.advanceTimersByTime(2 * UNTOUCHED_MS);
  expect(back).not.toHaveBeenCalled();
  end();
});
