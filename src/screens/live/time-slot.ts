import type { AlarmCode } from '../../watch/codes.ts';
import type { AlarmView } from '../../watch/view.ts';
import { FACE } from '../../words/face.ts';
import {
  clockTime,
  type DisplayUnits,
  duration,
  pressure,
  pressureNumber,
  temperature,
  testPressure,
  testPressureNumber,
} from '../../words/format.ts';
import { leakText } from '../../words/hold.ts';
import { TIME_NOW, TIME_SLOT, VERBS } from '../../words/orders.ts';
import { alarmStage } from './alarm-stage.ts';
import { STEADY_S } from './cue-count.ts';
import { faceOf } from './pressure-slot.ts';
import { cureMet, isStill, reboundOf, type Scene } from './scene.ts';
import { SEAT_PAUSE_S } from './seat-pause.ts';
import { seenOf } from './stage-doubts.ts';

/** What the second slot counts: the time that matters now, named, and what stands under it. */

/** A number and its small unit; a word has none. */
export type Part = readonly [value: string, unit: string];

export interface TimeSlot {
  readonly code: keyof typeof TIME_SLOT;
  readonly label: string;
  /** What is read from three metres; null: nothing is counted. */
  readonly big: readonly Part[] | null;
  /** A count by seconds: as many rungs as it has seconds, going out from the end. */
  readonly rungs: { readonly left: number; readonly of: number } | null;
  readonly sub: string;
  readonly facts: readonly string[];
  /** Words in the place of a time: a black block, or a red one where `alarmed`. */
  readonly block: readonly string[] | null;
  readonly alarmed: boolean;
}

/** The tablet's clock at the moment, UTC ms; null: simulated time runs at another pace than clocks. */
export interface Clock {
  readonly nowMs: number | null;
}

const two = (n: number) => String(n).padStart(2, '0');

/** A time to come or gone, rounded down: never later than it is. Minutes alone where seconds do not matter. */
export function timeParts(seconds: number, fine = true): readonly Part[] {
  const s = Math.max(0, Math.floor(seconds + 1e-6));
  if (s < 60) return [[String(s), 's']];
  const min = Math.floor(s / 60);
  if (min < 60)
    return fine && min < 10
      ? [
          [String(min), 'min'],
          [two(s % 60), 's'],
        ]
      : [[String(min), 'min']];
  return [
    [String(Math.floor(min / 60)), 'h'],
    [two(min % 60), 'min'],
  ];
}

const inWords = (parts: readonly Part[]): string =>
  parts.map(([value, unit]) => `${value}\u00a0${unit}`).join('\u00a0');

/** A time in words, to the minute: where seconds would only draw the eye. */
export const coarse = (seconds: number): string => inWords(timeParts(seconds, false));

const MINUTE_S = 60;
/** A packer of which the line falls to a fiftieth counts as vented, time constants. */
const EMPTY_TAUS = Math.log(50);
/** Slower than this no end of the venting can be told, bar/s. */
const VENTS_BAR_S = 0.001;

const slot = (code: TimeSlot['code'], more: Partial<TimeSlot> = {}): TimeSlot => ({
  code,
  label: TIME_SLOT[code],
  big: null,
  rungs: null,
  sub: '',
  facts: [],
  block: null,
  alarmed: false,
  ...more,
});

/** The way to a limit; what is nearer than a second is no number of seconds: it is there now, and named so. */
const nearing = (
  code: 'ceiling-in' | 'rated-in' | 'floor-in',
  seconds: number,
  more: Partial<TimeSlot> = {},
): TimeSlot =>
  seconds < 1
    ? slot(code, { ...more, label: TIME_NOW[code], big: [[FACE.now, '']], rungs: null })
    : slot(code, { ...more, big: timeParts(seconds) });

/** What is still to come is never said to be nothing, s. */
const atLeastASecond = (seconds: number): number => Math.max(1, seconds);

const sinceS = (scene: Scene, tUs: number) => (scene.view.tUs - tUs) / 1e6;

