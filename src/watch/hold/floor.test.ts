import { describe, expect, it } from 'vitest';
import { LIMITS } from '../../job/testing/givens.ts';
import { floorOf } from './floor.ts';

const knee = { value: 0.25, low: 0.22, high: 0.29 };

describe('the hold floor', () => {
  it('is head + free-inflation pressure + margin, typed before seen', () => {
    expect(floorOf(LIMITS, knee)).toEqual({
      bar: 0.7,
      headBar: 0.3,
      freeInflationBar: 0.3,
      freeInflationFrom: 'typed',
      marginBar: 0.1,
    });
    const seen = floorOf({ ...LIMITS, floorBar: null, freeInflationBar: null }, knee)!;
    // 0.3 of water, 0.29 of the packer's own, 0.1 of margin.
    expect(seen.bar).toBeCloseTo(0.69, 12);
    expect(seen.freeInflationFrom).toBe('seen');
  });

  it('an unknown part makes it unknown, never zero', () => {
    const blank = { ...LIMITS, floorBar: null, freeInflationBar: null };
    expect(floorOf(blank, null)).toMatchObject({ bar: null, freeInflationFrom: 'unknown' });
    expect(floorOf({ ...blank, headBar: null }, knee)!.bar).toBeNull();
    expect(floorOf(null, knee)).toBeNull();
  });

  it('head in the check: 3.500 m of water at 10 °C is 0.3431 bar (IAPWS-95 density, computed)', () => {
    const f = floorOf({ ...LIMITS, floorBar: null, headBar: 0.3431, freeInflationBar: 0.26 }, null)!;
    expect(f.bar).toBeCloseTo(0.7031, 12);
  });
});
