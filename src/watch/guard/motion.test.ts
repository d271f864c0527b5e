import { describe, expect, it } from 'vitest';
import { fitLine } from '../../estimate/line.ts';
import { noise } from '../../estimate/testing/random.ts';
import { type BlockRow, createRow, rowPush } from './blocks.ts';
import { measureMotion, SHORT_MOST, SHORT_S, slopeOver } from './motion.ts';
import type { Motion } from './types.ts';

/** Feeds p(t) at hz into a row of short blocks and measures at each; gives the last. */
function follow(
  p: (t: number) => number,
  seconds: number,
  hz = 20,
  sd = 0,
  coarse = 0,
): { readonly motion: Motion; readonly all: readonly Motion[]; readonly row: BlockRow } {
  const row = createRow();
  const next = noise(5);
  const kept: number[] = [];
  const all: Motion[] = [];
  for (let i = 0; i < seconds * hz; i++) {
    const t = 1000 + i / hz;
    if (!rowPush(row, t, p(i / hz) + sd * next(), SHORT_S, 1 / hz)) continue;
    if (row.t.length > SHORT_MOST) for (const list of [row.t, row.p, row.n]) list.shift();
    const m = measureMotion(row, Math.max(sd, 1e-4), coarse, kept);
    if (m !== null) all.push(m);
  }
  return { motion: all[all.length - 1]!, all, row };
}

describe('slope over blocks', () => {
  it('is the least-squares line, about its middle', () => {
    const row = createRow();
    const next = noise(3);
    for (let i = 0; i < 12; i++) rowPush(row, 5 + 0.05 * i, 0.2 + 0.03 * i + 0.001 * next(), 0.05, 0.05);
    const fit = fitLine(row.t.slice(2, 10), row.p.slice(2, 10))!;
    const slope = slopeOver(row, 2, 10, 1e-9)!;
    expect(slope.rate).toBeCloseTo(fit.slope, 9);
    expect(slope.bar).toBeCloseTo(fit.meanY, 12);
    expect(slope.midS).toBeCloseTo(fit.meanX, 12);
    // With next to no noise known before, the scatter that is seen counts.
    expect(slope.sd).toBeCloseTo(fit.sdSlope, 9);
    // Noise known before counts where it is the larger: sd/(Δt √(Σ i²)) with Σ i² = 42 for eight points.
    expect(slopeOver(row, 2, 10, 0.01)!.sd).toBeCloseTo(0.01 / (0.05 * Math.sqrt(42)), 9);
    expect(slopeOver(row, 2, 4, 0.01)).toBeNull();
  });

  it('of few blocks goes by the noise known before: four points have no scatter to speak of', () => {
    const row = createRow();
    for (let i = 0; i < 4; i++) rowPush(row, 0.05 * i, i % 2, 0.05, 0.05);
    expect(slopeOver(row, 0, 4, 0.001)!.sd).toBeCloseTo(0.001 / (0.05 * Math.sqrt(5)), 9);
  });
});

describe('motion', () => {
  it('of a straight rise is its slope, from the shortest window that knows it', () => {
    const { motion, row } = follow((t) => 0.1 * t, 10);
    expect(motion.rate).toBeCloseTo(0.1, 9);
    expect(motion.before).toBeCloseTo(0.1, 3);
    expect(motion.ago).toBeCloseTo(0.1, 9);
    expect(motion.atS).toBe(row.t[row.t.length - 1]);
    // At least 0.24 s: seven blocks of 0.05 s, of which the middle is 0.15 s old.
    expect(motion.atS - motion.midS).toBeCloseTo(0.15, 9);
    expect(motion.bar).toBeCloseTo(0.1 * (motion.midS - 1000), 9);
  });

  it('takes a longer window where noise hides the slope: to 14 % of it, or 1.2 mbar/s', () => {
    const { all } = follow((t) => 0.05 * t, 30, 20, 0.005);
    const late = all.slice(100);
    for (const m of late) expect(m.sd).toBeLessThanOrEqual(Math.max(0.14 * Math.abs(m.rate), 0.0012) + 1e-12);
    const windows = late.map((m) => 2 * (m.atS - m.midS));
    expect(Math.min(...windows)).toBeGreaterThan(0.3);
    const off = late.map((m) => (m.rate - 0.05) / m.sd);
    expect(Math.sqrt(off.reduce((s, z) => s + z * z, 0) / off.length)).toBeLessThan(1.6);
    // At rest the longest window is not long enough to say more.
    const { motion } = follow(() => 1, 30, 20, 0.02);
    expect(2 * (motion.atS - motion.midS)).toBeCloseTo(45 * 0.05, 6);
    expect(motion.sd).toBeGreaterThan(0.0012);
  });

  it('remembers the slope before a stop, for half a second and more', () => {
    const { all } = follow((t) => (t < 5 ? 0.1 * t : 0.5), 6.5);
    const at = (s: number) => all.find((m) => m.atS >= 1000 + s)!;
    expect(at(5.3).rate).toBeLessThan(0.05);
    expect(at(5.3).before).toBeGreaterThan(0.095);
    expect(at(5.8).before).toBeGreaterThan(0.09);
    expect(at(6.4).rate).toBeCloseTo(0, 6);
  });

  it('of a stop just after the valve was opened, too: what lay before was flat', () => {
    const p = (t: number) => (t < 5 ? 0 : t < 5.5 ? 0.4 * (t - 5) : 0.2 + 0.2 * (t - 5.5));
    for (const hz of [20, 50]) {
      const { all } = follow(p, 5.85, hz, 0.0005);
      const m = all[all.length - 1]!;
      expect(m.rate).toBeLessThan(0.23);
      expect(m.before).toBeGreaterThan(0.36);
    }
  });

  it('a staircase has no noise to judge by: its doubt is a step over the window', () => {
    const { motion } = follow((t) => 0.01 * Math.floor(t), 20, 20, 0, 0.01);
    expect(motion.sd).toBeGreaterThan((0.4 * 0.01) / 2.3);
    expect(follow((t) => 0.01 * t, 20, 20, 0, 0).motion.sd).toBeLessThan(0.0012);
  });

  it('needs a quarter of a second, and something at all', () => {
    expect(measureMotion(createRow(), 0.001, 0, [])).toBeNull();
    const { all } = follow((t) => t, 0.6, 20);
    // Two blocks of 0.05 s are four samples at 20 Hz: the first slope is that of five of them.
    expect(all[0]!.atS - 1000).toBeCloseTo(0.3, 1);
  });
});
