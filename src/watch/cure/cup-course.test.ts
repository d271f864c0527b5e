import { describe, expect, it } from 'vitest';
import { courseOn, createCourse } from './cup-course.ts';

describe('the course of a cup', () => {
  it('keeps means over stretches that grow with the time, and the age at their ends', () => {
    const s = createCourse();
    for (let t = 5; t <= 6 * 3600; t += 5) courseOn(s, 5, t, t / 3600);
    expect(s.means.length).toBeGreaterThanOrEqual(64);
    expect(s.means.length).toBeLessThan(128);
    // 10 s, doubled until six hours fit.
    expect(s.lengthS).toBe(320);
    s.means.forEach((c, i) => {
      expect(c).toBeCloseTo((i + 0.5) * 320 + 2.5, 6);
      expect(s.ages[i]).toBeCloseTo(((i + 1) * 320) / 3600, 6);
    });
  });

  it('says where a stretch has ended', () => {
    const s = createCourse();
    expect([3, 3, 3, 3].map((dt) => courseOn(s, dt, 10, 0))).toEqual([false, false, false, true]);
  });
});
