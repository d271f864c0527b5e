import type { AlarmCode, SupplyReason } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import type { WatchView } from '../../watch/view.ts';
import type { DisplayUnits } from '../../words/format.ts';
import { INSTRUCTIONS, type Instruction, type Told } from '../../words/orders.ts';
import { dueItems } from './checks-open.ts';
import { floorOf, leaksToFloorFirst, liftShown } from './forecasts.ts';
import { isUnread, readsLow, wasOverRated } from './next-stage.ts';
import { COUPLED_BAR, isLinePressed } from './pressed.ts';
import {
  atZero,
  cureMet,
  gaugeOf,
  inWorkingBand,
  isPressed,
  isStill,
  mixingWaits,
  overWorking,
  reboundOf,
  type Scene,
} from './scene.ts';
import { sampleDoubtOf, seenOf, witnessOf } from './stage-doubts.ts';

/** Which sentence stands in the order zone: what a hand is to do now, by stage and what is seen in it. */

type Says = typeof INSTRUCTIONS;

/** A sentence of a stage by its code, and the number that it names. */
export type Instructed = {
  readonly [S in keyof Says]: {
    readonly stage: S;
    readonly code: keyof Says[S] & string;
    readonly told?: Omit<Told, 'units'>;
  };
}[keyof Says];

/** So near the seat pressure the valve is to be shut, bar. */
const NEAR_SEAT_BAR = 0.02;
/** From half of the way on a hand belongs at the valve. */
const READY_SHARE = 0.5;

/** What stands before every order that lets air in; null: nothing speaks against it. */
const withoutAir = ({ airNotWanted }: WatchView): 'jumped' | 'find-loss' | null =>
  airNotWanted === null ? null : airNotWanted === 'reading-jump' ? 'jumped' : 'find-loss';

/** Why a fill does not go on: two pressures tell more of it than one. */
function standsFor({ second }: WatchView): 'stands' | 'blocked' | 'level' | 'escapes' {
  const path = second?.path ?? null;
  return path === 'blocked' || path === 'level' || path === 'escapes' ? path : 'stands';
}

/** What the proof of the supply asks for, by its phase. */
function proving(scene: Scene): Instructed | null {
  const { supply } = scene.view;
  if (supply === null || supply.phase === null || scene.step !== 'running') return null;
  const bar = supply.lockUpBar?.value ?? null;
  const say = (code: keyof Says['prepare'], told?: Told): Instructed => ({
    stage: 'prepare',
    code,
    ...(told && { told }),
  });
  if (supply.asked) return say('supply-asked');
  if (supply.verdict === 'over-ceiling' && supply.phase !== 'vent') return say('supply-lower', { bar });
  const s = supply.leftS === null ? null : Math.ceil(supply.leftS);
  switch (supply.phase) {
    case 'open':
      return say('supply-open');
    case 'rising':
      return say('supply-rises');
    case 'watching':
      return say('supply-watch', { bar, s: s === 0 ? null : s });
    case 'shut':
      return say('supply-shut', { bar });
    case 'tight':
      return say('supply-tight', { s });
    case 'vent':
      return say('supply-vent', { bar });
    default:
      return supply.phase satisfies never;
  }
}

/** Nobody has begun to prove the supply: it is asked for while there is time, before the resin is mixed. */
const isUnproved = ({ view, events }: Scene): boolean =>
  view.limits !== null &&
  view.mixedUs === null &&
  view.supply === null &&
  !events.some((e) => e.e === 'supply');

/** So long it stands in the order that a proof came to nothing, µs: afterwards under Checks alone. */
const FAILED_US = 60e6;
/** What ends a proof by the crew's own hand, or by going on, is no news to it. */
const OWN_END: readonly (SupplyReason | null)[] = ['stopped', 'stage', 'turned', null];

