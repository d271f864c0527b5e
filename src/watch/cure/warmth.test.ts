import { describe, expect, it } from 'vitest';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import { QUICK_RESIN } from '../../rig/cure.ts';
import { isothermalS } from '../../rig/testing/isothermal.ts';
import { Sleeve } from '../../rig/testing/sleeve.ts';
import { createCure, cureTick, cureView } from './cure.ts';
import { cureWarmth } from './warmth.ts';

const PIPE = { innerMm: 150, wallMm: 18, material: 'clay', sleeveMm: 5 } as const;
const setup = setupOf({
  limits: { ...LIMITS, headBar: 0 },
  ground: { c: 10, uC: 1 },
  pipe: PIPE,
  resin: {
    name: 'R',
    criterion: 'let-down',
    points: [10, 20, 30].map((c) => ({ c, minutes: isothermalS(QUICK_RESIN, c, 0.85) / 60 })),
    lowestC: 5,
    potLifeMin: null,
    exotherm: 'unknown',
    expectedRiseK: null,
  },
});

/** The simulated sleeve into the cure, for so many minutes. */
function follow(minutes: number, withProbe: boolean) {
  const sleeve = new Sleeve({
    kinetics: QUICK_RESIN,
    groundC: 10,
    sleeveC: 15,
    packerC: 13,
    sleeveMm: 5,
    wallMm: 18,
  });
  const s = createCure(0, 1, 'inflate', () => {});
  let t = 5;
  for (; t <= minutes * 60; t += 5) {
    sleeve.step(5);
    const c = sleeve.truth.sleeveInnerC;
    const probes = withProbe ? [{ place: 'sleeve' as const, c, uC: 1, checked: true }] : [];
    cureTick(s, t * 1e6, { setup, probes }, () => {});
  }
  let peakC = sleeve.truth.sleeveInnerC;
  for (let more = 0; more < 3600; more += 5) {
    sleeve.step(5);
    peakC = Math.max(peakC, sleeve.truth.sleeveInnerC);
  }
  return { s, t, peakC };
}

describe('warmth to come', () => {
  it('is there with a probe, ordered, and the same whoever looked before', () => {
    const { s, t, peakC } = follow(12, true);
    const first = cureWarmth(s)!;
    // The simulated sleeve, whose kinetics the sketches do not know.
    expect(first.peakC.low).toBeLessThan(peakC + 1);
    expect(first.peakC.high).toBeGreaterThan(peakC - 1);
    expect(first.peakC.low).toBeLessThanOrEqual(first.peakC.value);
    expect(first.peakC.value).toBeLessThanOrEqual(first.peakC.high);
    cureView(s, t * 1e6, 0);
    expect(cureWarmth(s)).toEqual(first);
    expect(cureWarmth(structuredClone(s))).toEqual(first);
  });

  it('says nothing without a probe, without a sheet or after the let-down', () => {
    expect(cureWarmth(follow(3, false).s)).toBeNull();
    const { s } = follow(3, true);
    expect(cureWarmth({ ...s, fit: null })).toBeNull();
    expect(cureWarmth({ ...s, ended: true })).toBeNull();
  });
});
