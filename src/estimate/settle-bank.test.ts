import { describe, expect, it } from 'vitest';
import { bankInterval, excessFrom, excessSoft, excessUpTo, judgeBank } from './settle-bank.ts';
import { type BlockMeans, pressureAt, straighten } from './subsonic.ts';
import { noise } from './testing/random.ts';

/** A fill from p0 towards p1 over `seconds`, block means every 0.25 s with white noise of that sd. */
function fill(
  p1: number,
  p0: number,
  k: number,
  seconds: number,
  sd: number,
  seed: number,
  b = 0.25,
): BlockMeans {
  const next = noise(seed);
  const t: number[] = [];
  const p: number[] = [];
  const variance: number[] = [];
  const y0 = straighten(p0, p1, b);
  for (let x = 0; x < seconds; x += 0.25) {
    t.push(100 + x);
    p.push(pressureAt(y0 + (k / (1 - b)) * x, p1, b) + sd * next());
    variance.push(sd * sd);
  }
  return { t, p, variance };
}

const GRID = [1.6, 1.8, 2, 2.1, 2.2, 2.3, 2.4, 2.5, 2.6, 2.7, 2.8, 3, 3.3, 3.8, 4.5, 6, 9];

describe('settle bank', () => {
  it('finds the supply from the first two thirds of the rise', () => {
    const r = judgeBank(fill(2.6, 1.2, 0.03, 14, 0.001, 3), GRID, 0.25, [4, 14])!;
    expect(r.best.p1).toBeGreaterThan(2.5);
    expect(r.best.p1).toBeLessThan(2.7);
    expect(r.reduced).toBeLessThan(2);
  });

  it('its 2σ interval holds the truth as often as it says, over 200 fills without heat', () => {
    let held = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const r = judgeBank(fill(2.55, 1.2, 0.03, 14, 0.002, seed * 7919), GRID, 0.25, [1e4])!;
      const { low, high } = bankInterval(r, 2);
      if (low <= 2.55 && high >= 2.55) held++;
    }
    expect(held / 200).toBeGreaterThan(0.9);
  });

  it('with heat it is wider, and still holds: fills that begin 20 % too fast', () => {
    let held = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const b = fill(2.55, 1.2, 0.03, 14, 0.002, seed * 7919);
      const y0 = straighten(1.2, 2.55, 0.25);
      const clean = fill(2.55, 1.2, 0.03, 14, 0, 1);
      const p = b.t.map((t, i) => {
        const x = t - 100;
        return (
          pressureAt(y0 + 0.04 * (x + 0.2 * 7 * (1 - Math.exp(-x / 7))), 2.55, 0.25) + b.p[i]! - clean.p[i]!
        );
      });
      const { low, high } = bankInterval(judgeBank({ ...b, p }, GRID, 0.25, [4, 14])!, 2);
      if (low <= 2.55 && high >= 2.55) held++;
    }
    expect(held / 200).toBeGreaterThan(0.9);
  });

  it('tells under from over, and a near supply from an open one', () => {
    const near = judgeBank(fill(2.6, 1.2, 0.03, 16, 0.001, 5), GRID, 0.25, [4, 14])!;
    expect(excessUpTo(near, 2.3)).toBeGreaterThan(25);
    expect(excessFrom(near, 4.5)).toBeGreaterThan(9);
    const open = judgeBank(fill(7, 1.2, 0.012, 14, 0.001, 5), GRID, 0.25, [4, 14])!;
    expect(excessFrom(open, 4.5)).toBeLessThan(2);
    expect(excessUpTo(open, 2.6)).toBeGreaterThan(25);
  });

  it('a warm start does not pass for settling: 30 % too fast at first, open supply', () => {
    const b = fill(7, 1.2, 0.01, 14, 0.001, 9);
    const p = b.t.map((t, i) => b.p[i]! + 0.07 * 0.3 * 5 * (1 - Math.exp(-(t - 100) / 5)));
    const warm = { ...b, p };
    const r = judgeBank(warm, GRID, 0.25, [4, 14])!;
    expect(excessFrom(r, 4.5)).toBeLessThan(4);
  });

  it('nor does an open supply into a packer that gives way by 5 % a bar', () => {
    const next = noise(9);
    const soft = { t: [] as number[], p: [] as number[], variance: [] as number[] };
    let p = 1.2;
    for (let i = 0; i < 56; i++) {
      soft.t.push(100 + 0.25 * i);
      soft.p.push(p + 0.001 * next());
      soft.variance.push(1e-6);
      for (let j = 0; j < 25; j++) {
        const y = straighten(p, 6, 0.25);
        p += (0.01 * 0.012 * 6 * Math.cos(Math.max(0, y))) / (1 + 0.05 * (2 * p - 1));
      }
    }
    const r = judgeBank(soft, GRID, 0.25, [4, 14])!;
    expect(excessSoft(r, soft, 6, [4, 12, 36], 0.05, 0.7)).toBeLessThan(4);
    expect(excessUpTo(r, 2.4)).toBeGreaterThan(25);
  });

  it('correlated noise makes it less sure', () => {
    const white = fill(2.6, 1.2, 0.03, 12, 0.001, 21);
    const next = noise(21);
    let v = 0;
    const p = fill(2.6, 1.2, 0.03, 12, 0, 1).p.map((x) => {
      v = 0.8 * v + 0.6 * 0.001 * next();
      return x + v;
    });
    const a = judgeBank(white, GRID, 0.25, [4, 14])!;
    const c = judgeBank({ ...white, p }, GRID, 0.25, [4, 14])!;
    expect(c.scale).toBeGreaterThan(a.scale);
  });

  it('finer candidates change nothing where they are hopeless, and are asked where they are not', () => {
    const always = GRID.filter((_, i) => i % 2 === 0);
    const finer = GRID.filter((_, i) => i % 2 === 1);
    for (const p1 of [2.3, 2.55, 2.75, 7]) {
      const blocks = fill(p1, 1.2, 0.03 * (2.6 / p1), 14, 0.001, 40 + p1);
      const full = judgeBank(blocks, GRID, 0.25, [4, 14])!;
      const split = judgeBank(blocks, always, 0.25, [4, 14], finer)!;
      expect(split.p1.length).toBeLessThan(full.p1.length);
      expect(split.best.p1).toBeCloseTo(full.best.p1, 2);
      expect(bankInterval(split, 2).low).toBeCloseTo(bankInterval(full, 2).low, 2);
      expect(bankInterval(split, 2).high).toBeCloseTo(bankInterval(full, 2).high, 1);
      for (const k of split.p1.keys()) if (k > 0) expect(split.p1[k]!).toBeGreaterThan(split.p1[k - 1]!);
    }
  });

  it('says nothing of a handful of blocks', () => {
    expect(judgeBank({ t: [1, 2], p: [1, 1.1], variance: [1e-6, 1e-6] }, GRID, 0.25, [4])).toBeNull();
    expect(excessUpTo(judgeBank(fill(2.6, 1.2, 0.03, 5, 0.001, 2), GRID, 0.25, [4])!, 1)).toBe(
      Number.POSITIVE_INFINITY,
    );
  });
});
