import { describe, expect, it } from 'vitest';
import { createRandom } from './random.ts';

describe('createRandom', () => {
  it('gives the same numbers for the same seed and others for the next', () => {
    const a = createRandom(7);
    const b = createRandom(7);
    const c = createRandom(8);
    const first = [a.next(), a.next(), a.normal()];
    expect([b.next(), b.next(), b.normal()]).toEqual(first);
    expect([c.next(), c.next(), c.normal()]).not.toEqual(first);
  });

  it('keeps its numbers for ever: a golden run', () => {
    const r = createRandom(1);
    const drawn = Array.from({ length: 4 }, () => Math.floor(r.next() * 2 ** 32));
    expect(drawn).toMatchInlineSnapshot(`
      [
        3849910432,
        981925288,
        966615083,
        1657718939,
      ]
    `);
  });

  it('forks by name, whatever was drawn before', () => {
    const a = createRandom(3);
    a.next();
    a.normal();
    expect(a.fork('noise').next()).toBe(createRandom(3).fork('noise').next());
    expect(a.fork('noise').next()).not.toBe(a.fork('spikes').next());
  });

  it('is uniform and normal enough for 100 000 draws', () => {
    const r = createRandom(42);
    const n = 100_000;
    let sum = 0;
    let square = 0;
    let fourth = 0;
    const bins = new Array<number>(10).fill(0);
    for (let i = 0; i < n; i++) {
      bins[Math.floor(r.next() * 10)]!++;
      const x = r.normal();
      sum += x;
      square += x * x;
      fourth += x ** 4;
    }
    // Five standard errors of each moment; chi-square with 9 degrees of freedom beyond 40 has p < 1e-5.
    expect(Math.abs(sum / n)).toBeLessThan(5 / Math.sqrt(n));
    expect(Math.abs(square / n - 1)).toBeLessThan(5 * Math.sqrt(2 / n));
    expect(Math.abs(fourth / n - 3)).toBeLessThan(5 * Math.sqrt(96 / n));
    const chi = bins.reduce((s, b) => s + (b - n / 10) ** 2 / (n / 10), 0);
    expect(chi).toBeLessThan(40);
  });

  it('holds its ranges', () => {
    const r = createRandom(5);
    for (let i = 0; i < 1000; i++) {
      expect(r.int(2, 4)).toBeGreaterThanOrEqual(2);
      expect(r.int(2, 4)).toBeLessThanOrEqual(4);
      const x = r.logRange(0.1, 10);
      expect(x).toBeGreaterThanOrEqual(0.1);
      expect(x).toBeLessThan(10);
      expect(r.exponential(3)).toBeGreaterThanOrEqual(0);
    }
    expect(() => r.pick([])).toThrow(RangeError);
  });
});
