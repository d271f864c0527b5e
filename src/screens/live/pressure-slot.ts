import { FACE } from '../../words/face.ts';
import {
  type DisplayUnits,
  duration,
  NO_VALUE,
  pressure,
  pressureNumber,
  pressureSlope,
  testPressureNumber,
  testPressureUnit,
} from '../../words/format.ts';
import { PRESSURE_SLOT } from '../../words/orders.ts';
import { isPressed, type Scene, STILL_BAR_S } from './scene.ts';

/** How the pressure is shown: its digits, and what says how they are to be read. */

/**
 * `calm`: as it is; `ceiling`, `over-rated`, `over-range`: red; `stale`, `lost`, `none`: no number to go by; `empty`: a line
 * at zero after the work, which says nothing of the packer.
 */
export type PressureFace =
  | 'calm'
  | 'ceiling'
  | 'over-rated'
  | 'over-range'
  | 'stale'
  | 'lost'
  | 'none'
  | 'empty';

export interface PressureSlot {
  readonly face: PressureFace;
  readonly label: string;
  readonly digits: string;
  /** In large letters under the digits; null: nothing to be said so. */
  readonly tag: string | null;
  readonly note: string;
  /** Of the digits. */
  readonly unit: string;
}

/** Where the slope is of use: a hand is at a valve. At rest it is noise. */
const SLOPED = {
  prepare: false,
  seat: true,
  inflate: true,
  hold: false,
  'let-down': true,
  done: false,
  'air-test': true,
  abandoned: true,
};

/** Over a limit on the reading itself, whatever the alarms say. */
export function faceOf(scene: Scene): PressureFace {
  const { trust, view } = scene;
  if (trust === 'none' || trust === 'lost') return trust;
  if (trust === 'over') return 'over-range';
  const { bar, limits } = view;
  if (bar !== null && limits !== null) {
    if (bar > limits.ratedBar) return 'over-rated';
    if (bar >= limits.ceilingBar) return 'ceiling';
  }
  if (trust === 'stale') return 'stale';
  const after = view.stage === 'done' || view.stage === 'abandoned';
  return after && scene.step === 'running' && !isPressed(scene) ? 'empty' : 'calm';
}

/** Over rated by what reads as more than nothing, bar. */
const SEEN_BAR = 0.005;

function tagOf(face: PressureFace, { view }: Scene, units: DisplayUnits): string | null {
  switch (face) {
    case 'ceiling':
    case 'over-range':
      return PRESSURE_SLOT[face];
    case 'over-rated': {
      const over = (view.bar ?? 0) - (view.limits?.ratedBar ?? 0);
      return over < SEEN_BAR ? FACE.atRated : FACE.overRated(pressureNumber(over, units));
    }
    case 'empty':
      return FACE.mayHoldAir;
    default:
      return null;
  }
}

function noteOf(face: PressureFace, { view }: Scene, units: DisplayUnits): string {
  switch (face) {
    case 'over-range':
      return FACE.spanEnds(pressure(view.overBar, units));
    case 'stale':
      return view.ageS === null ? PRESSURE_SLOT.stale : FACE.oldFor(duration(view.ageS));
    case 'lost':
    case 'none':
    case 'empty':
      return '';
    default: {
      const { rateBarPerS: rate, restBar } = view.guard;
      if (!SLOPED[view.stage]) return '';
      if (rate === null || Math.abs(rate) < STILL_BAR_S) return FACE.steady;
      const slope = pressureSlope(Math.abs(rate), units);
      if (rate < 0) return FACE.falling(slope);
      return restBar === null
        ? FACE.rising(slope)
        : FACE.risingAtRest(slope, pressureNumber(restBar.value, units));
    }
  }
}

export function pressureSlot(scene: Scene, units: DisplayUnits): PressureSlot {
  const { view } = scene;
  const face = faceOf(scene);
  // The whole of an air test is a tenth of a bar or less.
  const isTest = scene.step === 'running' && view.stage === 'air-test';
  const number = isTest ? testPressureNumber : pressureNumber;
  // A lost reading is dashes in the large digits; its last number is said in small words, beside the time.
  const digits =
    face === 'lost' || face === 'none'
      ? `${NO_VALUE} ${NO_VALUE}`
      : face === 'over-range'
        ? `>${number(view.overBar, units)}`
        : number(view.bar, units);
  const label =
    face === 'lost' || face === 'none'
      ? FACE.lineLost
      : face === 'stale'
        ? FACE.lineOld
        : view.uBar === null || face === 'over-range'
          ? PRESSURE_SLOT.line
          : FACE.lineU(number(view.uBar, units));
  return {
    face,
    label,
    digits,
    tag: tagOf(face, scene, units),
    note: noteOf(face, scene, units),
    unit: isTest ? testPressureUnit(units) : units.pressure,
  };
}
