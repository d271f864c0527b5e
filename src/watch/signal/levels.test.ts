import { describe, expect, it } from 'vitest';
import { noise } from '../../estimate/testing/random.ts';
import { createLevels, levelAgo, levelMax, levelNow, levelSpan, levelsAdd, levelsClear } from './levels.ts';

function fed(seconds: number, hz: number, p: (t: number) => number) {
  const l = createLevels();
  for (let k = 0; k <= seconds * hz; k++) levelsAdd(l, k / hz, p(k / hz));
  return l;
}

describe('recent course', () => {
  it('keeps quarter-second means of about twelve seconds', () => {
    const l = fed(60, 100, (t) => t);
    expect(l.t).toHaveLength(48);
    expect(levelNow(l)!).toBeCloseTo(59.87, 1);
    expect(levelNow(l)! - levelAgo(l, 5)!).toBeCloseTo(5, 6);
    expect(levelSpan(l, 5)!).toBeCloseTo(5, 6);
    expect(levelMax(l, 3)).toBe(levelNow(l));
    expect(levelAgo(l, 20)).toBeNull();
  });

  it('a slow device gives single readings and a longer course', () => {
    const l = fed(600, 0.5, (t) => t / 100);
    expect(levelAgo(l, 60)).not.toBeNull();
    expect(levelSpan(l, 60)!).toBeCloseTo(0.6, 6);
  });

  it('has no span before the course is long enough', () => {
    const l = fed(3, 20, () => 1);
    expect(levelSpan(l, 4)).toBeNull();
    levelsClear(l);
    expect([levelNow(l), levelAgo(l, 0), levelMax(l, 1), levelSpan(l, 1)]).toEqual([null, null, null, null]);
  });

  it('learns the scatter of its means, and a step does not pass for noise', () => {
    const n = noise(3);
    const l = fed(60, 20, (t) => (t < 40 ? 1 : 2) + 0.01 * n());
    // 5 readings in a mean at 20 Hz: 0.01/√5.
    expect(l.noiseBar).toBeGreaterThan(0.0025);
    expect(l.noiseBar).toBeLessThan(0.008);
  });
});
