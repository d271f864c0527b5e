import { describe, expect, it } from 'vitest';
import { crewFolder, partitionOf } from './fleet-layout.ts';

describe('a crew’s folder', () => {
  it.each([
    ['North', 'north'],
    ['NORTH', 'north'],
    ['A.B., C.D.', 'a%2Eb%2E%2C%20c%2Ed%2E'],
    ['..', '%2E%2E'],
    ['a/b\\c', 'a%2Fb%5Cc'],
    ['Grün', 'gr%C3%BCn'],
    // The same letter, written in two ways.
    ['Gru\u0308n', 'gr%C3%BCn'],
    [null, '__HIVE_DEFAULT_PARTITION__'],
  ])('of %s is %s', (crew, folder) => {
    expect(crewFolder(crew)).toBe(folder);
  });

  it('is short enough for any file system, and another for another crew', () => {
    const [a, b] = [crewFolder(`${'ü'.repeat(80)}a`), crewFolder(`${'ü'.repeat(80)}b`)];
    expect(a).not.toBe(b);
    for (const name of [a, b]) {
      expect(name.length).toBeLessThanOrEqual(80);
      expect(() => decodeURIComponent(name.slice(0, -13)), name).not.toThrow();
    }
  });
});

it('months are those of UTC', () => {
  const begun = Date.UTC(2026, 10, 30, 23, 59, 59);
  expect(partitionOf({ begun, crew: 'x' }).replaceAll('\\', '/')).toBe('month=2026-11/by_crew=x');
  expect(partitionOf({ begun: begun + 1000, crew: 'x' }).replaceAll('\\', '/')).toBe(
    'month=2026-12/by_crew=x',
  );
});