function hasJustFailed({ view, events }: Scene): boolean {
  if (view.supply !== null) return false;
  const last = events.findLast((e) => e.e === 'supply' && e.reason !== null);
  return last?.e === 'supply' && !OWN_END.includes(last.reason) && view.tUs - last.tUs < FAILED_US;
}

function prepare(scene: Scene): Instructed {
  const { step, view, setup, events } = scene;
  const say = (code: keyof Says['prepare'], told?: Told): Instructed => ({
    stage: 'prepare',
    code,
    ...(told && { told }),
  });
  // The tablet stopped in mid-run, and the air did not.
  if (scene.leftOpen) return say(step === 'connect' ? 'left-open' : 'left-open-seen');
  if (step === 'connect') return say(scene.leftFull ? 'left-full' : 'connect');
  const proof = proving(scene);
  if (proof !== null) return proof;
  // Whatever else is to be done: nobody couples a hose, and nothing is begun, on a line that is under pressure.
  if (isLinePressed(view)) return say('pressure');
  if (step === 'running' && hasJustFailed(scene)) return say('supply-failed');
  if (step === 'packer') {
    if (scene.leftFull) return say('left-full');
    if (scene.resumes) return say('resume');
    return say(view.limits === null ? 'packer' : 'packer-limited');
  }
  // A coupling is opened under no doubt of the reading.
  if (step === 'zero') return say((view.bar ?? 0) > COUPLED_BAR ? 'pressure' : 'zero');
  // Resin that is mixed does not wait for it.
  if (!scene.soundTested && view.mixedUs === null) return say('sound');
  if (dueItems(scene.checks, 'prepare', mixingWaits(scene)).some((i) => i.safety)) return say('checklist');
  const unproved = isUnproved(scene);
  if (view.mixedUs !== null || setup === null || setup.resin === null)
    return unproved ? say('ready-unproved') : say('ready', { s: view.potLifeLeftS });
  // One by one: two that are mistaken for each other agree with no thermometer then.
  const uncompared = view.temps.some(
    ({ place }) => place !== null && !events.some((e) => e.e === 'warm-check' && e.place === place),
  );
  if (uncompared) return say('warm');
  return say(unproved ? 'mix-unproved' : 'mix');
}

function seat(scene: Scene): Instructed {
  const { view, pauseLeftS } = scene;
  const say = (code: keyof Says['seat'], told?: Told): Instructed => ({
    stage: 'seat',
    code,
    ...(told && { told }),
  });
  const seatBar = view.limits?.seatBar ?? null;
  if (wasOverRated(view)) return say('was-over-rated', { bar: view.peakBar });
  const noAir = withoutAir(view);
  if (noAir !== null) return say(noAir);
  const gauge = gaugeOf(scene);
  if (gauge !== null) return say(gauge.agrees ? 'compared' : 'differs');
  if (pauseLeftS !== null)
    return pauseLeftS > 0 ? say('settle', { s: Math.ceil(pauseLeftS) }) : say('compare');
  const there = seatBar !== null && (view.bar ?? 0) >= seatBar - NEAR_SEAT_BAR;
  if (there) return say('shut');
  return view.fillStands ? say(standsFor(view)) : say('open', { bar: seatBar });
}

function inflate(scene: Scene): Instructed {
  const { view, cue } = scene;
  const say = (code: keyof Says['inflate'], told?: Told): Instructed => ({
    stage: 'inflate',
    code,
    ...(told && { told }),
  });
  const { limits, guard } = view;
  if (limits === null) return say('no-limit');
  if (wasOverRated(view)) return say('was-over-rated', { bar: view.peakBar });
  // More air by a number that is too low goes over the rating.
  if (view.airNotWanted === null && readsLow(view)) return say('reads-low', { bar: limits.workingBar });
  if (guard.tooFast !== null) return say('too-fast', { bar: guard.tooFast.lateBar });
  if (cue.leftS === 0) return say('shut-now');
  if (cue.leftS !== null) return say('count-down', { s: cue.leftS });
  if (overWorking(scene)) return say('over', { bar: limits.workingBar });
  const noAir = withoutAir(view);
  if (noAir !== null) return say(noAir);
  if (inWorkingBand(scene) && isStill(scene)) return say('in-band');
  if (cue.stopped === 'unsure') return say('uncounted');
  const rising = (guard.rateBarPerS ?? 0) > 0 && !isStill(scene);
  return rising && (view.bar ?? 0) > READY_SHARE * limits.workingBar
    ? say('ready')
    : view.fillStands
      ? say(standsFor(view))
      : say('open', { bar: limits.cue ? limits.workingBar : null });
}

