import { warmthBarPerK } from '../job/sensor-warmth.ts';
import type { Reaction, Setup } from '../job/setup.ts';
import type { GuardFrame } from '../link/frames.ts';
import { createAirTest } from './airtest/airtest.ts';
import type { AirTest, AirTestContext } from './airtest/types.ts';
import type { AlarmSlot } from './alarms/machine.ts';
import { createAlarms } from './alarms/machine.ts';
import { ALARM_TABLE } from './alarms/table.ts';
import type { LossCause } from './codes.ts';
import { ALARMS, ENGINE } from './codes.ts';
import type { BeforeSeat } from './cure/before-seat.ts';
import type { Cup } from './cure/cup.ts';
import type { CureState } from './cure/cure.ts';
import type { GuardContext, GuardState, GuardVerdict } from './guard/guard.ts';
import { createGuard } from './guard/guard.ts';
import { airComesIn } from './guard/inflow.ts';
import type { HoldState } from './hold/hold.ts';
import { createPair, levelBeside, type Pair, seesMore, surelyHolds } from './pair/pair.ts';
import type { SensorChecks } from './sensor-checks/sensor-checks.ts';
import { createSensorChecks } from './sensor-checks/sensor-checks.ts';
import { type BesideSignal, createBesideSignal } from './signal/beside.ts';
import { fallen } from './signal/cadence.ts';
import { createJump, type Jump } from './signal/jump.ts';
import type { Levels } from './signal/levels.ts';
import { createLevels } from './signal/levels.ts';
import { lossCause } from './signal/loss.ts';
import type { DoubtContext } from './signal/probe-doubt.ts';
import { type Probe, probeFresh } from './signal/probes.ts';
import { type RecentStats, recentStats } from './signal/recent.ts';
import { createSeep, type Seep } from './signal/seep.ts';
import type { Signal } from './signal/signal.ts';
import { createSignal } from './signal/signal.ts';
import type { FastFall } from './stages/fastfall.ts';
import { createFastFall } from './stages/fastfall.ts';
import type { Inference } from './stages/infer.ts';
import { createInference } from './stages/infer.ts';
import type { Loss } from './stages/loss.ts';
import { createLoss, fallsInHold } from './stages/loss.ts';
import type { Rebound } from './stages/rebound.ts';
import { createRebound } from './stages/rebound.ts';
import type { StageState } from './stages/stages.ts';
import { createStages, isFilling, isUp } from './stages/stages.ts';
import { createStand, type Stand } from './stages/stand.ts';
import { isHoseRise } from './supply/proof.ts';
import { createSupply, isHoseAlone, type Supply } from './supply/supply.ts';
import type { Unseen } from './unseen.ts';
import { createUnseen } from './unseen.ts';

/** What the device said of its own guard. */
export interface DeviceState {
  guard: GuardFrame | null;
  tripped: boolean;
  /** It takes no command. */
  deaf: boolean;
  /** When its button was pressed of late, µs, oldest first. */
  presses: number[];
  /** Faults it has told of that may still be, the newest of each number. */
  faults: { readonly number: number; readonly atUs: number }[];
}

/** When a cue was last on and whether it was told in this fill. */
export interface CueState {
  lastUs: number | null;
  told: boolean;
}

/** The whole memory of the watch: plain data, so that a snapshot of it resumes a run. */
export interface WatchState {
  readonly engine: number;
  /** Stages are read off the data (a trace without commands). */
  readonly infer: boolean;
  /** Run clock, µs; never descends. */
  tUs: number;
  ended: boolean;
  setup: Setup | null;
  signal: Signal;
  probes: Probe[];
  beside: BesideSignal;
  levels: Levels;
  jump: Jump;
  seep: Seep;
  guard: GuardState;
  verdict: GuardVerdict | null;
  cue: CueState;
  tooFast: CueState;
  /** Attempt whose knee was told. */
  kneeAttempt: number;
  alarms: AlarmSlot[];
  stages: StageState;
  inference: Inference;
  fastFall: FastFall;
  loss: Loss;
  stand: Stand;
  rebound: Rebound;
  ventOpen: boolean;
  hold: HoldState | null;
  cure: CureState | null;
  sensorChecks: SensorChecks;
  supply: Supply;
  airTest: AirTest;
  pair: Pair;
  device: DeviceState;
  store: { ok: boolean; code: string };
  mixedUs: number | null;
  /** From the last mixing on, until the sleeve is seated. */
  beforeSeat: BeforeSeat | null;
  /** The witness cup of the batch that was mixed last; null: none was. */
  cup: Cup | null;
  /** Time since mixing that passed beside the run clock, s. */
  unseenS: number;
  unseen: Unseen;
}

