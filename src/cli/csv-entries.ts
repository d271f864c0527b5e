import type { ChannelSetup } from '../job/setup.ts';
import type { ChannelFrame, DeviceFrame, HelloFrame } from '../link/frames.ts';
import type { LogEntry } from '../record/log.ts';
import { suggestChannels } from '../sensing/suggest.ts';
import { type CsvTrace, pressureStep } from './csv.ts';

/** The trace as a device would have sent it: the engine knows no other way in. */
export interface CsvFeed {
  /** Made as they are read, once: twelve hours at 50 Hz are two million rows. */
  readonly entries: Iterable<LogEntry>;
  readonly channels: readonly ChannelSetup[];
  readonly rateHz: number;
}

/** The pretended sensor's span begins under any gauge pressure, so that nothing of the file is out of range. */
const LOW_BAR = -1.1;
const LEAST_TOP_BAR = 10;
const DEVICE_ID = 'csv';
/** Standard uncertainty of a temperature of which the file says nothing, K (common practice: class 2 and input). */
const U_C = 0.75;

const micro = (s: number): number => Math.round(s * 1e6);

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 1;
}

/** Rows per second, by the middle interval of the first ten thousand. */
export function rateOf(s: Float64Array): number {
  const steps: number[] = [];
  for (let i = 1; i < Math.min(s.length, 10_000); i++) steps.push(s[i]! - s[i - 1]!);
  return steps.length === 0 ? 1 : Math.min(1000, Math.max(0.01, 1 / median(steps)));
}

/**
 * Pressure counts are the printed value in whole printed steps; the converter's bits are chosen so that one step
 * of it is the step seen in the data. The span is a round one, not the trace's own peak.
 */
export function csvFeed(trace: CsvTrace, uBar: number): CsvFeed {
  const unit = trace.printedBar;
  const stepCounts = Math.max(1, Math.round(pressureStep(trace) / unit));
  let top = LEAST_TOP_BAR;
  for (const v of trace.bar) if (v > top && v < Number.POSITIVE_INFINITY) top = v;
  const bits = Math.min(32, Math.max(8, Math.ceil(Math.log2((top * 1.1 - LOW_BAR) / (stepCounts * unit)))));
  const rawLo = Math.round(LOW_BAR / unit);
  const rawHi = rawLo + stepCounts * 2 ** bits;
  const pa = (raw: number): number => Math.round(raw * unit * 1e5);
  const frames: ChannelFrame[] = [
    {
      t: 'C',
      index: 0,
      quantity: 'press',
      place: null,
      signal: 'digital',
      partner: null,
      bits,
      rawLo,
      rawHi,
      elLo: pa(rawLo),
      elHi: pa(rawHi),
      rangeLo: pa(rawLo),
      rangeHi: pa(rawHi),
      rateMilliHz: 1000,
    },
    ...trace.temps.map(
      ({ place }, i): ChannelFrame => ({
        t: 'C',
        index: i + 1,
        quantity: 'temp',
        place,
        signal: 'digital',
        partner: null,
        bits: 20,
        rawLo: -100_000,
        rawHi: 400_000,
        elLo: -100_000,
        elHi: 400_000,
        rangeLo: -100_000,
        rangeHi: 400_000,
        rateMilliHz: 1000,
      }),
    ),
  ];
  const hello: HelloFrame = {
    t: 'H',
    version: 1,
    deviceId: DEVICE_ID,
    firmware: 'csv',
    bootId: 0,
    uptime: 0,
    channels: frames.length,
    maxRateHz: 1000,
  };
  const channels = suggestChannels(frames).map((c) => ({
    ...c,
    uSensor: c.role === 'pressure' ? uBar / 2 : U_C,
  }));
  return { entries: rows(trace, unit, [hello, ...frames]), channels, rateHz: rateOf(trace.s) };
}

function* rows(trace: CsvTrace, unit: number, hello: readonly DeviceFrame[]): Generator<LogEntry> {
  for (const frame of hello) yield { l: 'frame', tUs: 0, frame };
  const unchecked = new Set(trace.temps.filter((t) => t.place !== null));
  for (let i = 0; i < trace.s.length; i++) {
    const counts = [count(trace.bar[i]!, unit), ...trace.temps.map((t) => count(t.c[i]!, 0.001))];
    const seconds = trace.s[i]!;
    const tUs = micro(seconds);
    const tick = Math.round(seconds * 1e4) % 0x1_0000_0000;
    yield { l: 'frame', tUs, frame: { t: 'S', seq: i, tick, counts, status: 0 } };
    // A file's temperatures are taken at their word: the check in the hand is its author's.
    for (const t of unchecked) {
      const thermometerC = t.c[i]!;
      if (!Number.isFinite(thermometerC) || t.place === null) continue;
      yield { l: 'command', tUs, command: { c: 'warm-check', place: t.place, thermometerC } };
      unchecked.delete(t);
    }
  }
}

/** An impossible value comes in as a broken sensor's: far under every band in which its signal means something. */
const BROKEN = -0x8000_0000;

const count = (value: number, unit: number): number | null => {
  if (Number.isNaN(value)) return null;
  return Number.isFinite(value) ? Math.round(value / unit) : BROKEN;
};
