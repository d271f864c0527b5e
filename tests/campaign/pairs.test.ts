/** A small fixed slice of the campaign of pairs, with bounds that the full one (docs/validation.md) keeps with room. */
import { describe, expect, it } from 'vitest';
import type { Kind } from './fills-scenario.ts';
import { type PairRecord, type PairWay, workPair } from './pairs.ts';
import { firstWord, used } from './pairs-run.ts';
import { quantile } from './stats.ts';

const run = (kind: Kind, way: PairWay, count: number): PairRecord[] =>
  Array.from({ length: count }, (_, i) => workPair({ world: 'common', kind, way, seed: 630_001 + i }));

describe('campaign of pairs, a slice', () => {
  it('a supply over rated is told before the valve is opened, a good one cried at by nobody', () => {
    for (const r of run('high', 'sound', 3)) expect(r.with_.supplyS!).toBeLessThan(r.openedS);
    for (const r of run('normal', 'sound', 3))
      expect([r.with_.urgentS, r.with_.differS]).toEqual([null, null]);
  });

  it('a regulator that sticks open is told with most of its time', () => {
    const shares = run('stuck', 'sound', 6).flatMap(
      (r) => used(r.failedS, r.ratedS, firstWord(r.with_)) ?? [],
    );
    expect(shares.length).toBeGreaterThan(1);
    expect(quantile(shares, 0.5)).toBeGreaterThan(0.9);
  });

  it('two sensors that are swapped are found before the valve is opened', () => {
    for (const r of run('normal', 'swapped', 2)) expect(r.with_.differS!).toBeLessThan(r.openedS);
  });
});
