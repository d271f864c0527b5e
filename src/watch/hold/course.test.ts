import { describe, expect, it } from 'vitest';
import { fitLine } from '../../estimate/line.ts';
import { COURSE_FULL, courseAdd, courseFrom, courseTrim, createCourse } from './course.ts';

function played(seconds: number, slides: boolean, hz = 5) {
  const c = createCourse(10, slides);
  for (let k = 0; k < seconds * hz; k++) {
    const t = k / hz;
    courseAdd(c, t, 3 - 0.001 * t, k % 2 === 0 ? 280 + 0.01 * t : null, null);
  }
  return c;
}

describe('course of a segment', () => {
  it('says when a block is complete: once in each length, and never else', () => {
    const c = createCourse(10, false);
    const complete: number[] = [];
    for (let t = 0; t <= 35; t++) if (courseAdd(c, t, 3, null, null)) complete.push(t);
    expect(complete).toEqual([10, 20, 30]);
  });

  it('keeps a straight line straight, however long it gets, at a bounded number', () => {
    for (const hours of [0.1, 1, 12]) {
      const c = played(hours * 3600, false);
      expect(c.t.length).toBeLessThan(COURSE_FULL);
      expect(c.t.length).toBeGreaterThan(20);
      expect(fitLine(c.t, c.y)!.slope).toBeCloseTo(-0.001, 9);
      expect(c.t[0]!).toBeLessThan(c.lengthS);
      expect(
        fitLine(
          c.t,
          c.air.map((v) => v ?? 0),
        )!.slope,
      ).toBeCloseTo(0.01, 5);
      expect(c.sleeve.every((v) => v === null)).toBe(true);
    }
  });

  it('a sliding one remembers the last blocks, and a growing one can begin from it', () => {
    const c = played(7200, true);
    expect(c.t.length).toBe(80);
    expect(c.lengthS).toBe(10);
    expect(c.t[0]!).toBeGreaterThan(6300);
    const grown = courseFrom(c, 6900);
    expect(grown.t[0]!).toBeGreaterThanOrEqual(6900);
    for (let t = 7200; t < 9000; t += 0.2) courseAdd(grown, t, 3 - 0.001 * t, null, null);
    expect(grown.lengthS).toBeGreaterThan(10);
    expect(c.t.length).toBe(80);
    expect(fitLine(grown.t, grown.y)!.slope).toBeCloseTo(-0.001, 9);
  });

  it('can take back its last blocks', () => {
    const c = played(600, false);
    courseTrim(c, 580);
    expect(c.t.at(-1)! + c.lengthS / 2).toBeLessThanOrEqual(580.01);
    expect(c.y.length).toBe(c.t.length);
    courseTrim(c, -1);
    expect(c.t).toEqual([]);
  });

  it('a block without a temperature says so', () => {
    const c = createCourse(1, false);
    for (let k = 0; k < 100; k++) courseAdd(c, k / 10, 1, k < 50 ? 285 : null, null);
    expect(c.air.slice(0, 5)).toEqual([285, 285, 285, 285, 285]);
    expect(c.air.slice(5).every((v) => v === null)).toBe(true);
  });
});
