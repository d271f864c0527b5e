import { describe, expect, it } from 'vitest';
import { courseOn, createCourse } from './cup-course.ts';
import { greatestHeat, LEAST_RISE_K, riseOf } from './cup-heat.ts';

/** A lumped cup in air: m·c·dT/dt = heat − UA·(T − Ta), stepped finely; heat in K/s of the cup. */
function courseOf(
  heat: (t: number, c: number) => number,
  tauS: number,
  airC: number,
  startC: number,
  endS: number,
) {
  const course = createCourse();
  let c = startC;
  for (let t = 1; t <= endS; t++) {
    c += heat(t, c) - (c - airC) / tauS;
    courseOn(course, 1, c, t / 3600);
  }
  return course;
}
/** A resin that heat makes no quicker. */
const SAME = () => 60;

const bell = (atS: number, widthS: number, kelvin: number) => (t: number) =>
  (kelvin / (widthS * Math.sqrt(2 * Math.PI))) * Math.exp(-0.5 * ((t - atS) / widthS) ** 2);

describe('the greatest heat of a cup', () => {
  // Where the output was greatest is known, since it was put in; a cup of 200 g is taken to have 2200 s.
  it.each([
    [2200, 10],
    [1400, 18],
    [3300, 5],
  ])('is found within a fifteenth of the time with a vessel of %i s in air of %i °C', (tauS, airC) => {
    const found = greatestHeat(courseOf(bell(3600, 700, 40), tauS, airC, 20, 3 * 3600), 200, SAME);
    expect(found?.passed).toBe(true);
    expect(Math.abs(found!.age - 1)).toBeLessThan(1 / 15);
  });

  it('is that at one temperature: what a warmer cup makes more by its warmth is taken out', () => {
    // At one temperature it is greatest at an hour; doubling each 12 K it gives its most heat well after that.
    const warmth = (c: number) => 2 ** ((c - 20) / 12);
    const law = bell(3600, 1100, 24);
    const course = courseOf((t, c) => law(t) * warmth(c), 2200, 10, 20, 3 * 3600);
    const at = (minutes: (c: number) => number) => greatestHeat(course, 200, minutes)!.age;
    expect(at(SAME)).toBeGreaterThan(1.05);
    expect(Math.abs(at((c) => 60 / warmth(c)) - 1)).toBeLessThan(0.05);
  });

  it('comes before the peak of temperature, which cooling moves', () => {
    const course = courseOf(bell(3600, 700, 40), 3300, 10, 20, 3 * 3600);
    const top = course.means.indexOf(Math.max(...course.means));
    expect(course.ages[top]!).toBeGreaterThan(1.2);
  });

  it('has not passed while it rises', () => {
    const found = greatestHeat(courseOf(bell(3600, 700, 40), 2200, 10, 20, 3300), 200, SAME);
    expect(found).toMatchObject({ passed: false });
    expect(found!.age).toBeLessThan(1);
  });

  it('of a plateau that rises to its end is never told later than its middle turns out to be', () => {
    // Within nine tenths from 50 to 120 min; the very greatest is at its end.
    const output = (t: number) => {
      const edge = (atS: number) => 1 / (1 + Math.exp(-(t - atS) / 240));
      return (40 / 6000) * edge(3000) * (1 - edge(7200)) * (1 + t / 1e5);
    };
    const course = createCourse();
    const soFar: number[] = [];
    let c = 15;
    let end: number | null = null;
    for (let t = 1; t <= 4 * 3600 && end === null; t++) {
      c += output(t) - (c - 12) / 2200;
      if (!courseOn(course, 1, c, t / 3600)) continue;
      const heat = greatestHeat(course, 200, SAME);
      if (heat?.passed) end = heat.age;
      else if (heat !== null) soFar.push(heat.age);
    }
    expect(Math.abs(end! - 1.42)).toBeLessThan(0.1);
    expect(Math.max(...soFar)).toBeLessThan(1.02 * end!);
  });

  it('of a cup that is at its hottest from the first stretch on has passed, too', () => {
    const course = courseOf((t) => 0.4 * Math.exp(-t / 120), 2200, 10, 20, 3600);
    expect(greatestHeat(course, 200, SAME)).toMatchObject({ passed: true });
    expect(greatestHeat(course, 200, SAME)!.age).toBeLessThan(0.06);
  });

  it('is none of a cup that warms little, be it by warmer air', () => {
    const warmed = courseOf(() => 0, 2200, 15, 10, 4 * 3600);
    expect(riseOf(warmed)).toBeLessThan(LEAST_RISE_K);
    expect(greatestHeat(warmed, 200, SAME)).toBeNull();
    expect(greatestHeat(courseOf(bell(3600, 700, 3), 2200, 10, 20, 3 * 3600), 200, SAME)).toBeNull();
  });
});
