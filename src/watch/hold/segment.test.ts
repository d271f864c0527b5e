import { describe, expect, it } from 'vitest';
import { noise } from '../../estimate/testing/random.ts';
import { createLevels, levelsAdd } from '../signal/levels.ts';
import { createSegment, segmentStep } from './segment.ts';

function played(seconds: number, p: (t: number) => number, sd = 0.002, ventFrom = Number.POSITIVE_INFINITY) {
  const l = createLevels();
  const s = createSegment();
  const n = noise(9);
  const out: string[] = [];
  for (let k = 0; k < seconds * 20; k++) {
    const t = k / 20;
    if (!levelsAdd(l, t, p(t) + sd * n())) continue;
    const step = segmentStep(s, l, l.noiseBar, t >= ventFrom, t);
    if (step !== null) out.push(`${t.toFixed(0)} ${step.what} ${step.why}`);
  }
  return out.map((one) => one.replace(/^\d+ /, ''));
}

describe('closed segments', () => {
  it('open when still; a leak and the warmth of the cure do not close them', () => {
    expect(played(900, (t) => 1.8 - 0.00008 * t)).toEqual(['opened still']);
    // 30 K in 10 min in a closed packer: 27 mbar/min.
    expect(played(900, (t) => 1.8 + 0.00045 * t)).toEqual(['opened still']);
  });

  it('split at a top-up and open again after it', () => {
    expect(played(200, (t) => 1.7 + (t < 100 ? 0 : Math.min(0.1, (t - 100) * 0.02)))).toEqual([
      'opened still',
      'closed top-up',
      'opened still',
    ]);
  });

  it('close when air is let out, and at once when the vent is said to be open', () => {
    expect(played(60, (t) => 1.8 - (t < 30 ? 0 : 0.05 * (t - 30)))).toEqual(['opened still', 'closed flow']);
    expect(played(60, () => 1.8, 0.002, 30)).toEqual(['opened still', 'closed flow']);
  });

  it('do not open while air flows', () => {
    expect(played(30, (t) => 0.05 * t)).toEqual([]);
  });

  it('noise splits nothing', () => {
    for (const sd of [0.0005, 0.005, 0.015])
      expect(played(1800, () => 1.8, sd).filter((s) => s.startsWith('closed'))).toEqual([]);
  });
});