const isPressing = ({ priority, state }: AlarmView): boolean =>
  priority !== 'low' && (state === 'unacknowledged' || state === 'acknowledged');

function active(scene: Scene, ...codes: readonly AlarmCode[]): AlarmView | undefined {
  return scene.view.alarms.find(
    (a) => codes.includes(a.alarm) && (a.state === 'unacknowledged' || a.state === 'acknowledged'),
  );
}

/** The dangers, the nearest first: what they count comes before the stage's own time. */
function danger(scene: Scene, units: DisplayUnits, clock: Clock): TimeSlot | null {
  const { view } = scene;
  const face = faceOf(scene);
  if (face === 'lost') {
    const lost = active(scene, 'pressure-lost');
    const ageS = view.ageS ?? lost?.values.seconds ?? (lost === undefined ? 0 : sinceS(scene, lost.begunUs));
    const last = lost?.values.bar ?? view.bar;
    return slot('no-reading', {
      big: timeParts(ageS),
      sub:
        last === null || last === undefined
          ? ''
          : clock.nowMs === null
            ? FACE.lastValue(pressure(last, units))
            : FACE.lastValueAt(pressure(last, units), clockTime(clock.nowMs - 1000 * ageS)),
    });
  }
  if (face === 'over-range' || face === 'over-rated') {
    const over = active(scene, 'over-rated', 'over-range');
    // The peak is of the packer: under what the line has now there is none on the hose.
    const peakBar = (view.peakBar ?? 0) < (view.bar ?? 0) ? null : view.peakBar;
    const peak = peakBar === null ? '' : FACE.peak(pressure(peakBar, units));
    // Who else has to act is said as large as the order itself; the count stands over it.
    return slot('over-rated', {
      label: FACE.overFor(inWords(timeParts(over === undefined ? 0 : sinceS(scene, over.begunUs)))),
      block: FACE.everyoneClear,
      alarmed: true,
      sub: face === 'over-range' ? FACE.trueUnknown : peak,
    });
  }
  if (face === 'ceiling') return overCeiling(scene);
  const rising = active(scene, 'rising');
  if (rising !== undefined) {
    const inS = view.guard.ceilingInS?.value ?? rising.values.inS ?? null;
    const settles = view.guard.settleBar?.value ?? rising.values.settleBar;
    // Beside the order where it is the alarm's reason.
    const sub =
      settles === undefined || rising.values.kind === 'settle'
        ? ''
        : FACE.ifLeftOpen(pressure(settles, units));
    if (inS !== null) {
      const left = Math.floor(inS);
      return nearing('ceiling-in', inS, {
        rungs: left <= STEADY_S ? { left, of: left } : null,
        sub,
      });
    }
  }
  const trip = active(scene, 'device-trip');
  if (trip !== undefined) return slot('tripped', { big: timeParts(sinceS(scene, trip.begunUs)) });
  const fall = active(scene, 'fast-fall');
  if (fall !== undefined) return slot('falling', { big: timeParts(sinceS(scene, fall.begunUs)) });
  const down = view.hold?.bandExit ?? null;
  if (active(scene, 'below-floor', 'leaking', 'band-exit') !== undefined && down?.direction === 'down')
    return nearing('floor-in', down.inS.low);
  return null;
}

function overCeiling(scene: Scene): TimeSlot {
  const { bar, limits, guard } = scene.view;
  const rate = guard.rateBarPerS ?? 0;
  const since = active(scene, 'ceiling');
  if (rate > 0 && !isStill(scene) && bar !== null && limits !== null) {
    const left = (limits.ratedBar - bar) / rate;
    if (left < MINUTE_S) {
      const whole = Math.floor(left);
      return nearing('rated-in', left, {
        rungs: whole <= STEADY_S ? { left: whole, of: whole } : null,
        sub: FACE.stillRising,
      });
    }
  }
  return slot('over-ceiling', {
    big: timeParts(since === undefined ? 0 : sinceS(scene, since.begunUs)),
    sub: rate > 0 && !isStill(scene) ? FACE.stillRising : FACE.notRising,
  });
}

