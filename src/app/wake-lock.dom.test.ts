import { expect, it } from 'vitest';
import { keepAwake } from './wake-lock.ts';

it('a lock that is refused is asked for again slowly, and at once when the page is looked at again', async () => {
  let asked = 0;
  let nowMs = 0;
  const told: boolean[] = [];
  Object.defineProperty(navigator, 'wakeLock', {
    configurable: true,
    value: {
      request: () => {
        asked++;
        return Promise.reject(new Error('low battery'));
      },
    },
  });
  const lock = keepAwake(
    () => true,
    (held) => told.push(held),
    () => nowMs,
  );
  const seconds = async (n: number) => {
    for (let i = 0; i < n * 30; i++) {
      nowMs += 1000 / 30;
      lock.check();
      for (let turn = 0; turn < 6; turn++) await Promise.resolve();
    }
  };
  await seconds(10);
  expect(asked).toBe(1);
  await seconds(60);
  expect(asked).toBe(3);
  expect(told).toEqual([false, false, false]);
  document.dispatchEvent(new Event('visibilitychange'));
  expect(asked).toBe(4);
});
