import type { ReadingMap } from '../job/reading-map.ts';
import type { Setup } from '../job/setup.ts';
import type { ChannelFrame, HelloFrame, SampleFrame } from '../link/frames.ts';
import { type BesideEntry, type FrameEntry, type LogEntry, type LogHead, TICK_US } from '../record/log.ts';
import type { Reading, TemperatureReading } from '../sensing/reading.ts';
import type { GapReason } from '../watch/codes.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { Command, Notice, WatchInput } from '../watch/inputs.ts';
import { createWatch, step, type WatchOptions, type WatchState } from '../watch/step.ts';
import { type BesideGreeted, besideSetup, takeBeside } from './beside.ts';
import {
  createIntake,
  explainGap,
  type Greeted,
  type Intake,
  takeChannel,
  takeDevice,
  takeHello,
  takeSample,
  takeSetup,
  takeStray,
} from './intake.ts';
import { commandWarm, commandZero } from './sensor-checks.ts';

/**
 * The one piece of code that judges a run: live in the worker, in replay, in tests and on the command line.
 * Everything it knows came in by stepRun(); the same entries in the same order give the same events. The state
 * is plain data, so that it can be snapshotted and taken up again.
 */
export interface Run extends Intake {
  readonly head: LogHead;
  readonly watch: WatchState;
  /** Grid number of the next tick. */
  nextTick: number;
  /** µs on the run clock of the newest entry or tick. */
  nowUs: number;
  readings: number;
  firstUs: number | null;
  lastUs: number | null;
}

export interface RunSink {
  event(event: WatchEvent): void;
  /** Each judged sample, before the watch saw it. @param gap samples are missing before it, by their numbers */
  reading?(reading: Reading, frame: SampleFrame, gap: boolean): void;
  /** What the second adapter converted anew, before the watch saw it. */
  beside?(tUs: number, temps: readonly TemperatureReading[]): void;
  /** A sample that is in the log and was not judged: a repeated one, another device's, or no sample of this one. */
  unjudged?(tUs: number, frame: SampleFrame, gap: boolean): void;
}

/** @param options `infer` reads the stages off the data, for traces without commands */
export function createRun(head: LogHead, options: WatchOptions = {}): Run {
  return {
    ...createIntake(),
    head,
    watch: createWatch(options),
    nextTick: 0,
    nowUs: 0,
    readings: 0,
    firstUs: null,
    lastUs: null,
  };
}

/** Gives the watch every tick of the grid up to and including tUs. Live this runs on a timer, else from stepRun. */
export function advanceRun(run: Run, tUs: number, sink: RunSink): void {
  for (let at = run.nextTick * TICK_US; at <= tUs; at += TICK_US) {
    run.nextTick++;
    run.nowUs = at;
    give(run, { i: 'tick', tUs: at }, sink);
  }
}

/**
 * Gaps that are entries of the log: the run lay, or the whole tablet slept. Nothing ran in them, so no tick was given:
 * hours of ticks at once would hold up the first reading behind them.
 */
const NOTHING_RAN: Readonly<Partial<Record<GapReason, true>>> = { resumed: true, clock: true };

/**
 * Takes one entry of the input log.
 * @throws RangeError when the entry's time lies before the one before it: the log is not one.
 */
export function stepRun(run: Run, entry: LogEntry, sink: RunSink): void {
  const { tUs } = entry;
  if (tUs < run.nowUs) throw new RangeError(`entry at ${tUs} µs after ${run.nowUs} µs`);
  if (entry.l === 'notice' && entry.notice.n === 'gap' && NOTHING_RAN[entry.notice.reason]) {
    run.nextTick = Math.max(run.nextTick, Math.floor(tUs / TICK_US) + 1);
  }
  advanceRun(run, tUs, sink);
  run.nowUs = tUs;
  switch (entry.l) {
    case 'frame':
      onFrame(run, entry, sink);
      return;
    case 'stray':
      if (takeStray(run, entry.reason)) notify(run, tUs, { n: 'stray', bytes: entry.bytes.length }, sink);
      return;
    case 'beside':
      onBeside(run, entry, sink);
      return;
    case 'beside-stray':
      return; // the link says so; nothing of the run hangs on it
    case 'state':
      return; // what the run had come to: nothing enters with it
    case 'setup':
      onSetup(run, entry.setup, tUs, sink);
      return;
    case 'command':
      onCommand(run, entry.command, tUs, sink);
      return;
    case 'notice':
      onNotice(run, entry.notice, tUs, sink);
      return;
    default:
      entry satisfies never;
  }
}

