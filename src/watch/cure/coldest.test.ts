import { describe, expect, it } from 'vitest';
import type { Infiltration, Setup } from '../../job/setup.ts';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import type { Least, ProbeNow, Watched } from './coldest.ts';
import { COLD_GROUND_C, coldest, watchOn, waterAt, wetAt } from './coldest.ts';
import { coldestPlausible } from './rates.ts';

const probe = (place: ProbeNow['place'], c: number, checked = true): ProbeNow => ({
  place,
  c,
  uC: 1,
  checked,
});
const ground = { c: 10, uC: 1 };
const NONE: Least = { source: 'none', sinceUs: 0, c: Number.MAX_VALUE };
const DRY = setupOf({ limits: { ...LIMITS, headBar: 0 }, ground });
const WET = setupOf({ ground });

/** After an hour at these readings: for ever no resin could hold them. */
function settled(probes: readonly ProbeNow[], setup: Setup, hours = 1) {
  let w: Watched[] = [];
  for (let t = 0; t < hours * 360; t++) w = watchOn(w, probes, setup, 10);
  return coldest(w, probes, setup, NONE);
}

describe('coldest credible temperature', () => {
  it('lies between the ground and a probe inside', () => {
    for (const place of ['sleeve', 'air'] as const) {
      const one = settled([probe(place, 20)], DRY);
      expect(one.c!.value).toBeGreaterThan(15);
      expect(one.c!.value).toBeLessThan(20);
      expect(one.c!.low).toBeGreaterThan(9);
      expect(one.source).toBe(place === 'air' ? 'air-model' : 'sleeve');
    }
  });

  it('is what a probe on the wall reads, and of several the coldest', () => {
    const one = coldest([], [probe('pipe', 13)], DRY, NONE);
    expect(one).toMatchObject({ c: { value: 13 }, source: 'pipe', wet: null });
    // Half of the probe's expanded uncertainty and the placing, k = 2.
    expect(one.c!.low).toBeCloseTo(13 - 2 * Math.hypot(0.5, 0.4), 9);
    expect(settled([probe('sleeve', 40), probe('pipe', 13)], DRY).source).toBe('pipe');
    expect(settled([probe('pipe', 30), probe('sleeve', 20)], DRY).source).toBe('sleeve');
  });

  it('a probe colder than the ground is believed', () => {
    const one = settled([probe('sleeve', 6)], DRY);
    expect(one.c!.value).toBeLessThan(7.5);
    expect(one.c!.low).toBeLessThan(6);
    expect(one.floor).toBeNull();
  });

  it('where groundwater may seep in, the low end is the ground', () => {
    const one = coldest([], [probe('pipe', 20)], WET, NONE);
    expect(one.wet!.c).toBe(10);
    expect(one.c!.value).toBe(20);
    expect(one.c!.low).toBeLessThan(9);
  });

  it('what was seen at the defect: water that runs is believed, a wall that looks dry only where the level says so', () => {
    const levels = { below: 0, above: 0.1, unknown: null };
    const at = (level: keyof typeof levels, infiltration?: Infiltration) =>
      waterAt(
        setupOf({
          limits: { ...LIMITS, headBar: levels[level] },
          ...(infiltration === undefined ? {} : { infiltration }),
        }),
      );
    for (const seen of ['dripping', 'running'] as const)
      for (const level of ['below', 'above', 'unknown'] as const) expect(at(level, seen)).toBe('flow');
    for (const seen of [undefined, 'not-looked', 'damp', 'none'] as const)
      expect(at('below', seen)).toBe('none');
    for (const level of ['above', 'unknown'] as const) {
      for (const seen of [undefined, 'not-looked', 'damp'] as const) expect(at(level, seen)).toBe('flow');
      expect(at(level, 'none')).toBe('weep');
    }
    expect(waterAt(null)).toBe('flow');
  });

  it('a weep that was missed leaves a third of the warmth and two degrees at most, never less than the ground', () => {
    const g = { c: 10, sd: 0.5 };
    const flow = wetAt('flow', g, { c: 20, sd: 1 })!;
    expect(flow).toEqual({ c: 10, sd: Math.hypot(0.5, 0.5) });
    expect(wetAt('weep', g, { c: 13, sd: 0.9 })).toEqual({ c: 11, sd: Math.hypot(0.5, 0.3, 0.5) });
    expect(wetAt('weep', g, { c: 40, sd: 1 })!.c).toBe(12);
    expect(wetAt('weep', g, { c: 7, sd: 1 })).toEqual(flow);
    expect(wetAt('none', g, { c: 20, sd: 1 })).toBeNull();
    const none = coldest([], [probe('pipe', 16)], setupOf({ ground, infiltration: 'none' }), NONE);
    expect(none.wet!.c).toBe(12);
    expect(none.c!.low).toBeLessThan(coldest([], [probe('pipe', 16)], DRY, NONE).c!.low);
    // Without a probe nothing is known but the ground.
    expect(coldest([], [], setupOf({ ground, infiltration: 'none' }), NONE).wet!.c).toBe(10);
  });

  it('the rise over the coldest reading stands on the ground, whatever the probe’s own error', () => {
    const seen: Least = { source: 'pipe', sinceUs: 0, c: 13 };
    const one = coldest([], [probe('pipe', 17)], DRY, seen);
    expect(one.floor!.c).toBeCloseTo(10 + 4, 9);
    // Another kind of probe has no such memory.
    expect(coldest([], [probe('pipe', 17)], DRY, NONE).floor!.c).toBe(10);
  });

  it('an unchecked probe earns nothing above ground temperature', () => {
    const one = settled([probe('sleeve', 40, false)], DRY, 1);
    expect(one).toMatchObject({ c: { value: 10, low: 9, high: 11 }, source: 'ground' });
  });

  it('without a probe it is the ground; without that, too, it is not said', () => {
    const none = setupOf({ ground: null });
    expect(coldest([], [], DRY, NONE).source).toBe('ground');
    expect(coldest([], [], none, NONE)).toMatchObject({ c: null, source: 'none' });
    expect(coldest([], [probe('ground', 8)], none, NONE).c!.value).toBe(8);
  });

  it('an unknown ground is taken as cold', () => {
    expect(settled([probe('sleeve', 20)], setupOf({ ground: null })).c!.low).toBeLessThanOrEqual(
      COLD_GROUND_C,
    );
    expect(coldestPlausible(null)).toBe(COLD_GROUND_C);
    expect(coldestPlausible(ground)).toBe(9);
  });

  it('a probe that is gone takes its model with it', () => {
    const w = watchOn([], [probe('sleeve', 20), probe('air', 21)], DRY, 10);
    expect(w.map((one) => one.place)).toEqual(['sleeve', 'air']);
    expect(watchOn(w, [probe('air', 21)], DRY, 10).map((one) => one.place)).toEqual(['air']);
    const other = setupOf({
      ...DRY,
      pipe: { innerMm: 200, wallMm: null, material: 'clay', sleeveMm: 4 },
    });
    expect(watchOn(w, [probe('air', 21)], other, 10)[0]!.likely).not.toBe(w[1]!.likely);
  });
});