/** Alarms of a hold that loses its pressure, the gravest first: acknowledged or put aside, they still want a hand at the valve. */
const LOSING = ['below-floor', 'band-exit', 'leaking'] as const satisfies readonly AlarmCode[];
type Losing = (typeof LOSING)[number];

/** One that was put aside says nothing of now: it is looked at. */
const STILL_SO: { readonly [A in Losing]: (view: WatchView) => boolean } = {
  'below-floor': (view) => {
    const floor = floorOf(view);
    return floor !== null && view.bar !== null && view.bar < floor;
  },
  'band-exit': ({ hold }) => hold?.bandExit?.direction === 'down',
  leaking: ({ hold }) => hold?.leak.verdict === 'leaking',
};

/** Which loss a hold has that somebody knows of; null: none. */
function lossKnown(view: WatchView): { readonly alarm: Losing; readonly values: AlarmValues } | null {
  for (const alarm of LOSING) {
    const known = view.alarms.find((a) => a.alarm === alarm);
    if (known?.state === 'acknowledged' || (known?.state === 'shelved' && STILL_SO[alarm](view)))
      return { alarm, values: known.values };
  }
  return null;
}

function hold(scene: Scene): Instructed {
  const { view, events } = scene;
  const say = (code: keyof Says['hold'], told?: Told): Instructed => ({
    stage: 'hold',
    code,
    ...(told && { told }),
  });
  if (wasOverRated(view)) return say('was-over-rated', { bar: view.peakBar });
  const noted = witnessOf(events, view.attempt);
  const met = cureMet(scene);
  const loss = lossKnown(view);
  const bar = view.limits?.workingBar ?? null;
  const noAir = withoutAir(view);
  if (noAir !== null) return say(noAir);
  if (view.ventOpen) return say('vent-open');
  if (loss !== null && readsLow(view)) return say('reads-low');
  if (loss !== null && overWorking(scene)) return say('leak-high', { bar });
  if (loss?.alarm === 'below-floor') return say('top-up', { bar });
  if (loss?.alarm === 'band-exit') return say('top-up-soon', { bar });
  // What is cured does not need to be held up to the floor any more.
  if (loss?.alarm === 'leaking' && !met) {
    if (floorOf(view) === null) return say('top-up-unknown', { bar });
    return leaksToFloorFirst(view) === false ? say('leak-slow') : say('top-up-soon', { bar });
  }
  const unjudged = view.standing.includes('cure-not-judged');
  if (noted?.hard === false) return say('soft');
  if (noted?.hard === true && noted.atPipeTemperature && view.cure !== null && !unjudged)
    return say(met ? 'hard' : sampleDoubtOf(events, view.attempt) === null ? 'early' : 'doubted');
  if (noted?.hard === true && !noted.atPipeTemperature && met) return say('warm');
  if (unjudged) return say('cure-not-judged');
  if (met) return say('met');
  if (readsLow(view)) return say('reads-low');
  if (isUnread(view)) return say('unread');
  const lift = view.hold === null ? null : liftShown(view.hold);
  return lift === null ? say('keep') : say('lift', { bar: lift.peakBar.value });
}

