import type { DisplayUnits } from '../../words/format.ts';
import { LANES } from '../../words/lanes.ts';
import type { LadderBox } from './geometry.ts';
import { ladderFill, ladderGround, ladderMarks, ladderPointer } from './ladder.ts';
import type { Aim, Ghost, LadderState } from './ladder-state.ts';
import type { MarkedLimits } from './marks.ts';
import { createMeasure } from './measure.ts';
import { Shapes } from './Shapes.tsx';
import { scaleEnd } from './scale.ts';
import type { Shape } from './shape.ts';
import { MARK_NAMES, pressureUnitOf } from './units.ts';

const WORDS = {
  marks: MARK_NAMES,
  ghost: { settles: LANES.settles, 'left-open': LANES.leftOpen, warmth: LANES.liftsTo },
  last: LANES.last,
  atLeast: LANES.atLeast,
  letOutTo: LANES.letOutTo,
  leaveAtLeast: LANES.leaveAtLeast,
  lowered: LANES.lowered,
};

/** Under this width finer pens and smaller letters, px. */
const SMALL_PX = 240;

function boxOf(width: number, height: number): LadderBox {
  const small = width < SMALL_PX;
  const numerals = small ? 34 : 58;
  const column = { x: numerals, y: 14, w: Math.round(width * 0.3), h: height - 28 };
  const labelsX = column.x + column.w + (small ? 21 : 33);
  return {
    column,
    numeralsX: column.x - (small ? 9 : 17),
    numeralsW: column.x - (small ? 9 : 17),
    labelsX,
    labelsW: width - labelsX - 4,
    small,
  };
}

/** The ladder standing still: a plan's limits, or an example to learn from. */
export function LadderPicture(props: {
  limits: MarkedLimits;
  /** Filled up to here, bar; null: an empty ladder. */
  bar: number | null;
  ghost: Ghost | null;
  aim: Aim;
  width: number;
  height: number;
  units: DisplayUnits;
  label: string;
}) {
  const measure = createMeasure();
  const shapes = (): readonly Shape[] => {
    const { limits, bar, ghost, aim } = props;
    const box = boxOf(props.width, props.height);
    const unit = pressureUnitOf(props.units);
    const state: LadderState = {
      bar,
      trust: 'good',
      endBar: scaleEnd(limits.ratedBar, Math.max(bar ?? 0, ghost?.value ?? 0, limits.workingBar ?? 0)),
      limits,
      loweredFromBar: null,
      aim,
      ghost,
      order: null,
      rateBarPerS: null,
      second: null,
    };
    return [
      ...ladderGround(state, box, unit),
      ...ladderFill(state, box, unit),
      ...ladderMarks(state, box, unit, WORDS, measure()),
      ...(bar === null ? [] : ladderPointer(state, box)),
    ];
  };
  return (
    <Shapes
      width={props.width}
      height={props.height}
      shapes={shapes()}
      label={props.label}
      class="ladder-picture"
    />
  );
}
