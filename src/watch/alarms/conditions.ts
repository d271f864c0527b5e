import type { Setup } from '../../job/setup.ts';
import { STATUS } from '../../link/frames.ts';
import { FLAG } from '../../sensing/reading.ts';
import type { AlarmCode, Priority } from '../codes.ts';
import { isDead } from '../cure/cup-judge.ts';
import { gravestFault, isBlind } from '../device-faults.ts';
import { airComesIn } from '../guard/inflow.ts';
import { tapSeesPacker } from '../hold/hold.ts';
import { isSecondLost, isSecondSeen } from '../pair/second.ts';
import { LATE_S } from '../signal/late.ts';
import { levelAgo, levelNow } from '../signal/levels.ts';
import { lostPlace } from '../signal/probes.ts';
import { creepsUp, risenBy } from '../signal/seep.ts';
import { isOver, STRAY_RUN_US } from '../signal/signal.ts';
import { fastFallCondition, isOpen } from '../stages/fastfall.ts';
import { lossInFill, lossInHold } from '../stages/loss.ts';
import { refilledOver } from '../stages/rebound.ts';
import { isFilling, isOver as workIsOver } from '../stages/stages.ts';
import type { WatchState } from '../state.ts';
import {
  heldBeside,
  isOverByGauge,
  lossOf,
  potLifeLeftS,
  risingOf,
  sensorWarmth,
  slowReadings,
  wasHeldBeside,
} from '../state.ts';
import { isAnnounced } from '../supply/proof.ts';
import { either, under, when } from './bounds.ts';
import { ceiling, highest, overRated, overTest, testMostBar } from './limit-conditions.ts';
import type { Condition } from './machine.ts';
import {
  apartBy,
  breaksThrough,
  movedAtOutlet,
  movedFromProof,
  supplyOver,
  supplyOverBy,
} from './supply-conditions.ts';
import { ALARM_TABLE, rowOf } from './table.ts';

/**
 * The conditions: what is true of the world now, blind to stages (but for what only a hold can know), to
 * suppression, shelving and acknowledgement. Where there is no reading to judge by, they stay as they are.
 */

/** A band exit nearer than this is told of, s; nearer than the second it presses. */
const EXIT_S = 1800;
const EXIT_PRESSING_S = 300;
/** The rise that is seen reaches the ceiling within this, s; where the cure's forecast ends under it, within the second. */
const LIFT_S = 540;
const LIFT_EASES_S = 390;
/** Pot life: a quarter of it is left, at most ten minutes. */
const POT_SHARE = 0.25;
const POT_MOST_S = 600;
/** More stray bytes in a run than one broken line can give. */
const GARBAGE_BYTES = 128;
/** Sudden events stay on for this, µs. */
const SUDDEN_US = 1e6;
/** The device's limit is kept in whole mbar. */
const DEVICE_SLACK_BAR = 0.002;

/** A packer of which nobody has seen that it was empty, and into which air comes, holds air, bar (common practice, no source). */
const FILLS_BAR = 0.1;
/** A rise that no warmth and no hose makes: hands that are on the packer have seconds, bar/s (common practice, no source). */
const FAST_BAR_S = 0.01;
/** A packer grips the wall from its seat pressure or its floor on; where neither is known, at this share of rated, or at so much, bar. */
const GRIPS_SHARE = 0.2;
const GRIPS_BAR = 0.3;

/** Those of the table's rows. */
const DEADBAND = {
  belowFloor: rowOf('below-floor').deadband,
  cold: rowOf('cold').deadband,
} as const;

function fastFall(w: WatchState): Condition {
  // Behind a check valve or before the last valve a fall is the supply's own.
  if (!tapSeesPacker(w.setup)) return 'off';
  const { median } = w.signal;
  if (w.hold !== null) {
    const fast = fastFallCondition(w.levels, median, w.infer, (w.tUs - w.hold.sinceUs) / 1e6);
    return w.infer ? fast : either(fast, lossInHold(w.loss, w.levels));
  }
  if (w.infer || !isFilling(w.stages.stage)) return 'off';
  const lost = lossInFill(w.loss, w.levels, w.setup?.tap === 'packer');
  return lost === 'off' && isOpen(w.fastFall, median) ? 'between' : lost;
}

/** Air comes in: by its slope, by a level that creeps, or by one that has come far, whatever the way. */
function fills(w: WatchState, bar: number): boolean {
  return airComesIn(w.guard) || creepsUp(w.seep) || (risenBy(w.seep, bar) ?? 0) >= GRIPS_BAR;
}

/** Whoever gives an attempt up has so long to let the packer down, s; then it falls by so much, bar or a share of it, within these seconds (common practice, no source). */
const ABANDONED_S = 60;
const LETS_OUT_BAR = 0.02;
const LETS_OUT_SHARE = 0.1;
const LETS_OUT_S = 10;

