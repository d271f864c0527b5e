import { describe, expect, it } from 'vitest';
import { createLevels, levelsAdd } from '../signal/levels.ts';
import { createLeastHeld, type LeastHeld, leastBreak, leastFollow, leastRests } from './least-held.ts';

/** A line at 20 Hz that reads `bar(seconds since this piece began)`, piece after piece. */
class Line {
  readonly h: LeastHeld = createLeastHeld();
  private readonly levels = createLevels();
  private n = 0;
  constructor(
    private readonly atPacker = false,
    private readonly mostBar: number | null = null,
  ) {}

  reads(seconds: number, bar: (s: number) => number): this {
    for (let k = 1; k <= seconds * 20; k++)
      if (levelsAdd(this.levels, ++this.n / 20, bar(k / 20)))
        leastFollow(this.h, this.levels, this.atPacker, this.mostBar);
    return this;
  }
}
const at = (bar: number) => () => bar;
const opens = (to: number) => (s: number) => to * (1 - Math.exp(-s / 0.1));

describe('the least that a packer holds', () => {
  it('is what has come slowly, and nothing of what a hose takes at once', () => {
    // A second late.
    expect(new Line().reads(10, (s) => 0.1 * s).h.bar).toBeCloseTo(0.87, 1);
    expect(new Line().reads(20, opens(0.8)).h.bar).toBeLessThan(0.02);
    const through = new Line().reads(20, (s) => opens(0.8)(s) + 0.02 * s);
    expect(through.h.bar).toBeGreaterThan(0.3);
    expect(through.h.bar).toBeLessThan(0.42);
  });

  it('is all that is left when the flow has ended, and not before', () => {
    const line = new Line().reads(5, opens(0.8)).reads(1.5, (s) => 0.5 + 0.3 * Math.exp(-s / 0.1));
    expect(line.h.bar).toBeLessThan(0.05);
    expect(line.reads(2, at(0.5)).h.bar).toBeCloseTo(0.5, 2);
    // It is kept when the packer has lost it.
    expect(line.reads(5, at(0)).h.bar).toBeCloseTo(0.5, 2);
  });

  it('is the level itself where no hose lies between', () => {
    expect(new Line(true).reads(3, opens(0.8)).h.bar).toBeCloseTo(0.8, 2);
    // A peak of half a second is none.
    expect(new Line(true).reads(0.5, at(0.8)).reads(3, at(0.1)).h.bar).toBeLessThan(0.2);
  });

  it('is no more than a let-out that was asked for leaves', () => {
    expect(new Line(false, 1.2).reads(20, (s) => 0.1 * s).h.bar).toBe(1.2);
  });

  it('knows after a gap what it knew, and takes the rest for the hose’s', () => {
    const line = new Line().reads(5, (s) => 0.1 * s);
    leastBreak(line.h);
    expect(line.reads(5, at(1)).h.bar).toBeCloseTo(0.4, 1);
    leastRests(line.h, 1.4);
    expect(line.h.bar).toBe(1.4);
    leastRests(line.h, null);
    expect(line.reads(5, at(0.9)).h.bar).toBe(1.4);
  });
});