export interface WatchOptions {
  /** Read stages off the data: for traces without commands. */
  readonly infer?: boolean;
}

export function createWatch(options: WatchOptions = {}): WatchState {
  return {
    engine: ENGINE,
    infer: options.infer ?? false,
    tUs: 0,
    ended: false,
    setup: null,
    signal: createSignal(),
    probes: [],
    beside: createBesideSignal(),
    levels: createLevels(),
    jump: createJump(),
    seep: createSeep(),
    guard: createGuard(),
    verdict: null,
    cue: { lastUs: null, told: false },
    tooFast: { lastUs: null, told: false },
    kneeAttempt: 0,
    alarms: createAlarms(ALARM_TABLE),
    stages: createStages(),
    inference: createInference(),
    fastFall: createFastFall(),
    loss: createLoss(),
    stand: createStand(),
    rebound: createRebound(),
    ventOpen: false,
    hold: null,
    cure: null,
    sensorChecks: createSensorChecks(),
    supply: createSupply(),
    airTest: createAirTest(),
    pair: createPair(null),
    device: { guard: null, tripped: false, deaf: false, presses: [], faults: [] },
    store: { ok: true, code: '' },
    mixedUs: null,
    beforeSeat: null,
    cup: null,
    unseenS: 0,
    unseen: createUnseen(),
  };
}

/** Alarms that ask for a top-up. */
const TOP_UPS = (['below-floor', 'leaking', 'band-exit'] as const).map((alarm) => ALARMS.indexOf(alarm));

function isTopUpActive(alarms: readonly AlarmSlot[]): boolean {
  for (const i of TOP_UPS) if (alarms[i]!.active) return true;
  return false;
}

/** Default reaction times (job/setup.ts): used until a Setup is there. */
const REACTION: Reaction = { handS: 3, closeS: 0.6 };

/** Why nobody is to put air in, whatever the pressure says: the reading is doubted, or what was lost is no small leak; null: neither. */
export function airNotWanted(w: WatchState): 'reading-jump' | 'fast-fall' | null {
  if (w.jump.standingBar !== null) return 'reading-jump';
  const lost = w.fastFall.lossBar !== null || (w.hold !== null && fallsInHold(w.loss, w.levels) === 'on');
  return lost ? 'fast-fall' : null;
}

/** By how much the sensor is known to read too low, bar: its reading jumped down, or the dial gauge showed more. 0: not so far as is known. */
export function readsLowBy(w: WatchState): number {
  const { gauge } = w.sensorChecks;
  const shown = gauge === null || gauge.agrees ? 0 : gauge.gaugeBar - gauge.readingBar;
  return Math.max(0, shown, -(w.jump.standingBar ?? 0));
}

/** By what the sensor is known to read too low the packer is at its ceiling or over it, though no number shows it. */
export function isOverByGauge(w: WatchState): boolean {
  const bar = w.signal.median ?? w.signal.bar;
  const by = readsLowBy(w);
  return by > 0 && bar !== null && w.setup?.limits != null && bar + by >= w.setup.limits.ceilingBar;
}

export function guardContext(w: WatchState): GuardContext {
  const { setup } = w;
  return {
    limits: setup?.limits ?? null,
    tap: setup?.tap ?? 'unknown',
    line: setup?.line ?? 'unknown',
    reaction: setup?.reaction ?? REACTION,
    stage: w.stages.stage,
    ventOpen: w.ventOpen,
    holdS: w.hold === null || w.infer ? null : (w.tUs - w.hold.sinceUs) / 1e6,
    doubtful: w.jump.standingBar !== null || readsLowBy(w) > 0,
    hoseRise: isHoseRise(w.supply.proof),
    topUpAsked: isTopUpActive(w.alarms) && airNotWanted(w) === null,
  };
}