/** Said to be done while the line is under pressure; or given up, and nobody lets it down. Before the last valve the pressure is the supply's own. */
function leftFull(w: WatchState): boolean {
  const { stage, sinceUs } = w.stages;
  if (w.infer || (w.setup?.tap === 'supply' && heldBeside(w) < FILLS_BAR)) return false;
  if (stage === 'done') return true;
  const [before, now] = [levelAgo(w.levels, LETS_OUT_S), levelNow(w.levels)];
  if (stage !== 'abandoned' || before === null || now === null) return false;
  return (
    w.tUs - sinceUs >= ABANDONED_S * 1e6 && before - now < Math.min(LETS_OUT_BAR, LETS_OUT_SHARE * before)
  );
}

/** What the line reads, or what a cross-check shows that the packer holds behind it, bar; null: nothing is known. */
function lineOrPacker(w: WatchState): number | null {
  const { median } = w.signal;
  const held = heldBeside(w);
  return median === null && held === 0 ? null : Math.max(median ?? 0, held);
}

/**
 * Came back in the test of the vent; or a line that was empty holds air again while the vent is said shut or the work over,
 * whatever its speed; or the work is said to be over, and a packer that nobody saw empty is left full or air comes into it:
 * hands may be on it. No test need be running, which a moment without readings breaks off.
 */
function rebound(w: WatchState): Condition {
  if (w.rebound.cameBack || w.rebound.refilled) return 'on';
  const bar = lineOrPacker(w);
  if (!workIsOver(w.stages.stage)) return 'off';
  if (bar === null) return 'between';
  if (bar >= FILLS_BAR && (leftFull(w) || fills(w, bar))) return 'on';
  // A cross-check that is gone takes nothing back.
  return bar >= FILLS_BAR / 2 || wasHeldBeside(w) ? 'between' : 'off';
}

/**
 * Air comes in before the work, and no stage has announced it: a supply valve that leaks or stands open, while hands are on
 * the packer. Before the last valve the line's pressure is the supply's own.
 */
function unannounced(w: WatchState): Condition {
  const bar = w.signal.median;
  if (w.infer || w.setup?.tap === 'supply' || isAnnounced(w.supply.proof, w.tUs)) return 'off';
  if (bar === null) return 'between';
  if (bar >= FILLS_BAR && fills(w, bar)) return 'on';
  return bar >= FILLS_BAR / 2 ? 'between' : 'off';
}

/** The hold floor in force, bar; null: not known. */
function floorOf(w: WatchState): number | null {
  return w.hold?.floor?.bar ?? w.setup?.limits?.floorBar ?? null;
}

function belowFloor(w: WatchState): Condition {
  const floor = floorOf(w);
  if (w.hold === null || floor === null || !tapSeesPacker(w.setup)) return 'off';
  if (w.signal.median === null || lossOf(w) !== null) return 'between';
  return under(w.signal.median, floor, DEADBAND.belowFloor);
}

function leaking(w: WatchState): Condition {
  if (w.hold === null) return 'off';
  const { verdict, mbarPerMin } = w.hold.figure;
  // A new segment that has no figure yet neither raises nor clears.
  return verdict === 'leaking' ? 'on' : verdict === 'cannot-tell' && mbarPerMin === null ? 'between' : 'off';
}

function lift(w: WatchState): Condition {
  const limits = w.setup?.limits ?? null;
  if (w.hold === null || limits === null) return 'off';
  const { exit, eases } = w.hold;
  // A sheet alone raises nothing: what it foretells is shown with its advice, and may not come at all.
  if (exit === null || exit.direction === 'down') return 'off';
  const within = eases ? LIFT_EASES_S : LIFT_S;
  return exit.inS.value < within ? 'on' : exit.inS.value < 2 * LIFT_S ? 'between' : 'off';
}

function deviceUnarmed(w: WatchState): Condition {
  const limits = w.setup?.limits ?? null;
  const { guard } = w.device;
  if (limits === null || guard === null) return 'off';
  if (guard.state === 'unarmed' || guard.limitMbar === null) return 'on';
  return when(guard.limitMbar / 1000 > limits.ceilingBar + DEVICE_SLACK_BAR);
}

function deviceReset(w: WatchState): Condition {
  const { resetUs, lastUsableUs } = w.signal;
  if (resetUs === null) return 'off';
  return when(w.tUs - resetUs < SUDDEN_US || lastUsableUs === null || lastUsableUs < resetUs);
}

/** The supply that the pressure is measured against is named and gives no value: the reading may be off by a tenth. */
function supplyUnread(setup: Setup | null, flags: number): boolean {
  if (setup === null || (flags & FLAG.noSupply) === 0) return false;
  const partner = setup.channels.find((c) => c.role === 'pressure')?.partner;
  return setup.channels.some((c) => c.index === partner && c.role === 'supply');
}

