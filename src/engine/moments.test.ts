import { expect, it } from 'vitest';
import { createManualTimers } from '../link/testing/timers.ts';
import { createMoments } from './moments.ts';

function bench() {
  const timers = createManualTimers(1_000_000);
  const shown: number[] = [];
  const moments = createMoments(timers, () => shown.push(timers.nowUs()));
  return { timers, shown, moments };
}

it('a burst makes one picture, and there are at most 30 a second', async () => {
  const { timers, shown, moments } = bench();
  for (let i = 0; i < 1000; i++) {
    moments.stirred();
    moments.stirred();
    expect(timers.pending).toBe(1);
    await timers.run(1);
  }
  expect(shown.length).toBeGreaterThan(26);
  expect(shown.length).toBeLessThanOrEqual(30);
  const gaps = shown.slice(1).map((us, i) => us - shown[i]!);
  expect(Math.min(...gaps)).toBeGreaterThanOrEqual(33_400);
});

it('what changed is shown soon, never in the midst of it', async () => {
  const { timers, shown, moments } = bench();
  moments.stirred();
  expect(shown).toEqual([]);
  await timers.run(1);
  expect(shown).toHaveLength(1);
  await timers.run(5);
  moments.stirred();
  await timers.run(35);
  expect(shown).toHaveLength(2);
});

it('while nothing comes ages still move, ten times a second', async () => {
  const { timers, shown, moments } = bench();
  for (let i = 0; i < 40; i++) {
    moments.due();
    await timers.run(25);
  }
  expect(shown).toHaveLength(10);
});
