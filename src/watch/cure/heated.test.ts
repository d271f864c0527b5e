import { describe, expect, it } from 'vitest';
import type { Heating, PipeSetup, ResinSetup, Setup } from '../../job/setup.ts';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import { GROUND, SLEEVE, WALL } from '../../physics/materials.ts';
import { compositeCylinder } from '../../physics/testing/cylinder.ts';
import { type Kinetics, SLOW_RESIN } from '../../rig/cure.ts';
import { isothermalS } from '../../rig/testing/isothermal.ts';
import { Sleeve } from '../../rig/testing/sleeve.ts';
import type { Bounded } from '../events.ts';
import { createCure, cureTick, cureView } from './cure.ts';
import { createObserver, observe } from './observer.ts';
import { cureWarmth } from './warmth.ts';

const IRON: PipeSetup = { innerMm: 150, wallMm: 8, material: 'iron', sleeveMm: 8 };

/** A resin that gives no heat worth a word: all warmth comes from the packer. */
const COOL: Kinetics = { ...SLOW_RESIN, heatJkg: 2e3 };
const END = 0.85;
const resin: ResinSetup = {
  name: 'R',
  criterion: 'let-down',
  points: [10, 20, 30, 40, 60].map((c) => ({ c, minutes: Math.round(isothermalS(COOL, c, END) / 60) })),
  lowestC: 5,
  potLifeMin: null,
  exotherm: 'low',
  expectedRiseK: null,
};
const job = (heating: Heating | null, pipe: PipeSetup = IRON): Setup =>
  setupOf({
    limits: { ...LIMITS, headBar: 0 },
    ground: { c: 10, uC: 1 },
    infiltration: 'none',
    pipe,
    resin,
    ...(heating === null ? {} : { heating }),
  });

/** Minutes to 'met' and to the truth of a sleeve on iron whose packer is held at 60 °C. */
function warmed(heating: Heating | null, place: 'air' | 'sleeve') {
  const sleeve = new Sleeve({
    kinetics: COOL,
    pipeMm: IRON.innerMm,
    sleeveMm: 8,
    wallMm: 8,
    material: 'iron',
    ground: 'wet ground',
    groundC: 10,
    sleeveC: 10,
    packerC: 10,
    filmWm2K: 25,
    // What blows through the packer keeps its air near 60 °C.
    endsWmK: 100,
    endsC: 60,
    contactWm2K: 2000,
    seep: null,
  });
  const s = createCure(0, 1, 'hold', () => {});
  let trueMin: number | null = null;
  let metMin: number | null = null;
  for (let t = 5; t <= 12 * 3600 && (trueMin === null || metMin === null); t += 5) {
    sleeve.step(5);
    if (trueMin === null && sleeve.truth.leastCured >= END) trueMin = t / 60;
    const c = place === 'air' ? sleeve.truth.airC : sleeve.truth.sleeveInnerC;
    cureTick(s, t * 1e6, { setup: job(heating), probes: [{ place, c, uC: 1, checked: true }] }, (e) => {
      if (e.e === 'cure-met') metMin = e.tUs / 60e6;
    });
  }
  return { trueMin: trueMin!, metMin: metMin!, ratio: metMin! / trueMin!, s };
}

