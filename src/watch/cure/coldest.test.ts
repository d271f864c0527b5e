import { describe, expect, it } from 'vitest';
import type { ProbeNow } from './coldest.ts';
import { COLD_GROUND_C, coldest, coldestPlausible } from './coldest.ts';

const probe = (place: ProbeNow['place'], c: number, checked = true): ProbeNow => ({
  place,
  c,
  uC: 1,
  checked,
});
const ground = { c: 10, uC: 1 };

describe('coldest credible temperature', () => {
  it('lies between the ground and a probe inside', () => {
    for (const place of ['sleeve', 'air'] as const) {
      const one = coldest([probe(place, 20)], ground);
      expect(one.c).toEqual({ value: 15, low: 9, high: 21 });
      expect(one.source).toBe(place === 'air' ? 'air-model' : 'sleeve');
    }
  });

  it('is what a probe on the wall reads, and of several the coldest', () => {
    expect(coldest([probe('pipe', 13)], ground)).toEqual({
      c: { value: 13, low: 12, high: 14 },
      source: 'pipe',
    });
    expect(coldest([probe('sleeve', 40), probe('pipe', 13)], ground).source).toBe('pipe');
    expect(coldest([probe('pipe', 30), probe('sleeve', 20)], ground).source).toBe('sleeve');
  });

  it('a probe colder than the ground is believed', () => {
    const one = coldest([probe('sleeve', 6)], ground);
    expect(one.c!.value).toBe(6);
    expect(one.c!.low).toBe(5);
  });

  it('an unchecked probe earns nothing above ground temperature', () => {
    expect(coldest([probe('sleeve', 40, false)], ground)).toEqual({
      c: { value: 10, low: 9, high: 11 },
      source: 'ground',
    });
  });

  it('without a probe it is the ground; without that, too, it is not said', () => {
    expect(coldest([], ground).source).toBe('ground');
    expect(coldest([], null)).toEqual({ c: null, source: 'none' });
    expect(coldest([probe('ground', 8)], null).c!.value).toBe(8);
  });

  it('an unknown ground is taken as cold', () => {
    expect(coldest([probe('sleeve', 20)], null).c!.low).toBe(COLD_GROUND_C);
    expect(coldestPlausible(null)).toBe(COLD_GROUND_C);
    expect(coldestPlausible(ground)).toBe(9);
  });
});
