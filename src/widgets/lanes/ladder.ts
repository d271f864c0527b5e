import { type LadderBox, pressureY, stopBeyond } from './geometry.ts';
import { type LadderWords, labelShapes, labelsOf } from './ladder-labels.ts';
import type { LadderState } from './ladder-state.ts';
import { MARK_STYLE, type Mark } from './marks.ts';
import { type PressureUnit, pressureNumerals } from './numerals.ts';
import { multiples, stepsOf } from './scale.ts';
import { block, ground, line, type Measure, type Shape, type Tone } from './shape.ts';

/** From this on the trend is drawn, bar/s; it shows where the pressure would be after so many seconds. */
const TREND_BAR_PER_S = 0.003;
const TREND_S = 5;
/** An arrow shorter than this says nothing, px. */
const TREND_LEAST_PX = 8;

/** Edges of the fill inside the column, px. */
function fillEdges(box: LadderBox): readonly [number, number] {
  const inset = Math.round(box.column.w * 0.17);
  return [box.column.x + inset, box.column.x + box.column.w - inset];
}

/** What stands still while limits and scale do: well, hatch, band, rungs, numerals. */
export function ladderGround(state: LadderState, box: LadderBox, unit: PressureUnit): Shape[] {
  const { column: c, small, numeralsX, numeralsW } = box;
  const { limits, endBar } = state;
  const y = pressureY(c, endBar);
  const right = c.x + c.w;
  const out: Shape[] = [...block(c.x, c.y, c.w, c.h, 'well')];
  if (limits !== null) {
    out.push(...ground(c.x, c.y, c.w, y(limits.ratedBar) - c.y, 'hatch'));
    if (limits.floorBar !== null)
      out.push(...block(c.x, y(limits.ceilingBar), c.w, y(limits.floorBar) - y(limits.ceilingBar), 'band2'));
  }
  const end = endBar * unit.factor;
  const steps = stepsOf(end);
  for (const v of multiples(steps.rung, end, 1)) {
    const at = y(v / unit.factor);
    out.push(line(c.x, at, right, at, { tone: 'rung', wide: 1 }));
    out.push(line(c.x - (small ? 3 : 5), at, c.x, at, { tone: 'edge', wide: 1 }));
  }
  for (const v of multiples(steps.numeral, end)) {
    const at = y(v / unit.factor);
    out.push(line(c.x - (small ? 4 : 8), at, c.x, at, { tone: 'ink', wide: 2 }));
  }
  out.push(...pressureNumerals(c, numeralsX, endBar, unit, small, numeralsW));
  return out;
}

/** The fill with its rungs, or dots for a pressure that nobody knows, and the ghost's body: under the marks. */
export function ladderFill(state: LadderState, box: LadderBox, unit: PressureUnit): Shape[] {
  const { column: c, small } = box;
  const { limits, endBar, trust } = state;
  const y = pressureY(c, endBar);
  const [x0, x1] = fillEdges(box);
  const foot = c.y + c.h;
  // Nothing bounds what is not known: through the stop, to the top.
  if (trust === 'lost' || trust === 'none') return ground(c.x, c.y, c.w, c.h, 'dots');
  if (state.bar === null) return [];
  const out: Shape[] = [];
  const top = trust === 'over' ? endBar : state.bar;
  const rated = limits?.ratedBar ?? Number.POSITIVE_INFINITY;
  // Over rated the part above the stop alone is red: how far it is over is seen.
  const tone: Tone = trust === 'stale' ? 'ink3' : atCeiling(state) && top <= rated ? 'urgent' : 'ink';
  out.push(...block(x0, y(Math.min(top, rated)), x1 - x0, foot - y(Math.min(top, rated)), tone));
  if (top > rated) out.push(...block(c.x, y(top), c.w, y(rated) - y(top), 'urgent'));
  const step = stepsOf(endBar * unit.factor).rung / unit.factor;
  for (const v of multiples(step, top - endBar * 0.008, 1))
    out.push(line(x0, y(v), x1, y(v), { tone: 'plate', wide: 1.2 }));
  if (state.ghost !== null && trust === 'good') {
    const hot: Tone = state.ghost.isUrgent ? 'urgent-thin' : 'ink';
    const { value, low, high } = state.ghost;
    const inset = small ? 1 : 1.5;
    // From the ghost down, so that its dashes stand still while the fill comes up to them.
    if (value > state.bar)
      for (const x of [x0 + inset, x1 - inset])
        out.push(
          line(x, y(value), x, y(state.bar), {
            tone: hot,
            wide: small ? 2 : 3,
            dash: small ? [4, 4] : [7, 5],
          }),
        );
    out.push({
      k: 'rect',
      x: x0 - 3,
      y: y(high),
      w: x1 - x0 + 6,
      h: Math.max(0, y(low) - y(high)),
      fill: hot,
      alpha: 0.22,
    });
  }
  return out;
}

