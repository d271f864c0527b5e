import { describe, expect, it } from 'vitest';
import { noise } from '../../estimate/testing/random.ts';
import { courseAdd, createCourse } from './course.ts';
import { leakFit } from './leak-fit.ts';
import { createPast, pastAdd } from './past.ts';

/** An hour at 1.5 bar(g), whatever the gas does; the probe tells the gas and what it wanders by. */
function fitOf(gas: (t: number) => number, strayK: number) {
  const past = createPast(0);
  pastAdd(past, 0, 1);
  const c = createCourse(10, false);
  const random = noise(2);
  let stray = 0;
  for (let t = 60; t <= 3600; t += 0.5) {
    stray += -stray / 1200 + strayK * Math.sqrt(1 / 600) * random();
    const bar = 1.5 + 0.0005 * random();
    courseAdd(c, t, Math.log(bar + 1.01325), gas(t) + stray + 0.05 * random() + 273.15, null);
  }
  return leakFit(c, {
    absBar: 2.51325,
    airBar: 1.01325,
    uAirBar: 0.005,
    groundC: 12,
    exotherm: 'low',
    wet: false,
    sensorBarPerK: 0.0014,
    sampleSd: 0.0005,
    stepBar: 0.0001,
    mistrust: { air: false, sleeve: false },
    past,
  })!;
}

describe('whether the pressure follows the gas', () => {
  it('under a probe that wanders over a gas that stands still it cannot be told', () => {
    const { follows } = fitOf(() => 12, 0.17);
    expect(follows!.value).toBeLessThan(0.2);
    expect(follows!.moved).toBeLessThan(0.4);
  });

  it('where the gas swings and the pressure stands it surely does not', () => {
    const { follows } = fitOf((t) => 12 + 6 * Math.sin(t / 500), 0.17);
    expect(follows!.moved).toBeGreaterThan(0.9);
    expect(follows!.value + 4.06 * follows!.sd).toBeLessThan(0.5 * follows!.moved);
  });
});
