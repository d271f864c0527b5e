import {
  createIntake,
  type Intake,
  takeChannel,
  takeHello,
  takeSample,
  takeSetup,
  takeStray,
} from '../engine/intake.ts';
import type { Setup } from '../job/setup.ts';
import {
  type ChannelFrame,
  type DeviceFrame,
  type HelloFrame,
  type ReplyResult,
  type SampleFrame,
  STATUS,
} from '../link/frames.ts';
import type { HeardLine } from '../link/line-log.ts';
import { countsAt } from '../sensing/counts.ts';
import type { Reading } from '../sensing/reading.ts';
import { type ZeroResult, zero } from '../sensing/zero.ts';
import { breakCourse, type Course, createCourse, restingBar, takeBlind, takePressure } from './course.ts';
import { createGuardTry, type GuardTry, takeGuard, takeGuardSample } from './guard-try.ts';
import { GUARD_BAR } from './limits.ts';
import { createSupplyTry, type SupplyTry, takeSupply } from './supply-try.ts';
import { breakTraffic, createTraffic, type Traffic, takeRefused, takeSampleTraffic } from './traffic.ts';
import { createWarmTry, holdProbe, takeTemperature, type WarmTry } from './warm-try.ts';

/** How a device's channels are read while no job says so. */
export type ScaleOf = (device: {
  readonly hello: HelloFrame;
  readonly channels: readonly ChannelFrame[];
}) => Setup;

/** Reading less reference, where the line rested. */
export interface Comparison {
  readonly referenceBar: number;
  /** null: the line moved, or nothing was read. */
  readonly bar: number | null;
  /** Expanded uncertainties (k = 2), bar. */
  readonly uBar: number;
  readonly uReferenceBar: number;
}

/**
 * A device on the bench: what came of it, whatever source of readings it is. It has an intake of its own, as a run has, so
 * that a zero or a check that is tried here is none of a run's.
 */
export interface Bench {
  readonly scaleOf: ScaleOf;
  readonly intake: Intake;
  readonly traffic: Traffic;
  readonly course: Course;
  readonly supplies: SupplyTry[];
  readonly warm: WarmTry[];
  guard: GuardTry | null;
  zero: ZeroResult | null;
  span: Comparison | null;
  reading: Reading | null;
  /** The channels by which the intake reads. */
  described: readonly ChannelFrame[];
  /** Lines between this one and the last were not looked at. */
  skipped: boolean;
}

export const createBench = (scaleOf: ScaleOf): Bench => ({
  scaleOf,
  intake: createIntake(),
  traffic: createTraffic(),
  course: createCourse(),
  supplies: [],
  warm: [],
  guard: null,
  zero: null,
  span: null,
  reading: null,
  described: [],
  skipped: false,
});

/** Lines came that nobody looked at: what is missing after them is not the device's fault. */
export function skipLines(b: Bench): void {
  b.skipped = true;
  breakTraffic(b.traffic);
  breakCourse(b.course);
}

export function takeLine(b: Bench, line: HeardLine): void {
  if ('stray' in line) {
    takeRefused(b.traffic, line.stray, line.bytes, takeStray(b.intake, line.stray));
    return;
  }
  b.traffic.frames++;
  takeFrame(b, line.frame, line.tUs);
}

function takeFrame(b: Bench, frame: DeviceFrame, tUs: number): void {
  switch (frame.t) {
    case 'H':
      if (takeHello(b.intake, frame, null) === 'reset') restarted(b);
      return;
    case 'C':
      takeChannel(b.intake, frame);
      describe(b);
      return;
    case 'S':
      onSample(b, frame, tUs);
      return;
    case 'G':
      if (b.guard !== null) takeGuard(b.guard, frame, b.reading?.bar ?? null);
      return;
    case 'E':
    case 'R':
      return;
    default:
      frame satisfies never;
  }
}

function restarted(b: Bench): void {
  b.traffic.restarts++;
  breakTraffic(b.traffic);
  breakCourse(b.course);
}

/** What the device said of itself before anybody looked. */
export function introduce(b: Bench, hello: HelloFrame, channels: readonly ChannelFrame[]): void {
  if (b.intake.hello !== null) return;
  takeHello(b.intake, hello, null);
  for (const channel of channels) takeChannel(b.intake, channel);
  describe(b);
}

/** Once a device has said all of its channels, or other ones. */
function describe(b: Bench): void {
  const { hello, channels, greeting } = b.intake;
  if (hello === null || greeting !== null || channels.length === 0 || channels === b.described) return;
  b.described = channels;
  const setup = b.scaleOf({ hello, channels });
  takeSetup(b.intake, setup, false);
  // A zero that does not fit its channels any more was made void there.
  if (b.intake.sensing.zero === null) b.zero = null;
  const at = (role: string) => setup.channels.filter((c) => c.role === role);
  b.supplies.splice(0, b.supplies.length, ...at('supply').map(createSupplyTry));
  b.warm.splice(0, b.warm.length, ...at('temperature').map((c) => createWarmTry(c.index)));
}

function onSample(b: Bench, frame: SampleFrame, tUs: number): void {
  const taken = takeSample(b.intake, frame, tUs);
  if (taken === null) return;
  if (taken.restarted) restarted(b);
  const lost = b.skipped || taken.restarted ? 0 : (taken.gap?.lost ?? 0);
  b.skipped = false;
  const { reading } = taken;
  if (reading === null) return;
  takeSampleTraffic(b.traffic, frame, tUs, lost);
  b.reading = reading;
  const { pressure } = b.intake.sensing;
  const count = pressure === null ? null : (frame.counts[pressure] ?? null);
  if (count !== null && reading.bar !== null) takePressure(b.course, reading.tS, reading.bar, count);
  else if (count !== null) takeBlind(b.course);
  for (const s of b.supplies) takeSupply(s, frame);
  for (const w of b.warm)
    takeTemperature(w, reading.tS, reading.temps.find((t) => t.channel === w.channel)?.c ?? null);
  if (b.guard !== null)
    takeGuardSample(b.guard, reading.tS, reading.bar, (frame.status & STATUS.tripped) !== 0);
}

/** The open line is zero from now on, here and nowhere else. */
export function tryZero(b: Bench): void {
  b.zero = zero(b.intake.sensing);
  if (b.zero.taken) breakCourse(b.course);
}

/** @param uReferenceBar expanded uncertainty (k = 2) of the reference */
export function compareSpan(b: Bench, referenceBar: number, uReferenceBar: number): void {
  const bar = restingBar(b.course);
  b.span = { referenceBar, bar, uBar: b.reading?.uBar ?? 0, uReferenceBar };
}

export function tryWarm(b: Bench, channel: number): void {
  const probe = b.warm.find((w) => w.channel === channel);
  if (probe !== undefined) holdProbe(probe);
}

/** The counts of the test's limit by the present scale and zero; null: there are none. */
export const guardLimit = (b: Bench): { readonly channel: number; readonly counts: number } | null =>
  countsAt(b.intake.sensing, GUARD_BAR);

/** The device was asked to guard by the test's limit, and answered so. */
export function tryGuard(b: Bench, result: ReplyResult | null, counts: number): void {
  b.guard = createGuardTry(result, GUARD_BAR, counts);
}

export function sayHeard(b: Bench, heard: boolean): void {
  if (b.guard !== null) b.guard.heard = heard;
}
