import { createRoot } from 'solid-js';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { createNotices, type Notices } from './notices.ts';

let notices: Notices;
let dispose: () => void;
beforeEach(() => {
  vi.useFakeTimers();
  createRoot((end) => {
    dispose = end;
    notices = createNotices();
  });
});
afterEach(() => {
  dispose();
  vi.useRealTimers();
});
const text = () => notices.shown()?.text ?? null;

it('news give way to what comes next, and go by themselves', () => {
  notices.say('kept');
  notices.say('written');
  expect(text()).toBe('written');
  vi.advanceTimersByTime(7999);
  expect(text()).toBe('written');
  vi.advanceTimersByTime(2);
  expect(text()).toBeNull();
});

it('a fault is not displaced by news: they wait behind it', () => {
  notices.fail('damaged');
  notices.say('kept');
  expect(text()).toBe('damaged');
  vi.advanceTimersByTime(19_000);
  expect(text()).toBe('damaged');
  vi.advanceTimersByTime(1001);
  expect(text()).toBe('kept');
  vi.advanceTimersByTime(8001);
  expect(text()).toBeNull();
});

it('several faults are shown one after another, each text once, and are put away by hand', () => {
  notices.fail('first');
  notices.fail('second');
  notices.fail('second');
  notices.fail('third');
  notices.dismiss();
  expect(text()).toBe('second');
  notices.dismiss();
  expect(text()).toBe('third');
  notices.dismiss();
  expect(text()).toBeNull();
});

it('a fault takes the place of news at once; a way back waits behind it', () => {
  const undo = vi.fn();
  notices.say('removed', undo);
  notices.fail('not stored');
  expect(text()).toBe('not stored');
  notices.dismiss();
  expect(text()).toBe('removed');
  notices.shown()?.undo?.();
  expect(undo).toHaveBeenCalledOnce();
  notices.say('said');
  notices.fail('again');
  notices.dismiss();
  expect(text()).toBeNull();
});

it('a fault that comes again stays its whole time again; no more wait than can be read', () => {
  notices.fail('gone');
  vi.advanceTimersByTime(15_000);
  notices.fail('gone');
  vi.advanceTimersByTime(15_000);
  expect(text()).toBe('gone');
  for (let k = 0; k < 50; k++) notices.fail(`fault ${k}`);
  let seen = 0;
  while (notices.shown() !== null) {
    notices.dismiss();
    seen++;
  }
  expect(seen).toBe(6);
});