function rareReadings(w: WatchState): Condition {
  const slow = slowReadings(w);
  return slow === 'between' ? slow : when(slow !== null);
}

function lateReadings({ signal: { late } }: WatchState): Condition {
  return late.lateS >= LATE_S ? 'on' : late.lateS >= LATE_S / 2 ? 'between' : 'off';
}

function potLife(w: WatchState): Condition {
  const { stage } = w.stages;
  if (stage !== 'prepare' && stage !== 'seat') return 'off';
  const left = potLifeLeftS(w, w.tUs);
  if (left === null) return 'off';
  return when(left <= Math.min(POT_MOST_S, POT_SHARE * (w.setup?.resin?.potLifeMin ?? 0) * 60));
}

function cold(w: WatchState): Condition {
  if (w.cure === null || w.cure.ended || w.cure.underLowestK === null) return 'off';
  return under(w.cure.underLowestK, 0, DEADBAND.cold);
}

/** A probe that hangs in the air, or is swapped with the sleeve's, is asked about by the same alarm: nobody knows which it is. */
function batchSlow({ cup }: WatchState): Condition {
  if (cup === null) return 'off';
  const { verdict, doubt } = cup.said;
  return when(verdict === 'slow' || verdict === 'no-reaction' || doubt === 'cooler-than-sleeve');
}

const CONDITIONS: { readonly [A in AlarmCode]: (w: WatchState) => Condition } = {
  'over-range': ({ signal: s }) => (isOver(s) ? 'on' : s.overFrames > 0 ? 'between' : 'off'),
  'over-rated': overRated,
  'over-test': overTest,
  ceiling,
  rising: (w) => when(risingOf(w) !== null),
  'supply-over': supplyOver,
  'supply-moved': (w) => either(movedFromProof(w), movedAtOutlet(w)),
  'pressure-lost': (w) => when(lossOf(w) !== null),
  // Each sample says it too: its event or guard line may be the one that was spoilt.
  'device-trip': (w) => when(w.device.tripped || (w.signal.status & STATUS.tripped) !== 0),
  'fast-fall': fastFall,
  'below-floor': belowFloor,
  leaking,
  'band-exit': (w) => {
    const exit = w.hold?.exit ?? null;
    return when(exit !== null && exit.direction === 'down' && exit.inS.value < EXIT_S);
  },
  lift,
  'device-unarmed': deviceUnarmed,
  'device-deaf': (w) => when(w.device.deaf),
  'device-fault': (w) => when(gravestFault(w.device, w.tUs) !== null),
  'device-reset': deviceReset,
  'supply-low': ({ signal: s, setup }) =>
    when(
      (s.status & STATUS.supplyLow) !== 0 || (s.flags & FLAG.supply) !== 0 || supplyUnread(setup, s.flags),
    ),
  'slow-readings': (w) => either(rareReadings(w), lateReadings(w)),
  stuck: (w) => when((w.signal.flags & FLAG.stuck) !== 0),
  'reading-jump': (w) => when(w.jump.standingBar !== null),
  'line-contradicted': (w) => when(w.hold?.contradicted ?? false),
  'sensors-differ': ({ pair, tUs }) => when(pair.doubts.found !== null && !isSecondLost(pair.signal, tUs)),
  'second-lost': ({ pair, tUs }) => when(pair.signal.role !== null && !isSecondSeen(pair.signal, tUs)),
  'gauge-differs': ({ sensorChecks: { gauge } }) => when(gauge !== null && !gauge.agrees),
  rebound: (w) => (w.stages.stage === 'prepare' ? unannounced(w) : rebound(w)),
  'temperature-lost': (w) => when(lostPlace(w.probes, w.setup, w.signal.firstUs, w.tUs) !== null),
  cold,
  'pot-life': potLife,
  'batch-slow': batchSlow,
  'store-fault': (w) => when(!w.store.ok),
  'clock-jump': (w) => when(w.unseen.sleptUs !== null && w.tUs - w.unseen.sleptUs < SUDDEN_US),
  garbage: ({ signal: s, tUs }) =>
    when(s.strayUs !== null && s.strayRun > GARBAGE_BYTES && tUs - s.strayUs < STRAY_RUN_US),
};

/** In the order of ALARM_TABLE: asked by row at every reading. */
export const CONDITION_ROWS: readonly ((w: WatchState) => Condition)[] = ALARM_TABLE.map(
  ({ alarm }) => CONDITIONS[alarm],
);

export const conditionOf = (w: WatchState, alarm: AlarmCode): Condition => CONDITIONS[alarm](w);

