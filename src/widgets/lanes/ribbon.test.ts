import { expect, it } from 'vitest';
import { placeSpans, type StageSpan } from './ribbon.ts';

const SPANS: readonly StageSpan[] = [
  { stage: 'prepare', attempt: 1, fromS: 0, toS: 10 },
  { stage: 'inflate', attempt: 1, fromS: 10, toS: 30 },
  { stage: 'hold', attempt: 1, fromS: 30, toS: null },
];

it('stages lie inside the window, with a seam between them; those outside are dropped', () => {
  const placed = placeSpans(SPANS, 20, 40, 16, 416, 660);
  expect(placed.map((p) => [p.stage, p.x, p.w, p.isNow])).toEqual([
    ['inflate', 16, 197, false],
    ['hold', 216, 444, true],
  ]);
  expect(placeSpans(SPANS, 5, 5, 0, 100, 200)).toEqual([]);
});

it('the current stage has room for its name however short it is', () => {
  const [, , now] = placeSpans(SPANS, -30, 30, 0, 400, 640);
  expect(now).toMatchObject({ stage: 'hold', x: 400, w: 240 });
});

it('a window that moves by less than a px changes nothing', () => {
  const at = (s: number) => placeSpans(SPANS, s - 60, s, 0, 400, 640).map((p) => [p.x, p.w]);
  expect(at(40.01)).toEqual(at(40.02));
});