function stageFor(scene: Scene): TimeSlot {
  return slot('stage', { big: timeParts(sinceS(scene, scene.view.stageSinceUs)) });
}

function potLife(scene: Scene): TimeSlot | null {
  const { potLifeLeftS, mixedUs } = scene.view;
  if (potLifeLeftS === null) return null;
  const isOver = potLifeLeftS <= 0;
  return slot('pot-life', {
    ...(isOver ? { label: FACE.potLifeOver } : {}),
    big: isOver ? null : timeParts(atLeastASecond(potLifeLeftS)),
    sub: mixedUs === null ? '' : FACE.mixedAgo(coarse(sinceS(scene, mixedUs))),
  });
}

/** How long the proof of the supply watches on; null: none runs, or a hand ends its phase. */
function proof({ view }: Scene): TimeSlot | null {
  const left = Math.ceil(view.supply?.leftS ?? 0);
  return left > 0 ? slot('supply', { big: timeParts(left) }) : null;
}

/** The order zone wants the valve shut now: no count beside it says when that is to come. */
function isShutOrdered({ view }: Scene): boolean {
  const { block } = alarmStage(view.alarms, view.question);
  return block !== null && VERBS[block.alarm](block, view).shutsAir;
}

function fill(scene: Scene): TimeSlot {
  const { cue, pauseLeftS, view } = scene;
  if (view.stage === 'seat') {
    if (pauseLeftS === null || pauseLeftS <= 0) return potLife(scene) ?? stageFor(scene);
    const left = Math.ceil(pauseLeftS);
    return slot('settle', { big: timeParts(left), rungs: { left, of: SEAT_PAUSE_S }, sub: FACE.thenGauge });
  }
  if (isShutOrdered(scene)) return potLife(scene) ?? stageFor(scene);
  if (cue.leftS !== null)
    return slot('cue', {
      // What is to be ready for is over: read alone, the slot says what the order beside it says.
      label: cue.leftS === 0 ? FACE.cueNow : TIME_SLOT.cue,
      big: cue.leftS === 0 ? [[FACE.now, '']] : timeParts(cue.leftS),
      rungs: cue.leftS <= STEADY_S ? { left: cue.leftS, of: Math.max(1, cue.ofS) } : null,
      sub: cue.leftS === 0 ? FACE.cueThen : FACE.cueMeans,
    });
  if (cue.stopped !== null) return slot('cue-stopped', { sub: FACE.cueStopped[cue.stopped] });
  return potLife(scene) ?? stageFor(scene);
}

function holding(scene: Scene, units: DisplayUnits, clock: Clock): TimeSlot {
  const { view } = scene;
  const { cure, hold } = view;
  const facts =
    hold === null
      ? []
      : [FACE.inBand(coarse(60 * hold.minutesInBand)), FACE.leak(leakText(hold.leak, units))];
  const heldS = sinceS(scene, view.stageSinceUs);
  if (cure === null || view.standing.includes('cure-not-judged'))
    return slot('held', { big: timeParts(heldS), facts });
  if (cureMet(scene)) {
    const agoS =
      cure.metAtS === null ? null : Math.max(0, (view.tUs - (view.firstUs ?? 0)) / 1e6 - cure.metAtS);
    const sub =
      agoS === null
        ? ''
        : clock.nowMs === null
          ? FACE.metAgo(coarse(agoS))
          : FACE.metAt(clockTime(clock.nowMs - 1000 * agoS), coarse(agoS));
    // Nobody is sent to the sample while an alarm wants a hand elsewhere, nor once it was felt to be hard.
    const isAsked = !view.alarms.some(isPressing) && !seenOf(scene.events, view.attempt).witnessHard;
    return isAsked
      ? slot('cure-reached', { block: FACE.checkSample, sub, facts })
      : slot('held', { big: timeParts(heldS), sub: FACE.reached(sub), facts });
  }
  const cold = active(scene, 'cold');
  if (cold !== undefined)
    return slot('cure-still', {
      sub: cold.values.c === undefined ? '' : FACE.coldest(temperature(cold.values.c, units)),
      facts: [FACE.held(coarse(heldS)), ...facts],
    });
  const m = cure.metInS;
  if (m === null) return slot('cure-unknown', { sub: FACE.held(coarse(heldS)), facts });
  // To the late end: what counts down must not end before the cure time can.
  return slot('cure-left', {
    big: timeParts(atLeastASecond(m.high), false),
    sub:
      clock.nowMs === null
        ? FACE.metIn(duration(m.low), duration(m.high))
        : FACE.metBetween(clockTime(clock.nowMs + 1000 * m.low), clockTime(clock.nowMs + 1000 * m.high)),
    facts,
  });
}