describe('a packer that is warmed from outside', () => {
  it.each([
    ['hot-air', 'air'],
    ['hot-air', 'sleeve'],
    ['unknown', 'air'],
    ['unknown', 'sleeve'],
    ['steam', 'sleeve'],
    ['water', 'sleeve'],
  ] as const)(
    '%s, probe %s: through iron it is not met before the coldest layer is there',
    (heating, place) => {
      expect(warmed(heating, place).ratio).toBeGreaterThan(1);
    },
  );

  it('taken for the resin’s own heat, the same warmth is met far too early: that is why it is asked', () => {
    expect(warmed('none', 'air').ratio).toBeLessThan(0.9);
    // A Setup of before it was asked is judged as it was then.
    expect(warmed(null, 'air').metMin).toBe(warmed('none', 'air').metMin);
  });

  it('settles on the composite cylinder: all heat comes through the sleeve', () => {
    // Carslaw & Jaeger: shells in series, the inner face held through a tenth of what lies between it and the medium.
    const o = createObserver(IRON, 'sleeve', 'likely', 50, 10, 'hot-air');
    let face = 0;
    for (let i = 0; i < 120_000; i++) face = observe(o, 20, 50, 10);
    const inner = 0.067;
    const bore = inner - 0.006;
    const contact = 0.1 * (1 / (2 * Math.PI * bore * 8) + Math.log(inner / bore) / (2 * Math.PI * 0.2));
    const shells = compositeCylinder(
      inner,
      [
        { outer: 0.075, k: SLEEVE.k, rhoCp: 1 },
        { outer: 0.083, k: WALL.iron.k, rhoCp: 1 },
        { outer: 0.583, k: GROUND.k, rhoCp: 1 },
      ],
      { c: 50, h: 1 / (2 * Math.PI * inner * contact) },
      { c: 10 },
    );
    expect(face).toBeCloseTo(shells.surfaces[1]!, 2);
    expect(o.creditJ).toBe(0);
  });

  it('is colder than where the same reading is laid to the resin, and the cold corner is the colder', () => {
    for (const place of ['air', 'sleeve'] as const)
      for (const heating of ['unknown', 'hot-air', 'water', 'steam'] as const) {
        const likely = createObserver(IRON, place, 'likely', 10, 10, heating);
        const cold = createObserver(IRON, place, 'cold', 10, 10, heating);
        const own = createObserver(IRON, place, 'likely', 10, 10);
        // Warm water comes through the packer's wall more readily than a resin's heat comes to its air.
        const laid = place === 'sleeve' || heating === 'unknown' || heating === 'hot-air';
        for (let t = 10; t <= 2 * 3600; t += 10) {
          const c = 10 + 15 * Math.min(1, t / 600);
          const face = observe(likely, 10, c, 10);
          expect(observe(cold, 10, c, 10)).toBeLessThanOrEqual(face + 1e-9);
          const resin = observe(own, 10, c, 10);
          if (laid && t > 1800) expect(face).toBeLessThan(resin);
        }
      }
  });

  it('a heater that goes off is followed: no credit stays behind', () => {
    const o = createObserver(IRON, 'air', 'likely', 60, 10, 'hot-air');
    for (let t = 0; t < 7200; t += 10) observe(o, 10, 60, 10);
    const warm = observe(o, 10, 60, 10);
    let face = warm;
    for (let t = 0; t < 7200; t += 10) face = observe(o, 10, 12, 10);
    expect(warm).toBeGreaterThan(15);
    expect(face).toBeLessThan(13);
  });

  it('the forecast keeps the heat that comes from outside and promises none of the resin’s', () => {
    const s = createCure(0, 1, 'hold', () => {});
    let told: Bounded | null = null;
    let met = 0;
    for (let t = 5; t <= 8 * 3600 && met === 0; t += 5) {
      const probes = [{ place: 'sleeve' as const, c: 10 + 35 * Math.min(1, t / 600), uC: 1, checked: true }];
      cureTick(s, t * 1e6, { setup: job('hot-air'), probes }, (e) => {
        if (e.e === 'cure-met') met = e.tUs / 1e6;
      });
      if (t !== 3600) continue;
      const view = cureView(s, t * 1e6, 0)!;
      expect(view.exotherm).toBeNull();
      told = view.metInS;
    }
    expect(3600 + told!.low).toBeLessThan(met);
    expect(3600 + told!.high).toBeGreaterThan(met);
    expect(Math.abs(3600 + told!.value - met)).toBeLessThan(0.1 * met);
    expect(cureWarmth(s)).toBeNull();
  });
});
