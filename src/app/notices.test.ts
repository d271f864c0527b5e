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
const said = () => [notices.fault()?.text ?? null, notices.news()?.text ?? null];

it('news give way to what comes next, and go by themselves', () => {
  notices.say('kept');
  notices.say('written');
  expect(said()).toEqual([null, 'written']);
  vi.advanceTimersByTime(7999);
  expect(said()).toEqual([null, 'written']);
  vi.advanceTimersByTime(2);
  expect(said()).toEqual([null, null]);
});

it('a fault is not displaced by news, nor they by it', () => {
  const undo = vi.fn();
  notices.say('removed', undo);
  notices.fail('damaged');
  expect(said()).toEqual(['damaged', 'removed']);
  notices.news()?.undo?.();
  expect(undo).toHaveBeenCalledOnce();
  notices.say('kept');
  expect(said()).toEqual(['damaged', 'kept']);
  vi.advanceTimersByTime(19_000);
  expect(said()).toEqual(['damaged', null]);
  vi.advanceTimersByTime(1001);
  expect(said()).toEqual([null, null]);
});

it('several faults are shown one after another, each text once, and are put away by hand', () => {
  notices.fail('first');
  notices.fail('second');
  notices.fail('second');
  notices.fail('third');
  notices.dismissFault();
  expect(notices.fault()?.text).toBe('second');
  vi.advanceTimersByTime(20_001);
  expect(notices.fault()?.text).toBe('third');
  notices.dismissFault();
  expect(notices.fault()).toBeNull();
});

it('a fault that comes again stays its whole time again; no more wait than can be read', () => {
  notices.fail('gone');
  vi.advanceTimersByTime(15_000);
  notices.fail('gone');
  vi.advanceTimersByTime(15_000);
  expect(notices.fault()?.text).toBe('gone');
  for (let k = 0; k < 50; k++) notices.fail(`fault ${k}`);
  let seen = 0;
  while (notices.fault() !== null) {
    notices.dismissFault();
    seen++;
  }
  expect(seen).toBe(6);
});
