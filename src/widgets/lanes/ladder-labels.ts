import type { LadderBox } from './geometry.ts';
import { type Label, labelPad, placeLabels, valueStep } from './labels.ts';
import type { Ghost, LadderState } from './ladder-state.ts';
import { MARK_STYLE, type Mark } from './marks.ts';
import type { PressureUnit } from './numerals.ts';
import { CAP, type Measure, type Shape, type Tone } from './shape.ts';

export interface LadderWords {
  readonly marks: Readonly<Record<Mark, string>>;
  readonly ghost: Readonly<Record<Ghost['by'], string>>;
  readonly last: string;
  /** Before the end of a sensor that reads no further. */
  readonly atLeast: string;
  /** In place of the ceiling's name where it was lowered. */
  lowered(from: string): string;
  readonly letOutTo: string;
  readonly leaveAtLeast: string;
}

/** The labels that a state has, each at its mark. */
export function labelsOf(state: LadderState, unit: PressureUnit, words: LadderWords): readonly Label[] {
  const { limits, endBar } = state;
  const y = (bar: number) => 1 - Math.min(1, Math.max(0, bar / endBar));
  const out: Label[] = [];
  if (limits !== null) {
    const mark = (key: Mark, bar: number | null, rank: number, more: Partial<Label> = {}) => {
      if (bar !== null)
        out.push({
          key,
          name: words.marks[key],
          value: unit.text(bar),
          y: y(bar),
          rank,
          isAim: state.order === null && state.aim === key,
          ...more,
        });
    };
    mark('rated', limits.ratedBar, 0, { isBold: true });
    if (limits.ceilingBar < limits.ratedBar - 1e-9)
      mark(
        'ceiling',
        limits.ceilingBar,
        1,
        state.loweredFromBar === null ? {} : { name: words.lowered(unit.text(state.loweredFromBar)) },
      );
    mark('working', limits.workingBar, state.aim === 'working' ? 2 : 5);
    mark('floor', limits.floorBar, state.aim === 'band' ? 3 : 6);
    mark('seat', limits.seatBar, state.aim === 'seat' ? 2 : 7);
  }
  const { order, ghost } = state;
  if (order !== null) {
    out.push({
      key: 'order',
      name: words.letOutTo,
      value: unit.text(order.toBar),
      y: y(order.toBar),
      rank: 0,
      isAim: true,
    });
    // Said once where both read the same.
    if (order.notUnderBar !== null && unit.text(order.notUnderBar) !== unit.text(order.toBar))
      out.push({
        key: 'leave-at-least',
        name: words.leaveAtLeast,
        value: unit.text(order.notUnderBar),
        y: y(order.notUnderBar),
        rank: 1,
        isBold: true,
      });
  }
  if (ghost !== null && state.trust === 'good')
    out.push({
      key: 'ghost',
      name: words.ghost[ghost.by],
      value: unit.text(ghost.value),
      y: y(ghost.value),
      rank: 1,
      isForecast: true,
      ...(ghost.isUrgent ? { tone: 'urgent-thin' as const } : {}),
    });
  if (state.second !== null)
    out.push({
      key: 'second',
      name: state.second.name,
      value: unit.text(state.second.bar),
      y: y(state.second.bar),
      rank: 4,
      isQuiet: true,
    });
  if (state.trust === 'over' && state.bar !== null)
    out.push({
      key: 'at-least',
      name: words.atLeast,
      value: unit.text(state.bar),
      y: y(state.bar),
      rank: 0,
      isBold: true,
      tone: 'urgent-thin',
    });
  if (state.trust === 'lost' && state.bar !== null)
    out.push({
      key: 'last',
      name: words.last,
      value: unit.text(state.bar),
      y: y(state.bar),
      rank: 1,
      isQuiet: true,
    });
  return out;
}

/** The labels as they are drawn, each led to its marks. */
export function labelShapes(box: LadderBox, labels: readonly Label[], measure: Measure): Shape[] {
  const { column: c, small, labelsX, labelsW } = box;
  const room = { top: c.y - (small ? 6 : 10), bottom: c.y + c.h + (small ? 3 : 6), width: labelsW, small };
  const inPx = labels.map((l) => ({ ...l, y: c.y + c.h * l.y }));
  const pad = labelPad(small);
  const out: Shape[] = [];
  const from = c.x + c.w + (small ? 11 : 17);
  for (const l of placeLabels(inPx, room, measure)) {
    const middle = l.top + l.height / 2;
    for (const y of l.marks) {
      const thick = l.key === 'rated' && y === l.marks[0] ? MARK_STYLE.rated.ladder[small ? 1 : 0] / 2 : 0;
      out.push({
        k: 'path',
        points: [
          [from, y - thick],
          [labelsX, middle],
        ],
        pen: { tone: 'edge', wide: 1 },
      });
    }
    const plate: Tone = l.isAim ? 'ink' : 'plate';
    const tone: Tone = l.isAim ? 'plate' : (l.tone ?? 'ink');
    out.push({
      k: 'rect',
      x: labelsX,
      y: l.top + 1,
      w: labelsW,
      h: l.height - 2,
      round: 4,
      fill: plate,
      pen: l.isForecast ? { tone: l.tone ?? 'ink', wide: small ? 1.5 : 2, dash: [5, 3] } : undefined,
    });
    const bold = l.isBold === true;
    const text = (x: number, y: number, words: string, size: number, isBold: boolean) =>
      out.push({ k: 'text', x, y, text: words, size, bold: isBold, tone });
    const x = labelsX + pad;
    if (l.oneLine) {
      const base = middle + l.valueSize * CAP * 0.5;
      text(x, base, l.names[0]!, l.nameSize, bold);
      text(x + measure(l.names[0]!, l.nameSize, bold) + l.nameSize * 0.4, base, l.value, l.valueSize, true);
      continue;
    }
    let base = l.top + (small ? 3 : 4) + l.nameSize * CAP;
    for (const name of l.names) {
      text(x, base, name, l.nameSize, bold);
      base += l.nameSize * 1.12;
    }
    text(x, base - l.nameSize * 1.12 + valueStep(l), l.value, l.valueSize, l.isQuiet !== true);
  }
  return out;
}
