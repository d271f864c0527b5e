import { describe, expect, it } from 'vitest';
import { createRandom } from './random.ts';
import { createTransducer, type TransducerOptions } from './transducer.ts';

const QUIET: TransducerOptions = { noiseBar: 0, lagS: 0 };
const make = (o: TransducerOptions, seed = 1) => createTransducer({ ...QUIET, ...o }, createRandom(seed));

describe('transducer', () => {
  // Linear signal forms: 4-20 mA over 0-4 bar (12 mA is 2 bar), 0.5-4.5 V of 5 V over 0-6 bar (1.5 V is 1.5 bar).
  it('puts pressures on the signal as its kind says', () => {
    const current = make({ signal: 'current', rangeHiBar: 4, bits: 24 });
    const mA = (c: number) => (c / current.scale.rawHi) * 25;
    expect(mA(current.sample(2, 0.01))).toBeCloseTo(12, 4);
    expect(mA(current.sample(9, 0.01))).toBeCloseTo(20.5, 4);
    expect(mA(current.sample(-2, 0.01))).toBeCloseTo(3.8, 4);
    const ratio = make({ bits: 24 });
    const volt = (c: number) => (c / ratio.scale.rawHi) * 5;
    expect(volt(ratio.sample(0, 0.01))).toBeCloseTo(0.5, 5);
    expect(volt(ratio.sample(1.5, 0.01))).toBeCloseTo(1.5, 5);
    expect(volt(ratio.sample(6, 0.01))).toBeCloseTo(4.5, 5);
    expect(make({ signal: 'voltage', bits: 16 }).countsAt(6)).toBe(Math.round((10 / 11) * 65535));
    const digital = make({ signal: 'digital', bits: 24 });
    const pa = (c: number) =>
      digital.scale.elLo + (c / digital.scale.rawHi) * (digital.scale.elHi - digital.scale.elLo);
    expect(pa(digital.sample(1.5, 0.01))).toBeCloseTo(150_000, 0);
  });

  it('ratiometric, read as if it had 5 V while it has 4.6, shows 1.32 bar at a true 1.50', () => {
    const t = make({ bits: 24 });
    t.supplyV = 4.6;
    const ppm = (t.sample(1.5, 0.01) / t.scale.rawHi) * 1e6;
    expect(((ppm - 100_000) / 800_000) * 6).toBeCloseTo(1.32, 3);
  });

  it('quantises to its bits', () => {
    const t = make({ bits: 10 });
    const values = new Set<number>();
    for (let bar = 1; bar < 1.02; bar += 0.0005) values.add(t.sample(bar, 0.01));
    // 0.02 bar over 6 bar on 0.8 · 1023 counts.
    expect(values.size).toBeGreaterThanOrEqual(3);
    expect(values.size).toBeLessThanOrEqual(4);
  });

  it('has the noise, the spikes and the wander that it is told to have', () => {
    const t = make({ bits: 24, noiseBar: 0.004, spikesPerMin: 60, spikeBar: 1 });
    const bar = (c: number) => (((c / t.scale.rawHi) * 1e6 - 1e5) / 8e5) * 6;
    const n = 60_000;
    let spikes = 0;
    let square = 0;
    for (let i = 0; i < n; i++) {
      const e = bar(t.sample(2, 0.01)) - 2;
      if (Math.abs(e) > 0.1) spikes++;
      else square += e * e;
    }
    expect(Math.sqrt(square / (n - spikes))).toBeCloseTo(0.004, 4);
    // 600 s with one a second on average: Poisson, five standard deviations.
    expect(Math.abs(spikes - 600)).toBeLessThan(5 * Math.sqrt(600));
    const w = make({ bits: 24, wanderBar: 0.01, wanderTauS: 5 }, 3);
    let sum = 0;
    for (let i = 0; i < 20_000; i++) sum += (bar(w.sample(2, 0.5)) - 2) ** 2;
    expect(Math.sqrt(sum / 20_000)).toBeGreaterThan(0.0085);
    expect(Math.sqrt(sum / 20_000)).toBeLessThan(0.0115);
  });

  it('lags by its time constant', () => {
    const t = make({ bits: 24, lagS: 0.5, signal: 'digital' });
    const bar = (c: number) => (t.scale.elLo + (c / t.scale.rawHi) * (t.scale.elHi - t.scale.elLo)) / 1e5;
    t.sample(0, 0.01);
    let last = 0;
    for (let i = 0; i < 50; i++) last = bar(t.sample(1, 0.01));
    expect(last).toBeCloseTo(1 - Math.exp(-1), 3);
  });

  it('is repeatable by seed, and a broken wire reads nothing', () => {
    const run = (seed: number) => {
      const t = make({ noiseBar: 0.01 }, seed);
      return Array.from({ length: 20 }, () => t.sample(1, 0.02));
    };
    expect(run(4)).toEqual(run(4));
    expect(run(4)).not.toEqual(run(5));
    const t = make({ signal: 'current' });
    t.broken = true;
    expect(t.sample(2, 0.01)).toBe(0);
  });

  it('refuses a converter or a span that cannot be', () => {
    expect(() => make({ bits: 30 })).toThrow(/bits/);
    expect(() => make({ rangeLoBar: 3, rangeHiBar: 3 })).toThrow(/range/);
  });
});
