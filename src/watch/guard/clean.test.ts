import { describe, expect, it } from 'vitest';
import { noise } from '../../estimate/testing/random.ts';
import { cleanPush, cleanRestart, coarseStep, createClean, lastMedian, sampleSd } from './clean.ts';

describe('cleaning', () => {
  it('takes single spikes out and leaves a steep slope as it is', () => {
    const s = createClean();
    const out: number[] = [];
    for (let i = 0; i < 200; i++) {
      const sample = cleanPush(s, i * 0.05, i % 50 === 25 ? 4 : i * 0.02, 0.001);
      if (sample !== null && i > 20) out.push(sample.bar - sample.t * 0.4);
    }
    expect(Math.max(...out.map(Math.abs))).toBeLessThan(1e-9);
    expect(s.spikes).toBe(4);
  });

  it('takes spikes two samples wide out where samples are dense', () => {
    const s = createClean();
    let worst = 0;
    for (let i = 0; i < 400; i++) {
      const sample = cleanPush(s, i * 0.005, i % 100 === 50 || i % 100 === 51 ? 5 : 1, 0.001);
      if (sample !== null) worst = Math.max(worst, Math.abs(sample.bar - 1));
    }
    expect(worst).toBe(0);
  });

  it('the level is the median of three; one reading alone is none', () => {
    const s = createClean();
    cleanPush(s, 0, 9, 0.001);
    expect(lastMedian(s)).toBeNull();
    cleanPush(s, 0.1, 1, 0.001);
    expect(lastMedian(s)).toBe(1);
    cleanPush(s, 0.2, 1.1, 0.001);
    expect(lastMedian(s)).toBe(1.1);
  });

  it('after a break judges a reading by its own neighbours, not by the last one before it', () => {
    const s = createClean();
    for (let i = 0; i < 100; i++) cleanPush(s, i * 0.05, 1, 0.001);
    cleanRestart(s);
    const out: number[] = [];
    for (const [i, bar] of [3, 2.5, 3, 3].entries()) {
      const sample = cleanPush(s, 60 + i * 0.05, bar, 0.001);
      if (sample !== null) out.push(sample.bar);
    }
    expect(out).toEqual([3, 3]);
  });

  it('knows the noise, and a converter too coarse to show any', () => {
    const noisy = createClean();
    const next = noise(7);
    for (let i = 0; i < 3000; i++) cleanPush(noisy, i * 0.02, 1 + 0.003 * next(), 0.0001);
    expect(sampleSd(noisy, 0.0001)).toBeGreaterThan(0.0022);
    expect(sampleSd(noisy, 0.0001)).toBeLessThan(0.004);
    expect(coarseStep(noisy, 0.0001)).toBe(0);
    const stairs = createClean();
    for (let i = 0; i < 500; i++) cleanPush(stairs, i * 0.02, Math.round(i * 0.0002 * 100) / 100, 0.01);
    expect(coarseStep(stairs, 0.01)).toBe(0.01);
  });

  it('knows another rate after three spacings of it; a lost line, or two, is none', () => {
    for (const [from, to] of [
      [50, 5],
      [200, 10],
      [5, 50],
    ] as const) {
      const s = createClean();
      let t = 0;
      for (let i = 0; i < 100; i++, t += 1 / from) cleanPush(s, t, 1, 0.001);
      expect(s.period).toBeCloseTo(1 / from, 6);
      t += 1 / to - 1 / from;
      for (let i = 0; i < 3; i++, t += 1 / to) cleanPush(s, t, 1, 0.001);
      expect(s.period).toBeCloseTo(1 / to, 6);
    }
    // One spacing alone, however short, moves it by less than a fiftieth.
    const once = createClean();
    for (let i = 0; i < 100; i++) cleanPush(once, i * 0.02, 1, 0.001);
    cleanPush(once, 99 * 0.02 + 0.002, 1, 0.001);
    expect(once.period).toBeCloseTo(0.02 * (1 - 0.05 * 0.3), 9);
    const lossy = createClean();
    for (let i = 0; i < 400; i++) if (i % 40 > 2) cleanPush(lossy, i * 0.02, 1, 0.001);
    expect(lossy.period).toBeLessThan(0.022);
  });
});
