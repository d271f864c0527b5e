import { describe, expect, it } from 'vitest';
import { QUICK_RESIN, SLOW_RESIN } from '../cure.ts';
import { isothermalS } from './isothermal.ts';
import { Sleeve, type SleeveOptions } from './sleeve.ts';

const BASE: SleeveOptions = { kinetics: SLOW_RESIN, groundC: 9, sleeveC: 18, packerC: 14 };

function cureS(options: SleeveOptions, degree: number): number {
  const sleeve = new Sleeve(options);
  while (sleeve.truth.leastCured < degree && sleeve.truth.timeS < 5 * 86_400) sleeve.step(60);
  return sleeve.truth.timeS;
}

describe('sleeve', () => {
  it('needs longer in a cold pipe than the data sheet’s 20 °C line and less than its ground line', () => {
    const sheet20 = isothermalS(SLOW_RESIN, 20, 0.85);
    const sheet9 = isothermalS(SLOW_RESIN, 9, 0.85);
    const real = cureS(BASE, 0.85);
    expect(real).toBeGreaterThan(1.2 * sheet20);
    expect(real).toBeLessThan(sheet9);
  });

  it('is colder and less cured at the wall, and least where cold water seeps in', () => {
    const dry = new Sleeve(BASE);
    const wet = new Sleeve({ ...BASE, seep: { wm2K: 80, c: 5 } });
    dry.step(2 * 3600);
    wet.step(2 * 3600);
    expect(dry.truth.sleeveInnerC).toBeGreaterThan(dry.truth.sleeveOuterC);
    expect(dry.truth.leastCured).toBeLessThan(dry.truth.meanCured);
    expect(wet.truth.leastCured).toBeLessThan(dry.truth.leastCured);
    expect(wet.truth.coldestC).toBeLessThan(dry.truth.coldestC);
  });

  it('warms itself and the air: a thick quick sleeve lifts a closed packer', () => {
    const thick = new Sleeve({ ...BASE, kinetics: QUICK_RESIN, sleeveMm: 9 });
    let peak = 0;
    let lift = 0;
    for (let i = 0; i < 120; i++) {
      thick.step(60);
      peak = Math.max(peak, thick.truth.sleeveInnerC);
      lift = Math.max(lift, thick.truth.barAbs - 2.5);
    }
    expect(peak).toBeGreaterThan(35);
    expect(lift).toBeGreaterThan(0.05);
  });

  it('converges: half the steps change the cure time by under 0.5 %, and the cutting of time by as little', () => {
    const options = { ...BASE, kinetics: QUICK_RESIN, sleeveMm: 6 };
    const one = cureS(options, 0.85);
    const half = cureS({ ...options, stepScale: 0.5 }, 0.85);
    expect(Math.abs(one / half - 1)).toBeLessThan(0.015 + 60 / half);
    const long = new Sleeve(options);
    long.step(3600);
    const short = new Sleeve(options);
    for (let i = 0; i < 720; i++) short.step(5);
    expect(Math.abs(long.truth.leastCured - short.truth.leastCured)).toBeLessThan(0.005);
  });
});
