import { createRoot, createSignal } from 'solid-js';
import { beforeEach, expect, it } from 'vitest';
import { createSoundTest } from './sound-test.ts';

const NOON = new Date(2026, 10, 27, 12).getTime();
const DAY_MS = 86_400_000;

beforeEach(() => localStorage.clear());

it('what was said of the sound holds for the day, also after the page was loaded again', () => {
  createRoot((end) => {
    const [now, setNow] = createSignal(NOON);
    const first = createSoundTest(now);
    expect(first.today()).toBeNull();
    first.answer('not-heard');
    expect(first.today()).toBe('not-heard');
    first.answer('heard');
    expect(createSoundTest(now).today()).toBe('heard');
    setNow(NOON + DAY_MS);
    expect(first.today()).toBeNull();
    end();
  });
});

it('a kept answer that is none asks again', () => {
  for (const text of ['{', '3', 'null', '{"day":"2026-11-27","heard":"maybe"}']) {
    localStorage.setItem('steadybar.sound-test', text);
    createRoot((end) => {
      expect(createSoundTest(() => NOON).today()).toBeNull();
      end();
    });
  }
});