/** At the ceiling fill and pointer are red already: past it only the stop is left. */
const atCeiling = ({ limits, bar, trust }: LadderState): boolean =>
  trust !== 'stale' && limits !== null && bar !== null && bar >= limits.ceilingBar;

/** A line across the column and a little beyond it. */
function across(box: LadderBox, at: number, mark: Mark): Shape {
  const { column: c, small } = box;
  const style = MARK_STYLE[mark];
  const beyond = small ? 4 : 6;
  return line(c.x - beyond, at, c.x + c.w + beyond, at, {
    tone: 'ink',
    wide: style.ladder[small ? 1 : 0],
    ...(style.dash === undefined ? {} : { dash: style.dash }),
  });
}

/** The step of a ceiling that was lowered: its old place, thin, and the way down to the new one at the column's left edge. */
function lowered(box: LadderBox, from: number, to: number): Shape[] {
  const { column: c, small } = box;
  const x = c.x + (small ? 3 : 5);
  const pen = { tone: 'ink', wide: small ? 1.5 : 2 } as const;
  return [line(c.x, from, c.x + c.w, from, { ...pen, wide: 1.5, dash: [2, 4] }), line(x, from, x, to, pen)];
}

/** A bracket in the right margin, open to the column. */
function bracket(box: LadderBox, from: number, to: number, tone: Tone, wide: number): Shape {
  const { column: c, small } = box;
  const x = c.x + c.w + (small ? 6 : 9);
  const reach = small ? 4 : 6;
  return {
    k: 'path',
    points: [
      [x, from],
      [x + reach, from],
      [x + reach, to],
      [x, to],
    ],
    pen: { tone, wide },
  };
}

/** The stop: a bracket over the column that the fill runs into. Its lower edge is the value. */
function stop(box: LadderBox, at: number): Shape {
  const { column: c, small } = box;
  const thick = MARK_STYLE.rated.ladder[small ? 1 : 0];
  const beyond = stopBeyond(small);
  const foot = at + (small ? 5 : 7);
  const [x0, x1] = [c.x - beyond, c.x + c.w + beyond];
  const [i0, i1] = [c.x - 2, c.x + c.w + 2];
  return {
    k: 'path',
    closed: true,
    points: [
      [x0, foot],
      [x0, at - thick],
      [x1, at - thick],
      [x1, foot],
      [i1, foot],
      [i1, at],
      [i0, at],
      [i0, foot],
    ],
    fill: 'ink',
    pen: { tone: 'plate', wide: 2 },
  };
}

/** The second pressure: a hollow diamond on the column's left edge, where no other mark begins, and a thin line to the label's side. */
function secondMark(box: LadderBox, at: number): Shape[] {
  const { column: c, small } = box;
  const e = small ? 5 : 8;
  return [
    line(c.x, at, c.x + c.w, at, { tone: 'plate', wide: small ? 3.5 : 4.5 }),
    line(c.x, at, c.x + c.w, at, { tone: 'ink', wide: small ? 1.5 : 2, dash: [1.5, 3.5] }),
    {
      k: 'path',
      closed: true,
      points: [
        [c.x - e, at],
        [c.x, at - e],
        [c.x + e, at],
        [c.x, at + e],
      ],
      fill: 'plate',
      pen: { tone: 'ink', wide: small ? 1.5 : 2 },
    },
  ];
}

