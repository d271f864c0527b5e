import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { HOLD_MS, Key } from './Key.tsx';
import { REST_MS } from './press-guard.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

const tap = (el: HTMLElement) => {
  fireEvent.pointerDown(el, { button: 0 });
  fireEvent.pointerUp(el);
  fireEvent.click(el, { detail: 1 });
};

function shown(hold = false) {
  const [means, setMeans] = createSignal('seat');
  const pressed = vi.fn();
  render(() => (
    <Key means={means()} hold={hold} onPress={() => pressed(means())}>
      Key
    </Key>
  ));
  return { key: screen.getByRole('button'), pressed, setMeans };
}

it('a press counts; one that was begun for what stood there before does not', () => {
  const { key, pressed, setMeans } = shown();
  tap(key);
  expect(pressed).toHaveBeenLastCalledWith('seat');
  fireEvent.pointerDown(key, { button: 0 });
  setMeans('inflate');
  vi.advanceTimersByTime(5000);
  fireEvent.pointerUp(key);
  fireEvent.click(key, { detail: 1 });
  expect(pressed).toHaveBeenCalledTimes(1);
  tap(key);
  expect(pressed).toHaveBeenLastCalledWith('inflate');
});

it('rests after its meaning changed, and shows that it does', () => {
  const { key, pressed, setMeans } = shown();
  setMeans('inflate');
  expect(key.getAttribute('aria-disabled')).toBe('true');
  vi.advanceTimersByTime(REST_MS - 10);
  tap(key);
  expect(pressed).not.toHaveBeenCalled();
  vi.advanceTimersByTime(20);
  expect(key.getAttribute('aria-disabled')).toBeNull();
  tap(key);
  expect(pressed).toHaveBeenCalledExactlyOnceWith('inflate');
});

it('a key that is held down on the keyboard repeats nothing', () => {
  const { key } = shown();
  const again = new KeyboardEvent('keydown', { key: 'Enter', repeat: true, cancelable: true, bubbles: true });
  key.dispatchEvent(again);
  expect(again.defaultPrevented).toBe(true);
});

it('where it has to be held a tap does nothing, letting go takes it back, and a hold counts once', () => {
  const { key, pressed } = shown(true);
  tap(key);
  fireEvent.pointerDown(key, { button: 0 });
  expect(key.classList.contains('holding')).toBe(true);
  vi.advanceTimersByTime(HOLD_MS - 50);
  fireEvent.pointerLeave(key);
  vi.advanceTimersByTime(2000);
  expect(pressed).not.toHaveBeenCalled();
  expect(key.classList.contains('holding')).toBe(false);
  fireEvent.pointerDown(key, { button: 0 });
  vi.advanceTimersByTime(HOLD_MS);
  expect(pressed).toHaveBeenCalledTimes(1);
  fireEvent.pointerUp(key);
  fireEvent.click(key, { detail: 1 });
  expect(pressed).toHaveBeenCalledTimes(1);
});

it('is held by the keyboard too, and pressed twice by a screen reader', () => {
  const { key, pressed } = shown(true);
  fireEvent.keyDown(key, { key: 'Enter' });
  vi.advanceTimersByTime(HOLD_MS);
  fireEvent.keyUp(key, { key: 'Enter' });
  expect(pressed).toHaveBeenCalledTimes(1);
  fireEvent.click(key, { detail: 0 });
  expect(pressed).toHaveBeenCalledTimes(1);
  fireEvent.click(key, { detail: 0 });
  expect(pressed).toHaveBeenCalledTimes(2);
});

it('a hold that began before its meaning changed is broken off', () => {
  const { key, pressed, setMeans } = shown(true);
  fireEvent.pointerDown(key, { button: 0 });
  vi.advanceTimersByTime(HOLD_MS - 100);
  setMeans('done');
  vi.advanceTimersByTime(HOLD_MS);
  expect(pressed).not.toHaveBeenCalled();
});

it('a moment that changes nothing of what it stands for leaves it as it is, held or tapped', () => {
  const [moment, setMoment] = createSignal(0);
  const pressed = vi.fn();
  render(() => (
    <Key means="seat" hold={moment() < 0} onPress={pressed}>
      Key
    </Key>
  ));
  const key = screen.getByRole('button');
  // As a device sends: each moment comes long before a rest is over.
  for (let i = 1; i <= 20; i++) {
    setMoment(i);
    vi.advanceTimersByTime(50);
  }
  expect(key.getAttribute('aria-disabled')).toBeNull();
  tap(key);
  expect(pressed).toHaveBeenCalledTimes(1);
});
