import { describe, expect, it } from 'vitest';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import { type Kinetics, QUICK_RESIN } from '../../rig/cure.ts';
import { isothermalS } from '../../rig/testing/isothermal.ts';
import { Sleeve } from '../../rig/testing/sleeve.ts';
import { coldest, type Watched, watchOn } from './coldest.ts';
import { createCure, cureTick, cureView } from './cure.ts';
import { course, type OutlookInput, outlook } from './forecast.ts';
import { fitSheet } from './sheet.ts';
import { sketchesOf } from './sketches.ts';

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
    exotherm: 'high',
    expectedRiseK: null,
  },
});
const FIT = fitSheet(setup.resin!)!;

function inputAt(c: number, more: Partial<OutlookInput> = {}): OutlookInput {
  const probes = [{ place: 'sleeve' as const, c, uC: 1, checked: true }];
  const watched: Watched[] = watchOn([], probes, setup, 10);
  const now = coldest(watched, probes, setup, { source: 'none', sinceUs: 0, c: Number.MAX_VALUE });
  return {
    fit: FIT,
    now,
    watched,
    pipe: PIPE,
    groundC: 10,
    exotherm: 'high',
    heating: 'none',
    progress: 0,
    low: 0,
    ...more,
  };
}

describe('advisory forecast', () => {
  it('keeps its energy: what the resin gives is stored or goes into the ground', () => {
    for (const sketch of sketchesOf('high', FIT)) {
      const one = course(inputAt(16), sketch);
      expect(Math.abs(one.madeJ - one.storedJ - one.lostJ)).toBeLessThan(
        1e-6 * (Math.abs(one.storedJ) + one.madeJ),
      );
    }
    const hot = course(inputAt(16), sketchesOf('high', FIT)[0]!);
    // All of the reaction's heat in a ring of 5 mm, but for the last tail of it.
    const whole = sketchesOf('high', FIT)[0]!.heatJm3 * Math.PI * (0.075 ** 2 - 0.07 ** 2);
    expect(hot.madeJ / whole).toBeGreaterThan(0.9);
    expect(hot.madeJ / whole).toBeLessThanOrEqual(1);
  });

  it('has room for rubber and sleeve in a pipe that is hardly wider than they are', () => {
    const pipe = { ...PIPE, innerMm: 20, sleeveMm: 8 };
    const one = course(inputAt(16, { pipe }), sketchesOf('high', FIT)[0]!);
    expect(Number.isFinite(one.peakInS)).toBe(true);
    expect(Math.abs(one.madeJ - one.storedJ - one.lostJ)).toBeLessThan(
      1e-6 * (Math.abs(one.storedJ) + one.madeJ),
    );
  });

  it('says the same for the same', () => {
    expect(outlook(inputAt(16))).toEqual(outlook(inputAt(16)));
  });

  it('has no peak to come without heat, and none that is past', () => {
    expect(outlook(inputAt(16)).exotherm).not.toBeNull();
    expect(outlook(inputAt(16, { progress: 3, low: 2 })).exotherm).toBeNull();
    expect(course(inputAt(16), sketchesOf('high', FIT)[3]!).peakInS).toBe(0);
  });

  it('more heat peaks higher; the range is ordered', () => {
    const low = outlook(inputAt(16, { exotherm: 'low' }));
    const high = outlook(inputAt(16)).exotherm!;
    expect(high.peakC.value).toBeGreaterThan((low.exotherm?.peakC.value ?? 16) + 3);
    for (const b of [high.peakC, high.peakInS, outlook(inputAt(16)).metInS!]) {
      expect(b.low).toBeLessThanOrEqual(b.value);
      expect(b.value).toBeLessThanOrEqual(b.high);
    }
  });

  it.each([1, 0.5] as const)(
    'brackets peak and clock of a simulated sleeve whose laws it does not know',
    (speed) => {
      const kinetics: Kinetics = {
        ...QUICK_RESIN,
        k1Ref: QUICK_RESIN.k1Ref * speed,
        k2Ref: QUICK_RESIN.k2Ref * speed,
      };
      const resin = {
        ...setup.resin!,
        points: [10, 20, 30].map((c) => ({ c, minutes: Math.round(isothermalS(kinetics, c, 0.85) / 60) })),
      };
      const own = { ...setup, resin };
      const sleeve = new Sleeve({
        kinetics,
        groundC: 10,
        sleeveC: 15,
        packerC: 13,
        sleeveMm: 5,
        wallMm: 18,
      });
      const cure = createCure(0, 1, 'seat', () => {});
      let early: ReturnType<typeof cureView> = null;
      let peakC = 0;
      let peakS = 0;
      let metS = Number.NaN;
      const askAt = 900;
      for (let t = 5; Number.isNaN(metS) && t < 12 * 3600; t += 5) {
        sleeve.step(5);
        const c = sleeve.truth.sleeveInnerC;
        cureTick(
          cure,
          t * 1e6,
          { setup: own, probes: [{ place: 'sleeve', c, uC: 1, checked: true }] },
          (e) => {
            if (e.e === 'cure-met') metS = t;
          },
        );
        if (t === askAt) early = cureView(cure, t * 1e6, 0);
        if (c > peakC) {
          peakC = c;
          peakS = t;
        }
      }
      expect(early!.metInS!.low).toBeLessThan(metS - askAt);
      expect(early!.metInS!.high).toBeGreaterThan(metS - askAt);
      const { peakInS, peakC: at } = early!.exotherm!;
      expect(peakInS.low).toBeLessThan(peakS - askAt + 300);
      expect(peakInS.high).toBeGreaterThan(peakS - askAt - 300);
      expect(at.low).toBeLessThan(peakC + 1);
      expect(at.high).toBeGreaterThan(peakC - 1);
    },
  );

  it('is kept for a while, counts down meanwhile, and does not touch what is recorded', () => {
    const cure = createCure(0, 1, 'seat', () => {});
    const probes = [{ place: 'pipe' as const, c: 15, uC: 1, checked: true }];
    for (let t = 1; t <= 600; t++) cureTick(cure, t * 1e6, { setup, probes }, () => {});
    const before = JSON.stringify(cure);
    const first = cureView(cure, 600e6, 0)!.metInS!;
    expect(JSON.stringify(cure)).toBe(before);
    for (let t = 601; t <= 610; t++) cureTick(cure, t * 1e6, { setup, probes }, () => {});
    expect(cureView(cure, 610e6, 0)!.metInS!.value).toBeCloseTo(first.value - 10, 6);
    const copy = JSON.parse(before) as typeof cure;
    expect(cureView(copy, 600e6, 0)!.metInS).toEqual(first);
  });
});