/** Outline, marks, stop, hold bracket, ordered pressure and labels: over the fill, standing still while it moves. */
export function ladderMarks(
  state: LadderState,
  box: LadderBox,
  unit: PressureUnit,
  words: LadderWords,
  measure: Measure,
): Shape[] {
  const { column: c, small } = box;
  const { limits, endBar, aim, order } = state;
  const y = pressureY(c, endBar);
  const right = c.x + c.w;
  const isOpen = state.trust === 'over';
  const out: Shape[] = [
    // Over the sensor's end the column has no top: nobody knows how far it goes.
    {
      k: 'path',
      points: isOpen
        ? [
            [c.x, c.y],
            [c.x, c.y + c.h],
            [right, c.y + c.h],
            [right, c.y],
          ]
        : [
            [c.x, c.y],
            [c.x, c.y + c.h],
            [right, c.y + c.h],
            [right, c.y],
            [c.x, c.y],
          ],
      pen: { tone: 'ink', wide: 2 },
    },
  ];
  if (limits !== null) {
    if (limits.ceilingBar < limits.ratedBar - 1e-9) out.push(across(box, y(limits.ceilingBar), 'ceiling'));
    // Where it was, and that it came down: nobody goes by the old one from memory.
    if (state.loweredFromBar !== null)
      out.push(...lowered(box, y(state.loweredFromBar), y(limits.ceilingBar)));
    if (limits.workingBar !== null) out.push(across(box, y(limits.workingBar), 'working'));
    if (limits.floorBar !== null) out.push(across(box, y(limits.floorBar), 'floor'));
    if (limits.seatBar !== null) out.push(across(box, y(limits.seatBar), 'seat'));
    if (limits.floorBar !== null) {
      const strong = aim === 'band' && order === null;
      const wide = strong ? (small ? 4 : 6) : 2;
      out.push(bracket(box, y(limits.ceilingBar), y(limits.floorBar), strong ? 'ink' : 'edge', wide));
    }
    out.push(stop(box, y(limits.ratedBar)));
    // Through the stop: what is over rated has broken it.
    if ((state.trust === 'good' || isOpen) && (isOpen || (state.bar ?? 0) > limits.ratedBar)) {
      const rated = y(limits.ratedBar);
      const thick = MARK_STYLE.rated.ladder[small ? 1 : 0];
      const top = Math.max(rated - thick - 2, Math.min(rated - 3, y(isOpen ? endBar : (state.bar ?? 0))));
      out.push(...block(c.x + 1, top, c.w - 2, rated - top, 'urgent'));
    }
  }
  if (order !== null)
    // What the order asks for: from its aim down to what must not be left, or to the aim alone.
    out.push(
      bracket(box, y(order.toBar), y(order.notUnderBar ?? order.toBar - endBar * 0.01), 'ink', small ? 4 : 6),
    );
  if (state.ghost !== null && state.trust === 'good') {
    const hot: Tone = state.ghost.isUrgent ? 'urgent-thin' : 'ink';
    const at = y(state.ghost.value);
    const [x, e] = [right + 3, small ? 6 : 10];
    out.push(
      line(c.x - 3, at, right + 3, at, { tone: hot, wide: small ? 2.5 : 4, dash: small ? [5, 3] : [9, 5] }),
    );
    out.push({
      k: 'path',
      closed: true,
      points: [
        [x + e + (small ? 4 : 7), at - e],
        [x, at],
        [x + e + (small ? 4 : 7), at + e],
      ],
      fill: 'plate',
      pen: { tone: hot, wide: small ? 2 : 3 },
    });
  }
  if (state.second !== null) out.push(...secondMark(box, y(Math.min(state.second.bar, endBar))));
  out.push(...labelShapes(box, labelsOf(state, unit, words), measure));
  return out;
}

/** Trend and pointer: over all. */
export function ladderPointer(state: LadderState, box: LadderBox): Shape[] {
  const { column: c, small } = box;
  const y = pressureY(c, state.endBar);
  const right = c.x + c.w;
  const { bar, trust } = state;
  if (bar === null || trust === 'none') return [];
  const at = y(bar);
  if (trust === 'lost')
    return [
      line(c.x - 8, at, right + 8, at, { tone: 'plate', wide: small ? 5 : 9 }),
      line(c.x - 8, at, right + 8, at, { tone: 'ink', wide: small ? 2 : 4, dash: [5, 4] }),
    ];
  const out: Shape[] = [];
  const tone: Tone = trust === 'stale' ? 'ink3' : atCeiling(state) ? 'urgent' : 'ink';
  const rate = state.rateBarPerS;
  if (rate !== null && trust === 'good' && Math.abs(rate) > TREND_BAR_PER_S) {
    const to = y(bar + rate * TREND_S);
    const up = to < at ? -1 : 1;
    const tip = Math.min(c.y + c.h - 1, Math.max(c.y + 1, to));
    if (Math.abs(tip - at) > TREND_LEAST_PX) {
      const x = c.x + c.w / 2;
      const head = small ? 7 : 11;
      const shaft = small ? 1.75 : 3;
      // Upwards it stands on empty ground, downwards in the fill.
      const neck = tip - up * Math.min(head * 1.3, Math.abs(tip - at));
      out.push({
        k: 'path',
        closed: true,
        points: [
          [x, tip],
          [x + head, neck],
          [x + shaft, neck],
          [x + shaft, at],
          [x - shaft, at],
          [x - shaft, neck],
          [x - head, neck],
        ],
        fill: up < 0 ? tone : 'plate',
        pen: { tone: up < 0 ? 'plate' : tone, wide: small ? 1 : 1.5 },
      });
    }
  }
  const half = trust === 'over' ? 0 : small ? 2.5 : 4;
  const e = small ? 9 : 16;
  if (trust !== 'over')
    out.push({
      k: 'path',
      closed: true,
      points: [
        [c.x - (small ? 5 : 10), at - half],
        [right + 2, at - half],
        [right + e + (small ? 3 : 6), at - e],
        [right + e + (small ? 3 : 6), at + e],
        [right + 2, at + half],
        [c.x - (small ? 5 : 10), at + half],
      ],
      fill: tone,
      pen: { tone: 'plate', wide: small ? 2 : 3 },
    });
  return out;
}
