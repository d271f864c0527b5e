/**
 * A small fixed slice of the campaign of sleeves, with bounds that the full one (docs/validation.md) keeps with room.
 * Seeds are fixed, so that the figures are the same each time; the bounds are what must never be lost.
 */
import { describe, expect, it } from 'vitest';
import { PLACES, workSleeve } from './sleeves.ts';
import { drawHeated, HEATED_PROBES } from './sleeves-heated.ts';
import {
  isEarly,
  judgeSleeve,
  type METHODS,
  ratioOf,
  readSheet,
  type SleeveResult,
} from './sleeves-judge.ts';
import { drawSleeve, PROBES } from './sleeves-scenario.ts';
import { quantile } from './stats.ts';

function run(probe: (typeof PROBES)[number], count: number): SleeveResult[] {
  const out: SleeveResult[] = [];
  for (let i = 1; i <= count; i++) out.push(workSleeve({ probe, seed: 300_000 + i, known: null }));
  return out;
}
const median = (list: readonly SleeveResult[], m: (typeof METHODS)[number]) =>
  quantile(
    list.map((r) => ratioOf(r, m)),
    0.5,
  );
const early = (list: readonly SleeveResult[], m: (typeof METHODS)[number]) =>
  list.filter((r) => isEarly(r, m)).length;

describe('campaign of sleeves, a slice', () => {
  it('with a probe it is never early, waits less than the ground’s time in the dry, and beats the hasty ways', () => {
    const all: SleeveResult[] = [];
    for (const place of PLACES) {
      const list = run(place, 24);
      all.push(...list);
      expect(list.every((r) => r.trueS !== null)).toBe(true);
      expect(early(list, 'program')).toBe(0);
    }
    expect(median(all, 'program')).toBeLessThan(1.5);
    const dry = all.filter((r) => r.water === 'below');
    expect(dry.length).toBeGreaterThan(30);
    expect(median(dry, 'program')).toBeLessThan(1.35);
    expect(median(dry, 'program')).toBeLessThan(median(dry, 'ground'));
    expect(early(all, 'line20') / all.length).toBeGreaterThan(0.4);
    expect(early(all, 'probe') / all.length).toBeGreaterThan(0.3);
  });

  it('without a probe the ground is waited for', () => {
    const list = run('ground', 12);
    expect(early(list, 'program')).toBe(0);
    expect(median(list, 'program')).toBeGreaterThan(1.2);
  });

  it('in a warmed packer it is never early; taken for the resin’s own heat the same warmth is', () => {
    let hasty = 0;
    for (const probe of HEATED_PROBES)
      for (let i = 1; i <= 12; i++) {
        const s = drawHeated(probe, 300_000 + i);
        const r = judgeSleeve(s);
        expect(r.trueS).not.toBeNull();
        expect(isEarly(r, 'program')).toBe(false);
        if (probe !== 'pipe') hasty += isEarly(judgeSleeve({ ...s, heating: 'none' }), 'program') ? 1 : 0;
      }
    expect(hasty).toBeGreaterThan(0);
  });

  it('a slice of it drawn anew is the same', () => {
    for (const probe of PROBES) expect(drawSleeve(probe, 300_001)).toEqual(drawSleeve(probe, 300_001));
    expect(workSleeve({ probe: 'air', seed: 300_001, known: null })).toEqual(
      workSleeve({ probe: 'air', seed: 300_001, known: null }),
    );
  });

  it('scoring: early is before the truth; what never gets there makes any word early', () => {
    const one = workSleeve({ probe: 'pipe', seed: 300_002, known: null });
    expect(isEarly({ ...one, trueS: one.declaredS.program! + 1 }, 'program')).toBe(true);
    expect(isEarly({ ...one, trueS: one.declaredS.program! - 1 }, 'program')).toBe(false);
    expect(isEarly({ ...one, trueS: null }, 'program')).toBe(true);
    expect(ratioOf({ ...one, declaredS: { ...one.declaredS, program: null } }, 'program')).toBe(
      Number.POSITIVE_INFINITY,
    );
  });

  it('reads a table as one would by hand', () => {
    const read = readSheet([
      { c: 10, minutes: 120 },
      { c: 20, minutes: 60 },
    ]);
    expect(read(10)).toBeCloseTo(120, 9);
    expect(read(20)).toBeCloseTo(60, 9);
    expect(read(0)).toBeGreaterThan(240);
    expect(readSheet([{ c: 20, minutes: 60 }])(10)).toBe(120);
  });
});