/** It fills fast after the work is said to be over, or is hard enough to grip the wall: hands may be on it. */
function refillPresses(w: WatchState): boolean {
  const bar = lineOrPacker(w);
  const limits = w.setup?.limits ?? null;
  const grips = [limits?.seatBar, limits?.floorBar].filter((g) => g !== null && g !== undefined);
  const least =
    limits === null
      ? GRIPS_BAR
      : Math.min(...grips, ...(grips.length > 0 ? [] : [GRIPS_SHARE * limits.ratedBar]));
  if (bar !== null && bar >= least) return true;
  return workIsOver(w.stages.stage) && airComesIn(w.guard) && (w.guard.motion?.rate ?? 0) >= FAST_BAR_S;
}

/** How fast what an alarm tells goes on, mbar/min, and how fast at the least (95 %); null: no such rate is known. */
export function rateOf(w: WatchState, alarm: AlarmCode): { value: number; least: number } | null {
  if (alarm !== 'leaking' || w.hold === null) return null;
  const { mbarPerMin, low } = w.hold.figure;
  return mbarPerMin === null || low === null ? null : { value: mbarPerMin, least: low };
}

/** Alarms that say of the sensor that it may read too low. */
const OF_SENSOR: Readonly<Partial<Record<AlarmCode, true>>> = { 'gauge-differs': true, 'reading-jump': true };

/** Half as long again as usual at the least, or nothing at all. */
const GRAVE = 1.5;
const isGrave = ({ cup, setup }: WatchState): boolean =>
  cup !== null &&
  ((cup.said.verdict === 'no-reaction' && isDead(cup.age, setup?.resin?.cup?.mark ?? null)) ||
    (cup.said.verdict === 'slow' && (cup.said.times?.value ?? cup.said.times?.least ?? 0) > GRAVE));

/** The table's priority, or a higher one where it presses. */
export function priorityOf(w: WatchState, alarm: AlarmCode): Priority {
  if (OF_SENSOR[alarm] && isOverByGauge(w)) return 'urgent';
  // While a hand fills by it, a number that stands still, or is too low, says 'more air' all the way to the rated pressure.
  if ((alarm === 'stuck' || alarm === 'reading-jump') && isFilling(w.stages.stage)) return 'urgent';
  // A hand that fills by a number that is too low, or by one that comes late, goes too far.
  if ((alarm === 'slow-readings' || alarm === 'supply-low') && isFilling(w.stages.stage)) return 'high';
  // Proved, nobody has to turn it any more; that its outlet stood where it was wanted is a lesser promise.
  if (alarm === 'supply-moved' && isFilling(w.stages.stage) && movedFromProof(w) === 'on') return 'urgent';
  // What was under the ceiling and is over it while air is let in does not stop there.
  if (alarm === 'supply-over' && breaksThrough(w)) return 'urgent';
  if (alarm === 'rebound' && refillPresses(w)) return 'urgent';
  if (alarm === 'band-exit' && (w.hold?.exit?.inS.value ?? EXIT_S) < EXIT_PRESSING_S) return 'high';
  if (alarm === 'device-fault' && isBlind(gravestFault(w.device, w.tUs))) return 'high';
  if (alarm === 'pot-life' && (potLifeLeftS(w, w.tUs) ?? 1) <= 0) return 'high';
  if (alarm === 'batch-slow' && isGrave(w)) return 'high';
  return rowOf(alarm).priority;
}

/** What an alarm goes by, where that is not the guard's own pressure alone. */
const LEVEL: Readonly<Partial<Record<AlarmCode, (w: WatchState) => number | null>>> = {
  'over-rated': highest,
  ceiling: highest,
  rebound: lineOrPacker,
};

/** How far the quantity of an alarm is past its limit, as a share of the limit, or in bar where its row's steps are; null: it has none, or no reading. */
export function excessOf(w: WatchState, alarm: AlarmCode): number | null {
  const limits = w.setup?.limits ?? null;
  if (alarm === 'supply-over') return supplyOverBy(w);
  if (alarm === 'sensors-differ') return apartBy(w);
  const level = LEVEL[alarm];
  const bar = level === undefined ? w.signal.median : level(w);
  if (bar === null) return null;
  if (alarm === 'rebound') return bar - (refilledOver(w.rebound, sensorWarmth(w)) ?? FILLS_BAR);
  if (alarm === 'leaking') return w.infer ? null : w.loss.topBar - bar;
  if (alarm === 'below-floor') {
    const floor = floorOf(w);
    return floor === null ? null : floor - bar;
  }
  if (alarm === 'over-test') return bar / testMostBar(w) - 1;
  if (limits === null) return null;
  if (alarm === 'over-rated') return bar / limits.ratedBar - 1;
  if (alarm === 'ceiling') return bar / limits.ceilingBar - 1;
  return null;
}