/** Statistics of the last second, or of the last three readings where they come slowly; null: none. */
export const lastSecond = (w: WatchState, recent = w.signal.recent): RecentStats | null =>
  recentStats(recent, w.tUs, w.tUs - 5e6 * w.signal.period.periodS);

/** What a kelvin of the pressure sensor's own warmth moves it by, bar. */
export function sensorWarmth(w: WatchState): number {
  return warmthBarPerK(w.setup?.channels.find((c) => c.role === 'pressure'));
}

/** A packer that holds more than this is not empty, bar (common practice, no source). */
const SEEN_HELD_BAR = 0.05;

/** Why there is no usable pressure now, or null. */
export function lossOf(w: WatchState): LossCause | null {
  return lossCause(
    w.signal,
    {
      stage: w.stages.stage,
      stageSinceUs: w.stages.sinceUs,
      atRest: w.hold?.segment.open ?? false,
      airComesIn: airComesIn(w.guard),
      emptyDoubted: w.rebound.cameBack || w.rebound.refilled || readsLowBy(w) > 0 || wasHeldBeside(w),
    },
    w.tUs,
  );
}

/** Air may go from the supply to the packer: a hand fills, or in a hold the line is not said to be shut off. */
function mayFlow({ stages: { stage }, setup }: WatchState): boolean {
  return isFilling(stage) || (stage === 'hold' && setup?.line !== 'closed');
}

/** The second pressure where it counts for the ceiling beside the first, or in its place, bar; null: it does not. */
export const besideNow = (w: WatchState): number | null =>
  w.pair.signal.role === null ? null : levelBeside(w.pair, lossOf(w) !== null, mayFlow(w), w.tUs);

/** What the packer surely holds by a cross-check at it, whatever the line reads, bar. */
export const heldBeside = (w: WatchState): number => surelyHolds(w.pair, w.tUs);

/** So it did when that was read last, and no test of the vent has stayed at zero since. */
export const wasHeldBeside = (w: WatchState): boolean =>
  w.pair.heldBar > SEEN_HELD_BAR && w.rebound.stayedUs === null;

/** What the line reads is a hose's behind a closed end, and no cross-check shows a packer that holds air. */
export const readsHoseAlone = (w: WatchState): boolean =>
  isHoseAlone(w.supply) && heldBeside(w) <= SEEN_HELD_BAR;

/**
 * What will not stop by itself or by a hand: as the guard has it, or where its pressure is lost, or a cross-check at the packer is over
 * it, as that of the second has.
 */
export function risingOf(w: WatchState): GuardVerdict['rising'] {
  const own = w.verdict?.rising ?? null;
  const { median, lastTS } = w.signal;
  if (own !== null || w.pair.verdict === null) return own;
  if (lossOf(w) === null && !seesMore(w.pair, median ?? 0, lastTS ?? 0)) return own;
  return besideNow(w) === null ? null : w.pair.verdict.rising;
}

/** Rate that is asked of a device before a Setup names one, Hz. */
const USUAL_RATE_HZ = 50;

/** Spacing of the readings now and before where they come far rarer, s; 'between' where that cannot be said. */
export const slowReadings = (w: WatchState): ReturnType<typeof fallen> =>
  fallen(w.signal.cadence, 1 / (w.setup?.rateHz ?? USUAL_RATE_HZ));

/** What an air test is told of the run: the air between the plugs is read by the probe of the air. */
export function airTestContext(w: WatchState): AirTestContext {
  const probe = w.probes.find((p) => p.place === 'air');
  const airC = probe !== undefined && probeFresh(probe, w.tUs) ? probe.c : null;
  return { tUs: w.tUs, setup: w.setup, airC };
}

/** What a temperature is held against. */
export const doubtContext = (w: WatchState): DoubtContext => ({
  isUp: isUp(w.stages.stage),
  ground: w.setup?.ground ?? null,
});

/** Seconds of pot life left; null: not mixed or not given. */
export function potLifeLeftS(w: WatchState, tUs: number): number | null {
  const minutes = w.setup?.resin?.potLifeMin ?? null;
  if (minutes === null || w.mixedUs === null) return null;
  return minutes * 60 - (tUs - w.mixedUs) / 1e6 - w.unseenS;
}
