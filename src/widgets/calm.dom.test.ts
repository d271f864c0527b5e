import { createRoot, createSignal } from 'solid-js';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { CALM_MS, createCalm } from './calm.ts';

beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] }));
afterEach(() => void vi.useRealTimers());

function bench() {
  return createRoot((end) => {
    const [value, setValue] = createSignal({ bar: 0, stage: 'hold' });
    const calm = createCalm(value, (v) => v.stage);
    return { calm, setValue, end };
  });
}

it('passes a value on at most three times a second, and never loses the last', async () => {
  const { calm, setValue, end } = bench();
  const seen: number[] = [];
  for (let i = 1; i <= 60; i++) {
    setValue({ bar: i, stage: 'hold' });
    await vi.advanceTimersByTimeAsync(33);
    if (seen.at(-1) !== calm().bar) seen.push(calm().bar);
  }
  expect(seen.length).toBeLessThanOrEqual((60 * 33) / CALM_MS + 2);
  await vi.advanceTimersByTimeAsync(CALM_MS + 60);
  expect(calm().bar).toBe(60);
  end();
});

it('another sign is passed on at once', () => {
  const { calm, setValue, end } = bench();
  setValue({ bar: 1, stage: 'hold' });
  expect(calm().bar).toBe(0);
  setValue({ bar: 2, stage: 'let-down' });
  expect(calm()).toEqual({ bar: 2, stage: 'let-down' });
  end();
});
