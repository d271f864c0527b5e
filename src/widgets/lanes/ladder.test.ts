import { describe, expect, it } from 'vitest';
import { METRIC } from '../../units/display.ts';
import { lanesBox, pressureY } from './geometry.ts';
import { ladderFill, ladderGround, ladderMarks, ladderPointer } from './ladder.ts';
import type { LadderState } from './ladder-state.ts';
import { MARK_STYLE } from './marks.ts';
import type { Measure, PathShape, RectShape, Shape, TextShape } from './shape.ts';
import { LADDERS, LIMITS, SIZES, unitOf, WORDS } from './testing/pictures.ts';

const BAR = unitOf(METRIC);
const BOX = lanesBox(SIZES.tablet).ladder;
const measure: Measure = (text, size) => text.length * size * 0.58;
const rects = (shapes: readonly Shape[]) => shapes.filter((s): s is RectShape => s.k === 'rect');
const paths = (shapes: readonly Shape[]) => shapes.filter((s): s is PathShape => s.k === 'path');
const texts = (shapes: readonly Shape[]) =>
  shapes.filter((s): s is TextShape => s.k === 'text').map((t) => t.text);
const marks = (state: LadderState) => ladderMarks(state, BOX, BAR, WORDS, measure);
const y = (state: LadderState) => pressureY(BOX.column, state.endBar);
/** Filled grounds of a tone. */
const of = (shapes: readonly Shape[], tone: string) => rects(shapes).filter((r) => r.fill === tone);

describe('the fill', () => {
  it('stands at the reading, and its foot at zero', () => {
    const state = LADDERS.cue;
    const [body] = of(ladderFill(state, BOX, BAR), 'ink');
    expect(body!.y).toBeCloseTo(y(state)(1.12), 6);
    expect(body!.y + body!.h).toBeCloseTo(BOX.column.y + BOX.column.h, 6);
    // A wide body with two gutters.
    expect(body!.x - BOX.column.x).toBeCloseTo(BOX.column.w * 0.17, 0);
  });

  it('is red from the ceiling on, and over rated red above the stop alone, at full width', () => {
    expect(of(ladderFill(LADDERS.hold, BOX, BAR), 'urgent')).toEqual([]);
    expect(of(ladderFill(LADDERS.ceiling, BOX, BAR), 'urgent')).toHaveLength(1);
    const over = ladderFill(LADDERS.over, BOX, BAR);
    const [red] = of(over, 'urgent');
    expect(red).toMatchObject({ x: BOX.column.x, w: BOX.column.w });
    expect(red!.y).toBeCloseTo(y(LADDERS.over)(3), 6);
    expect(red!.y + red!.h).toBeCloseTo(y(LADDERS.over)(1.8), 6);
    expect(of(over, 'ink')[0]!.y).toBeCloseTo(y(LADDERS.over)(1.8), 6);
  });

  it('breaks through the stop: red lies over its middle, a hair over rated too', () => {
    const through = of(marks({ ...LADDERS.over, bar: 1.81, endBar: 2.196 }), 'urgent');
    expect(through).toHaveLength(1);
    expect(through[0]!.h).toBeGreaterThanOrEqual(3);
    expect(of(marks({ ...LADDERS.ceiling, bar: 1.8 }), 'urgent')).toEqual([]);
  });

  it('of a lost reading is none: dots from zero through the stop to the top', () => {
    for (const name of ['lost', 'none'] as const) {
      const shapes = ladderFill(LADDERS[name], BOX, BAR);
      expect(shapes).toHaveLength(1);
      expect(shapes[0]).toMatchObject({ texture: 'dots', y: BOX.column.y, h: BOX.column.h });
    }
    expect(texts(marks(LADDERS.lost))).toContain('Last');
  });

  it('over the sensor’s end goes on to the top, which is open', () => {
    const [red] = of(ladderFill(LADDERS.range, BOX, BAR), 'urgent');
    expect(red!.y).toBe(BOX.column.y);
    const outline = (state: LadderState) => paths(marks(state))[0]!.points;
    expect(outline(LADDERS.range)).toHaveLength(4);
    expect(outline(LADDERS.over)).toHaveLength(5);
    expect(texts(marks(LADDERS.range)).join(' ')).toContain('At least 4.00');
  });

  it('a stale reading never looks like a good one', () => {
    expect(of(ladderFill(LADDERS.stale, BOX, BAR), 'ink')).toEqual([]);
    expect(of(ladderFill(LADDERS.stale, BOX, BAR), 'ink3')).toHaveLength(1);
    expect(paths(ladderPointer(LADDERS.stale, BOX))[0]!.fill).toBe('ink3');
  });
});

