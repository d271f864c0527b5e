import { expect, it } from 'vitest';
import { isBlank, isFull, MOST_POINTS, MOST_STROKES, PAD, strokesPath, strokesSchema } from './strokes.ts';

const name = [
  [100, 200, 180, 90, 260, 240],
  [300, 150, 520, 160],
];

it('a name that was drawn is taken as it is, and drawn again by our own path', () => {
  expect(strokesSchema.safeParse(name).success).toBe(true);
  expect(isBlank(name)).toBe(false);
  expect(strokesPath(name)).toBe('M100 200L180 90L260 240M300 150L520 160');
  expect(strokesPath([[5, 6]])).toBe('M5 6h0');
});

it('an empty pad, a dot and a slip are no signature', () => {
  for (const blank of [[], [[500, 100]], [[500, 100, 520, 300]]]) expect(isBlank(blank)).toBe(true);
});

it('what is no list of points on the pad is refused', () => {
  const bad: readonly unknown[] = [
    [],
    [[]],
    [[1]],
    [[1, 2, 3]],
    [[1.5, 2]],
    [[-1, 2]],
    [[1, PAD.height + 1]],
    [[PAD.width + 1, 2]],
    [['1', '2']],
    'M0 0"/><script>',
    Array.from({ length: MOST_STROKES + 1 }, () => [1, 2]),
    [Array.from({ length: 2 * MOST_POINTS + 2 }, () => 1)],
    [...Array(2)].map(() => Array.from({ length: MOST_POINTS + 2 }, () => 1)),
  ];
  for (const strokes of bad) expect(strokesSchema.safeParse(strokes).success).toBe(false);
  expect(isFull([Array.from({ length: 2 * MOST_POINTS }, () => 1)])).toBe(true);
  expect(isFull(name)).toBe(false);
});