function venting(scene: Scene, units: DisplayUnits): TimeSlot {
  const { view } = scene;
  if (view.rebound !== null) {
    const { sinceUs, needS } = view.rebound;
    const gone = Math.min(needS, Math.floor(sinceS(scene, sinceUs)));
    return slot('vent', {
      big: timeParts(gone),
      // Going out like every other count: what is left of the test.
      rungs: { left: needS - gone, of: needS },
      sub: FACE.ofSeconds(duration(needS)),
    });
  }
  const last = reboundOf(scene);
  if (last?.what === 'came-back') {
    const bar = active(scene, 'rebound')?.values.bar ?? last.bar ?? 0;
    const say = bar > (view.uBar ?? 0) ? FACE.cameBack : FACE.rose;
    return slot('vent-failed', {
      big: timeParts(last.seconds),
      sub: say(pressureNumber(bar, units), pressure(view.uBar, units)),
    });
  }
  if (last?.what === 'stayed')
    return slot('vent-stayed', { big: timeParts(last.seconds), sub: FACE.notEmpty });
  const { bar, guard } = view;
  const rate = guard.rateBarPerS ?? 0;
  if (view.stage === 'let-down' && bar !== null && rate < -VENTS_BAR_S)
    return slot('empties-in', {
      big: timeParts(atLeastASecond((EMPTY_TAUS * bar) / -rate), false),
      sub: FACE.thenTest,
    });
  return stageFor(scene);
}

/** What is left of the phase that counts by itself; then what came of the test, with the figures that it goes by. */
function airTest(scene: Scene, units: DisplayUnits): TimeSlot {
  const test = scene.view.airTest;
  if (test === null) return stageFor(scene);
  const { phase, leftS, verdict, dropBar, uBar, spec } = test;
  const allowed = testPressure(spec.dropBar, units);
  const drop =
    dropBar === null || uBar === null
      ? FACE.airAllowed(allowed)
      : FACE.airDrop(testPressureNumber(dropBar, units), testPressureNumber(uBar, units), allowed);
  if (verdict !== null && (phase === 'vent' || phase === 'idle'))
    return slot('air-verdict', { block: FACE.airVerdict[verdict], sub: drop });
  if (leftS === null) return stageFor(scene);
  const big = timeParts(Math.ceil(leftS));
  if (phase === 'stabilise') return slot('air-stabilise', { big });
  return phase === 'settle'
    ? slot('air-settle', { big, sub: FACE.airAllowed(allowed) })
    : slot('air-timing', { big, sub: drop });
}

export function timeSlot(scene: Scene, units: DisplayUnits, clock: Clock): TimeSlot {
  const first = danger(scene, units, clock);
  if (first !== null) return first;
  if (scene.step === 'connect' || scene.step === 'packer')
    return slot('stage', {
      label: scene.leftOpen ? FACE.runLeftOpen : scene.leftFull ? FACE.mayBeFull : FACE.noRun,
    });
  switch (scene.view.stage) {
    case 'prepare':
      return proof(scene) ?? potLife(scene) ?? stageFor(scene);
    case 'seat':
    case 'inflate':
      return fill(scene);
    case 'hold':
      return holding(scene, units, clock);
    case 'air-test':
      return airTest(scene, units);
    case 'let-down':
    case 'done':
    case 'abandoned':
      return venting(scene, units);
    default:
      return scene.view.stage satisfies never;
  }
}
