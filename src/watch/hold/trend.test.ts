import { describe, expect, it } from 'vitest';
import { noise } from '../../estimate/testing/random.ts';
import { bandExit, createTrend, trendAdd, trendClear, trendSlope } from './trend.ts';

function course(minutes: number, p: (t: number) => number, seed = 1) {
  const tr = createTrend();
  const n = noise(seed);
  for (let t = 0; t <= minutes * 60; t += 0.2) trendAdd(tr, t, p(t) + 0.002 * n());
  return tr;
}

describe('when the band will be left', () => {
  it('downwards by a steady fall: the time lies in its interval', () => {
    const e = bandExit(
      course(8, (t) => 1 - 0.0001 * t),
      0.9,
      2,
    )!;
    expect(e.direction).toBe('down');
    expect(e.inS.value).toBeGreaterThan(480);
    expect(e.inS.value).toBeLessThan(560);
    expect(e.inS.low).toBeLessThanOrEqual(e.inS.value);
    expect(e.inS.high).toBeGreaterThanOrEqual(e.inS.value);
  });

  it('upwards by warmth', () => {
    expect(
      bandExit(
        course(8, (t) => 1 + 0.0001 * t),
        0.9,
        1.1,
      )!.direction,
    ).toBe('up');
  });

  it('a rise that speeds up comes sooner, one that fades out under the ceiling never', () => {
    const steady = bandExit(
      course(10, (t) => 1 + 1e-4 * t),
      0.9,
      1.15,
    )!;
    const growing = bandExit(
      course(10, (t) => 0.97 + 1e-4 * t + 8e-8 * (t - 300) * Math.max(0, t - 300)),
      0.9,
      1.15,
    )!;
    expect(growing.direction).toBe('up');
    expect(growing.inS.value).toBeLessThan(steady.inS.value);
    expect(
      bandExit(
        course(10, (t) => 1 + 0.05 * (1 - Math.exp(-t / 240))),
        0.9,
        1.08,
      ),
    ).toBeNull();
  });

  it('noise alone is no trend, in any of 50 courses', () => {
    for (let seed = 1; seed <= 50; seed++)
      expect(
        bandExit(
          course(6, () => 1, seed),
          0.9,
          1.1,
        ),
      ).toBeNull();
  });

  it('is not said without an edge, too early, past the edge, far off or after a break', () => {
    const falling = course(8, (t) => 1 - 0.0001 * t);
    expect(bandExit(falling, null, 2)).toBeNull();
    expect(bandExit(falling, 0.97, 2)).toBeNull();
    expect(
      bandExit(
        course(1, (t) => 1 - 0.0001 * t),
        0.9,
        2,
      ),
    ).toBeNull();
    expect(
      bandExit(
        course(10, (t) => 3 - 0.00001 * t),
        0.5,
        4,
      ),
    ).toBeNull();
    trendClear(falling);
    expect(trendSlope(falling)).toBeNull();
  });
});