function give(run: Run, input: WatchInput, sink: RunSink): void {
  step(run.watch, input, sink.event);
}

function notify(run: Run, tUs: number, notice: Notice, sink: RunSink): void {
  give(run, { i: 'notice', tUs, notice }, sink);
}

/** Of the run's own device. */
function tellDevice(run: Run, tUs: number, what: Greeted, sink: RunSink): void {
  const { bootId, deviceId } = run.hello ?? { bootId: 0, deviceId: '' };
  notify(run, tUs, { n: 'device', what, bootId, deviceId }, sink);
}

function onCommand(run: Run, command: Command, tUs: number, sink: RunSink): void {
  if (command.c === 'zero') commandZero(run.sensing, run.watch, tUs, sink.event);
  else if (command.c === 'warm-check')
    commandWarm(run.sensing, run.watch, tUs, command.place, command.thermometerC, sink.event);
  else {
    if (command.c === 'take-device') takeDevice(run, command.deviceId);
    give(run, { i: 'command', tUs, command }, sink);
  }
}

function onNotice(run: Run, notice: Notice, tUs: number, sink: RunSink): void {
  explainGap(run, notice, tUs);
  notify(run, tUs, notice, sink);
}

function onSetup(run: Run, setup: Setup, tUs: number, sink: RunSink): void {
  let refused = false;
  step(run.watch, { i: 'setup', tUs, setup }, (event) => {
    if (event.e === 'setup-refused') refused = true;
    sink.event(event);
  });
  const what = takeSetup(run, setup, refused);
  if (what !== null) tellDevice(run, tUs, what, sink);
  if (!refused) tellBeside(run, tUs, besideSetup(run), sink);
}

function tellBeside(run: Run, tUs: number, what: BesideGreeted | null, sink: RunSink): void {
  if (what !== null) notify(run, tUs, { n: 'beside-device', what }, sink);
}

function onBeside(run: Run, entry: BesideEntry, sink: RunSink): void {
  const { told, temps } = takeBeside(run, entry);
  tellBeside(run, entry.tUs, told, sink);
  if (temps === null) return;
  sink.beside?.(entry.tUs, temps);
  give(run, { i: 'beside', tUs: entry.tUs, temps }, sink);
}

function onFrame(run: Run, { frame, map, tUs }: FrameEntry, sink: RunSink): void {
  switch (frame.t) {
    case 'S':
      onSample(run, frame, tUs, sink);
      return;
    case 'H':
      onHello(run, frame, map ?? null, tUs, sink);
      return;
    case 'C':
      onChannel(run, frame, tUs, sink);
      return;
    case 'E':
    case 'G':
      if (!run.foreign && !run.unmet) give(run, { i: 'device', tUs, frame }, sink);
      return;
    case 'R':
      return; // the link's own business
    default:
      frame satisfies never;
  }
}

function onHello(run: Run, frame: HelloFrame, map: ReadingMap | null, tUs: number, sink: RunSink): void {
  const what = takeHello(run, frame, map);
  const { bootId, deviceId } = frame;
  if (what !== null) notify(run, tUs, { n: 'device', what, bootId, deviceId }, sink);
}

function onChannel(run: Run, frame: ChannelFrame, tUs: number, sink: RunSink): void {
  const what = takeChannel(run, frame);
  if (what !== null) tellDevice(run, tUs, what, sink);
}

function onSample(run: Run, frame: SampleFrame, tUs: number, sink: RunSink): void {
  const taken = takeSample(run, frame, tUs);
  if (taken === null) {
    sink.unjudged?.(tUs, frame, false);
    return;
  }
  const { reading, restarted, gap, witness } = taken;
  if (restarted) tellDevice(run, tUs, 'reset', sink);
  if (gap !== null) notify(run, tUs, { n: 'gap', ...gap }, sink);
  if (witness !== null) notify(run, tUs, { n: 'witness', ...witness }, sink);
  if (reading === null) {
    sink.unjudged?.(tUs, frame, gap !== null);
    return;
  }
  run.readings++;
  run.firstUs ??= tUs;
  run.lastUs = tUs;
  sink.reading?.(reading, frame, gap !== null);
  give(run, { i: 'reading', tUs, reading }, sink);
}
