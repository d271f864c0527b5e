import { describe, expect, it } from 'vitest';
import { bits32 } from '../estimate/testing/random.ts';
import { createCountWatch, disagreeing, tooFast, tooFastK, watchCount } from './plausibility.ts';

const random = (seed: number) => {
  const next = bits32(seed);
  return () => next() / 4294967296;
};
const gauss = (r: () => number) => Math.sqrt(-2 * Math.log(1 - r())) * Math.cos(2 * Math.PI * r());

describe('stuck', () => {
  const run = (counts: (n: number) => number, total: number, rateHz = 20) => {
    const w = createCountWatch();
    let first = -1;
    for (let n = 0; n < total; n++)
      if (watchCount(w, Math.round(counts(n)), n / rateHz, 1) && first < 0) first = n;
    return first;
  };

  it('sees a channel that froze after noise, within seconds', () => {
    const r = random(1);
    const at = run((n) => (n < 600 ? 2000 + 1.2 * gauss(r) : 2001), 1200);
    expect(at).toBeGreaterThan(600);
    expect(at).toBeLessThan(600 + 6 * 20 + 20);
  });

  it('does not call a quiet channel stuck: no noise, a ramp that ends, flicker on an edge', () => {
    expect(run(() => 2000, 20_000)).toBe(-1);
    expect(run((n) => 2000 + Math.min(n * 0.5, 900), 20_000)).toBe(-1);
    const r = random(2);
    expect(run((n) => (n < 2000 ? 2000.5 : 2000.1) + 0.12 * gauss(r), 20_000)).toBe(-1);
  });

  it('a hundred equal counts of a fast converter are a tenth of a second, and no standstill', () => {
    const r = random(3);
    const fast = (still: number) =>
      run((n) => (n < 2000 || n >= 2000 + still ? 2000 + 2 * gauss(r) : 2000), 5000, 1000);
    expect(fast(1500)).toBe(-1);
    expect(fast(2500)).toBeGreaterThan(3900);
  });

  it('noise of a step and more never looks stuck in an hour', () => {
    for (const sd of [0.4, 0.7, 1, 3]) {
      const r = random(Math.round(sd * 100));
      expect(run((n) => 2000.5 + 20 * Math.sin(n / 3000) + sd * gauss(r), 72_000)).toBe(-1);
    }
  });

  it('once six hundred counts were followed it is said after forty equal ones: at ten a second 4 s, not 10', () => {
    const froze = (followed: number, sd = 3) => {
      const r = random(6);
      return run((n) => (n < followed ? 2000 + sd * gauss(r) : 2007), followed + 300, 10) - followed;
    };
    expect(froze(640)).toBe(39);
    expect(froze(400)).toBe(99);
    // Where its own noise gives longer rows, it takes six times those.
    expect(froze(2000, 0.55)).toBeGreaterThan(45);
    expect(froze(2000, 0.55)).toBeLessThan(100);
  });

  it('noise that was about the edge of a count and then lies in its middle is no standstill', () => {
    for (const sd of [0.45, 0.5, 0.6, 0.8]) {
      const r = random(Math.round(sd * 1000));
      expect(run((n) => (n < 700 ? 2000.5 : 2000) + sd * gauss(r), 36_000, 10)).toBe(-1);
    }
  });

  it('measures the noise, not the ramp (second differences; white noise of known sd)', () => {
    const r = random(5);
    const w = createCountWatch();
    for (let n = 0; n < 3000; n++) watchCount(w, Math.round(n * 40 + 5 * gauss(r)), n / 20, 1);
    expect(Math.sqrt(w.noise)).toBeGreaterThan(3.5);
    expect(Math.sqrt(w.noise)).toBeLessThan(6.5);
  });
});

describe('rate', () => {
  it('lets a line move as lines do', () => {
    expect(tooFast(0.5, 0.05)).toBe(false);
    expect(tooFast(1, 0.05)).toBe(true);
    expect(tooFast(-2, 0.05)).toBe(false);
    expect(tooFast(-5, 0.05)).toBe(true);
    expect(tooFastK(5, 0.25)).toBe(false);
    expect(tooFastK(30, 0.25)).toBe(true);
  });
});

describe('disagreement', () => {
  const t = (place: 'sleeve' | 'air' | 'pipe' | 'ground' | null, c: number | null) => ({ place, c, uC: 2.5 });
  it('a curing sleeve between warm air and a cold pipe is in order', () => {
    expect(
      disagreeing([t('sleeve', 38), t('air', 30), t('pipe', 14), t('ground', 10)], { c: 10, uC: 2 }),
    ).toBe(0);
  });
  it('two probes of one place must agree', () => {
    expect(disagreeing([t('sleeve', 20), t('sleeve', 41)], null)).toBe(0b11);
  });
  it('a reversed probe (mirrored about the junction) is colder than all round it', () => {
    expect(disagreeing([t('sleeve', -15), t('pipe', 9)], { c: 10, uC: 2 })).toBe(0b01);
  });
  it('a pipe hotter than everything inside it is none', () => {
    expect(disagreeing([t('sleeve', 12), t('pipe', 41)], { c: 10, uC: 2 })).toBe(0b10);
  });
  it('a ground probe far from the planned ground is said', () => {
    expect(disagreeing([t('ground', 25)], { c: 8, uC: 2 })).toBe(0b1);
  });
  it('one probe alone, or none named, contradicts nobody', () => {
    expect(disagreeing([t('sleeve', 80)], null)).toBe(0);
    expect(disagreeing([t(null, 80), t(null, -20), t('air', null)], { c: 10, uC: 1 })).toBe(0);
  });
});
