import { expect, it } from 'vitest';
import { keepAwake } from './wake-lock.ts';

it('a lock that is refused is asked for again slowly, and at once when the page is looked at again', async () => {
  let nowMs = 0;
  const told: boolean[] = [];
  Object.defineProperty(navigator, 'wakeLock', {
    configurable: true,
    value: {
      request: () => Promise.reject(new Error('low battery')),
    },
  });
  const lock = keepAwake(
    () => true,
    (held) => told.push(held),
    () => nowMs,
  );
  const turns = async () => {
    for (let turn = 0; turn < 6; turn++) await Promise.resolve();
  };
  const seconds = async (n: number) => {
    for (let i = 0; i < n * 30; i++) {
      nowMs += 1000 / 30;
      lock.check();
      await turns();
    }
  };
  await seconds(10);
  expect(told).toEqual([false]);
  await seconds(60);
  expect(told).toEqual([false, false, false]);
  document.dispatchEvent(new Event('visibilitychange'));
  await turns();
  expect(told).toEqual([false, false, false, false]);
});