function letDown(scene: Scene): Instructed {
  const { view, trust } = scene;
  const say = (code: keyof Says['let-down'], told?: Told): Instructed => ({
    stage: 'let-down',
    code,
    ...(told && { told }),
  });
  if (trust === 'lost' || trust === 'none') return say('lost');
  if (view.rebound !== null)
    return say('wait', {
      s: Math.ceil(Math.max(0, view.rebound.needS - (view.tUs - view.rebound.sinceUs) / 1e6)),
    });
  const last = reboundOf(scene);
  if (last?.what === 'came-back') return say('back');
  if (!atZero(scene)) return say('open');
  // A sensor that reads too low shows zero while there is air.
  if (readsLow(view)) return say('reads-low');
  if (last?.what === 'stayed') return say('stayed', { s: last.seconds });
  return say(last?.what === 'broken-off' ? 'broken' : 'shut');
}

function done(scene: Scene): Instructed {
  const { view, events } = scene;
  const say = (code: keyof Says['done'], told?: Told): Instructed => ({
    stage: 'done',
    code,
    ...(told && { told }),
  });
  if (isPressed(scene)) return say('pressure');
  if (view.standing.includes('no-hold-by-tap')) return say('unseen');
  if (readsLow(view)) return say('reads-low');
  if (!seenOf(events, view.attempt).reboundStayed) return say('untested');
  return wasOverRated(view)
    ? say('was-over-rated', { bar: view.peakBar })
    : say('stayed', { s: reboundOf(scene)?.seconds ?? null });
}

function abandoned(scene: Scene): Instructed {
  if (isPressed(scene)) return { stage: 'abandoned', code: 'pressure' };
  if (readsLow(scene.view)) return { stage: 'abandoned', code: 'reads-low' };
  return seenOf(scene.events, scene.view.attempt).reboundStayed
    ? { stage: 'abandoned', code: 'stayed', told: { s: reboundOf(scene)?.seconds ?? null } }
    : { stage: 'abandoned', code: 'zero' };
}

const VERDICT_SAYS = { passed: 'passed', failed: 'failed', 'cannot-say': 'unsaid' } as const;

function airTest({ view }: Scene): Instructed {
  const say = (code: keyof Says['air-test'], bar?: number): Instructed => ({
    stage: 'air-test',
    code,
    ...(bar === undefined ? {} : { told: { bar } }),
  });
  const test = view.airTest;
  if (test === null) return say('none');
  const { spec, band, verdict, reason } = test;
  const bar = view.bar ?? 0;
  switch (test.phase) {
    case 'fill':
      return say('fill', spec.initialBar);
    case 'stabilise':
      return bar < spec.startBar ? say('top-up', spec.initialBar) : say('stabilise');
    case 'adjust':
      return bar < band.low ? say('bring-up', spec.startBar) : say('let-out', spec.startBar);
    case 'settle':
    case 'timing':
      return say(test.phase);
    case 'vent':
      return say('vent');
    case 'idle':
      if (reason === 'sensor-too-coarse') return say('coarse');
      if (reason === 'over-plugs') return say('plugs');
      if (reason === 'no-plan') return say('none');
      if (verdict !== null) return say(VERDICT_SAYS[verdict]);
      return say(test.attempt > 0 ? 'broken' : 'begin');
    default:
      return test.phase satisfies never;
  }
}

export function instructionOf(scene: Scene): Instructed {
  if (scene.step !== 'running') return prepare(scene);
  const { stage } = scene.view;
  switch (stage) {
    case 'prepare':
      return prepare(scene);
    case 'seat':
      return seat(scene);
    case 'inflate':
      return inflate(scene);
    case 'hold':
      return hold(scene);
    case 'let-down':
      return letDown(scene);
    case 'done':
      return done(scene);
    case 'air-test':
      return airTest(scene);
    case 'abandoned':
      return abandoned(scene);
    default:
      return stage satisfies never;
  }
}

/** The sentences themselves. */
export function sayInstruction({ stage, code, told }: Instructed, units: DisplayUnits): Instruction {
  const says = INSTRUCTIONS[stage] as Readonly<Record<string, (told?: Told) => Instruction>>;
  return says[code]!({ ...told, units });
}
