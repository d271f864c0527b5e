import { expect, it } from 'vitest';
import { spanShown, wholeSpan } from './spans-shown.ts';

it('the stage leads: two minutes of a fill, all of a hold', () => {
  for (const stage of ['prepare', 'seat', 'inflate', 'let-down', 'done'] as const)
    expect(spanShown('stage', stage, 20_000)).toBe(120);
  expect(spanShown('stage', 'hold', 4000)).toBe(5400);
});

it('a choice by hand stays', () => {
  expect(spanShown(600, 'hold', 20_000)).toBe(600);
  expect(spanShown('all', 'inflate', 20_000)).toBe(21_600);
});

it('all of a run is shown in few whole spans, whatever its length', () => {
  const spans = new Set(Array.from({ length: 172_801 }, (_, s) => wholeSpan(s)));
  for (const s of [0, 119, 121, 43_200, 90_000]) expect(wholeSpan(s)).toBeGreaterThanOrEqual(s);
  expect(spans.size).toBeLessThanOrEqual(16);
});
