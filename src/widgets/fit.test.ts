import { expect, it } from 'vitest';
import { CAP_EM, fitBlock, fit as largest, linesOf, widthEm } from './fit.ts';

// Without a page nothing can be measured: every letter counts alike, and the rest is arithmetic.
const LETTER = widthEm('x');

it('one line takes the width or the height, whichever ends first', () => {
  expect(largest('1.12', { width: 400, height: 1000 })).toBe(Math.floor(400 / (4 * LETTER)));
  expect(largest('1.12', { width: 4000, height: 76 })).toBe(76 / CAP_EM);
  // Closer letters leave room for larger ones.
  expect(largest('1.12', { width: 400, height: 1000, spacingEm: -0.035 })).toBeGreaterThan(
    largest('1.12', { width: 400, height: 1000 }),
  );
});

it('of several lines the longest decides', () => {
  const room = { width: 300, height: 1000 };
  expect(largest(['AIR OFF', 'OPEN VENT'], room)).toBe(largest('OPEN VENT', room));
});

it('a text that may wrap takes the size at which its lines are not too many', () => {
  const text = 'one two three four five six';
  const wide = fitBlock(text, { width: 1000, height: 60 }, { most: 40, least: 10 });
  expect(wide).toBe(40);
  const narrow = fitBlock(text, { width: 200, height: 60 }, { most: 40, least: 10 });
  expect(narrow).toBeLessThan(40);
  expect(narrow).toBeGreaterThan(10);
  expect(fitBlock(text, { width: 10, height: 10 }, { most: 40, least: 12 })).toBe(12);
});

it('what stands beside a line takes of its width', () => {
  const room = { width: 400, height: 1000 };
  expect(largest('1.12', { ...room, besideEm: 0.6 })).toBe(Math.floor(400 / (4 * LETTER + 0.6)));
});

it('a text of several parts is fitted as a whole, words that no-break spaces hold stay together', () => {
  const room = { width: 12 * LETTER * 20, height: 2.4 * 20 };
  const bold = { text: 'one two', weight: 700, besideEm: 0 } as const;
  expect(fitBlock([bold, { text: 'three four', weight: 400 }], room, { most: 40, least: 1 })).toBe(20);
  // The held words stand on one line, which has room for fewer letters.
  const held = { text: 'three\u00a0four\u00a0six', weight: 400 } as const;
  expect(fitBlock([bold, held], room, { most: 40, least: 1 })).toBe(Math.floor((12 * 20) / 14));
});

it('counts the lines of a text', () => {
  const width = 9 * LETTER * 10;
  expect(linesOf('one two', 10, width)).toBe(1);
  expect(linesOf('one two three', 10, width)).toBe(2);
});