describe('the marks', () => {
  it('each keeps its line style, across the column at its value', () => {
    const lines = paths(marks(LADDERS.hold)).filter(
      (p) => p.points.length === 2 && p.points[0]![1] === p.points[1]![1],
    );
    for (const [mark, bar] of [
      ['ceiling', LIMITS.ceilingBar],
      ['working', LIMITS.workingBar],
      ['floor', LIMITS.floorBar],
      ['seat', LIMITS.seatBar],
    ] as const) {
      const at = y(LADDERS.hold)(bar!);
      const line = lines.find((l) => Math.abs(l.points[0]![1] - at) < 1e-6 && l.points[0]![0] < BOX.column.x);
      expect(line?.pen?.dash, mark).toEqual(MARK_STYLE[mark].dash);
      expect(line?.pen?.wide).toBe(MARK_STYLE[mark].ladder[0]);
    }
  });

  it('the stop’s lower edge is the rated value, and it stands out on both sides', () => {
    const stop = paths(marks(LADDERS.hold)).find((p) => p.closed === true && p.points.length === 8)!;
    const at = y(LADDERS.hold)(1.8);
    expect(stop.points.filter(([, py]) => Math.abs(py - at) < 1e-6)).toHaveLength(2);
    const xs = stop.points.map((p) => p[0]);
    expect(Math.min(...xs)).toBeLessThan(BOX.column.x - 10);
    // Numerals stand clear of it.
    expect(BOX.numeralsX).toBeLessThan(Math.min(...xs));
  });

  it('numerals of four digits, as in an air test, are smaller and not cut', () => {
    const sized = (unit: typeof BAR) =>
      ladderGround(LADDERS.hold, BOX, unit).flatMap((s) => (s.k === 'text' ? [s] : []));
    const [bar, mbar] = [sized(BAR), sized({ ...BAR, unit: 'mbar', factor: 1000 })];
    expect(mbar.map((s) => s.text)).toContain('1500');
    expect(mbar[0]!.size).toBeLessThan(bar[0]!.size);
    // A digit of B612 is 0.65 of its size wide (measured in Chromium).
    expect(4 * 0.65 * mbar[0]!.size).toBeLessThanOrEqual(BOX.numeralsW);
  });

  it('without a limit there is no hatch, stop, band or mark', () => {
    const ground = ladderGround(LADDERS.noLimit, BOX, BAR);
    expect(rects(ground).some((r) => r.texture !== undefined || r.fill === 'band2')).toBe(false);
    expect(marks(LADDERS.noLimit)).toHaveLength(1);
  });

  it('the stage’s aim stands on a black plate; the hold’s is the band', () => {
    const plates = (state: LadderState) => of(marks(state), 'ink');
    expect(plates(LADDERS.cue)).toHaveLength(1);
    expect(plates(LADDERS.prepare)).toEqual([]);
    expect(plates(LADDERS.hold)).toEqual([]);
    const bracket = (state: LadderState) =>
      paths(marks(state)).find(
        (p) => p.points.length === 4 && p.closed !== true && p.points[0]![0] > BOX.column.x,
      );
    expect(bracket(LADDERS.hold)?.pen).toEqual({ tone: 'ink', wide: 6 });
    expect(bracket(LADDERS.prepare)?.pen).toEqual({ tone: 'edge', wide: 2 });
  });

  it('a pressure that is ordered takes the plate, with what must be left', () => {
    const shown = texts(marks(LADDERS.lift));
    expect(shown).toEqual(expect.arrayContaining(['1.35', '0.90']));
    expect(shown.join(' ')).toContain('Let out to');
    expect(of(marks(LADDERS.lift), 'ink')).toHaveLength(1);
  });

  it('the ghost says what it is: settles, or what comes if left open; red only then', () => {
    expect(texts(marks(LADDERS.cue))).toContain('Settles');
    expect(texts(marks(LADDERS.rising)).join(' ')).toContain('If left open');
    const dashed = (state: LadderState) =>
      paths(ladderFill(state, BOX, BAR)).find((r) => r.pen?.dash !== undefined);
    expect(dashed(LADDERS.cue)?.pen?.tone).toBe('ink');
    expect(dashed(LADDERS.rising)?.pen?.tone).toBe('urgent-thin');
    expect(dashed(LADDERS.hold)).toBeUndefined();
    // A reading that is not good has no forecast.
    expect(dashed({ ...LADDERS.cue, trust: 'stale' })).toBeUndefined();
  });
});

describe('trend and pointer', () => {
  it('the trend is as long as the way of five seconds, in the middle of the column, out of the gutter', () => {
    const [trend] = paths(ladderPointer(LADDERS.cue, BOX));
    const tip = trend!.points[0]!;
    expect(tip[1]).toBeCloseTo(y(LADDERS.cue)(1.12 + 5 * 0.047), 6);
    expect(tip[0]).toBeCloseTo(BOX.column.x + BOX.column.w / 2, 6);
    expect(paths(ladderPointer(LADDERS.seat, BOX))).toHaveLength(1);
  });

  it('falling points down', () => {
    const [trend] = paths(ladderPointer(LADDERS.letDown, BOX));
    expect(trend!.points[0]![1]).toBeGreaterThan(y(LADDERS.letDown)(0.62));
  });

  it('a lost reading has a dashed line where it was last, and no pointer', () => {
    const shapes = paths(ladderPointer(LADDERS.lost, BOX));
    expect(shapes.every((s) => s.points.length === 2)).toBe(true);
    expect(shapes.some((s) => s.pen?.dash !== undefined)).toBe(true);
    expect(ladderPointer(LADDERS.none, BOX)).toEqual([]);
  });
});

describe('a second pressure', () => {
  const state = { ...LADDERS.cue, second: { name: 'Supply', bar: 1.38 } };
  /** The hollow diamond on the column's left edge. */
  const diamonds = (shapes: readonly Shape[]) =>
    paths(shapes).filter(
      (p) => p.closed === true && p.points.length === 4 && p.points[1]![0] === BOX.column.x,
    );

  it('is a mark at its height with its name, and nothing where there is none', () => {
    const [mark] = diamonds(marks(state));
    expect(mark!.points[0]![1]).toBeCloseTo(y(state)(1.38), 6);
    expect(texts(marks(state))).toContain('1.38');
    expect(diamonds(marks(LADDERS.cue))).toEqual([]);
  });

  it('over the end of the scale it stands at the top and says its own number', () => {
    const high = { ...state, second: { name: 'Supply', bar: 5.5 } };
    expect(diamonds(marks(high))[0]!.points[0]![1]).toBeCloseTo(BOX.column.y, 6);
    expect(texts(marks(high))).toContain('5.50');
  });
});
