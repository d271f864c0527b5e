import { pressureY } from './geometry.ts';
import { MARK_STYLE, type Mark } from './marks.ts';
import type { PressureUnit } from './numerals.ts';
import { multiples, stepsOf } from './scale.ts';
import { block, ground, line, type Rect, type Shape } from './shape.ts';

/** Limits in force over a stretch of the trace, bar; null: not set. toS null: to the end. */
export interface LimitSpan {
  readonly fromS: number;
  readonly toS: number | null;
  readonly ratedBar: number | null;
  readonly ceilingBar: number | null;
  readonly workingBar: number | null;
  readonly floorBar: number | null;
  readonly seatBar: number | null;
}

/** The same where it lies on the screen, px. */
export interface LimitStretch extends Omit<LimitSpan, 'fromS' | 'toS'> {
  readonly x0: number;
  readonly x1: number;
}

/** Limits of a trace as they lie in its view; what lies outside is dropped. */
export function stretchesOf(
  spans: readonly LimitSpan[],
  box: Rect,
  x: (s: number) => number,
): LimitStretch[] {
  return spans.flatMap(({ fromS, toS, ...limits }) => {
    const x0 = Math.max(box.x, x(fromS));
    const x1 = Math.min(box.x + box.w, toS === null ? box.x + box.w : x(toS));
    return x1 > x0 ? [{ ...limits, x0, x1 }] : [];
  });
}

/** What stands still under the pressure: what is beyond rated, the hold band, the grid. */
export function pressureGround(
  box: Rect,
  endBar: number,
  unit: PressureUnit,
  stretches: readonly LimitStretch[],
  ticksX: readonly number[],
): Shape[] {
  const y = pressureY(box, endBar);
  const out: Shape[] = [...block(box.x, box.y, box.w, box.h, 'well')];
  for (const s of stretches) {
    const w = s.x1 - s.x0;
    if (s.ratedBar !== null) out.push(...ground(s.x0, box.y, w, y(s.ratedBar) - box.y, 'hatch-pale'));
    if (s.floorBar !== null && s.ceilingBar !== null)
      out.push(...block(s.x0, y(s.ceilingBar), w, y(s.floorBar) - y(s.ceilingBar), 'band'));
  }
  const end = endBar * unit.factor;
  for (const v of multiples(stepsOf(end).numeral, end, 1)) {
    const at = y(v / unit.factor);
    out.push(line(box.x, at, box.x + box.w, at, { tone: 'grid', wide: 1 }));
  }
  for (const x of ticksX) out.push(line(x, box.y, x, box.y + box.h, { tone: 'grid', wide: 1 }));
  return out;
}

/** The marks across the trace, in the line styles that they have on the ladder. */
export function pressureMarks(
  box: Rect,
  endBar: number,
  stretches: readonly LimitStretch[],
  small: boolean,
): Shape[] {
  const y = pressureY(box, endBar);
  const out: Shape[] = [];
  const mark = (s: LimitStretch, which: Mark, bar: number | null) => {
    if (bar === null || bar > endBar) return;
    const { tone, dash, trace } = MARK_STYLE[which];
    const wide = trace[small ? 1 : 0];
    // The stop's lower edge is the value, here as on the ladder.
    const at = y(bar) - (which === 'rated' ? wide / 2 : 0);
    out.push(line(s.x0, at, s.x1, at, { tone, wide, ...(dash === undefined ? {} : { dash }) }));
  };
  // A ceiling that was lowered comes down in a step: two lines apart would leave open which of them holds.
  const { tone, dash, trace } = MARK_STYLE.ceiling;
  stretches.forEach((s, i) => {
    const to = stretches[i + 1]?.ceilingBar ?? null;
    if (s.ceilingBar === null || to === null || to === s.ceilingBar) return;
    const pen = { tone, wide: trace[small ? 1 : 0], ...(dash === undefined ? {} : { dash }) };
    out.push(line(s.x1, y(s.ceilingBar), s.x1, y(to), pen));
  });
  for (const s of stretches) {
    mark(s, 'seat', s.seatBar);
    mark(s, 'floor', s.floorBar);
    mark(s, 'working', s.workingBar);
    if (s.ceilingBar !== s.ratedBar) mark(s, 'ceiling', s.ceilingBar);
    mark(s, 'rated', s.ratedBar);
  }
  return out;
}

/** The word of practice, faintly where the trace has least to show: under the floor, or low in the lane. */
export function practiceWord(box: Rect, floorY: number | null, word: string, small: boolean): Shape {
  const top = floorY ?? box.y + box.h * 0.5;
  const room = box.y + box.h - top;
  const size = Math.max(10, Math.min(small ? 22 : 44, room * 0.5, (box.w / word.length) * 1.1));
  return {
    k: 'text',
    x: box.x + box.w / 2,
    y: top + room / 2 + size * 0.38,
    text: word,
    size,
    bold: true,
    anchor: 'middle',
    tone: 'hatch',
    alpha: 0.4,
  };
}
