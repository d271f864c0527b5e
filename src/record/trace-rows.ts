/**
 * A run's samples as rows for other programs: raw counts as they came, and beside them what today's sensing makes
 * of them. Batch after batch, so that twelve hours need not stand in memory as objects.
 */

import type { SampleFrame } from '../link/frames.ts';
import type { Reading } from '../sensing/reading.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { LogEntry, LogHead } from './log.ts';
import { pageEntries } from './page.ts';
import { scanPages } from './page-scanner.ts';

/**
 * How counts become readings: for a run's head and all its events a function that takes every entry in order and
 * gives the reading of a sample, null where there is none.
 */
export type SenseRun = (head: LogHead, events: readonly WatchEvent[]) => (entry: LogEntry) => Reading | null;

export interface TemperatureColumn {
  readonly channel: number;
  /** temperature_c_<place>, or temperature_c_ch<index> for a channel without a place. */
  readonly name: string;
}

export interface RowShape {
  readonly channels: number;
  readonly temperatures: readonly TemperatureColumn[];
  readonly firstSampleUs: number | null;
  readonly samples: number;
  /** All that the pages hold. */
  readonly events: readonly WatchEvent[];
}

/** Rows of one batch, as columns. NaN and the null bits stand for what is not there. */
export interface RowBatch {
  readonly n: number;
  readonly arrivalUs: Float64Array;
  /** Seconds from the first sample, by arrival. */
  readonly timeS: Float64Array;
  /** Rounded to 1e-6 bar. */
  readonly bar: Float64Array;
  readonly uBar: Float64Array;
  /** Flags of the pressure; -1 where the sample gave no reading. */
  readonly flags: Int32Array;
  /** Rounded to 1e-4 °C, one column a temperature. */
  readonly temperatures: readonly Float64Array[];
  readonly seq: Float64Array;
  readonly tick: Float64Array;
  readonly status: Int32Array;
  /** Raw counts; NaN where there was no conversion. */
  readonly raw: readonly Float64Array[];
}

export const BATCH_ROWS = 65_536;

/** The columns that a run has: a first pass over the pages, without samples. */
export function rowShape(pages: Uint8Array): RowShape {
  let channels = 0;
  let firstSampleUs: number | null = null;
  let samples = 0;
  const events: WatchEvent[] = [];
  const places = new Map<number, string | null>();
  for (const item of scanPages(pages, { chain: false })) {
    if (item.kind !== 'page') continue;
    const { header, placed } = item.page;
    for (const event of item.page.events) events.push(event);
    if (header.samples > 0) channels = Math.max(channels, header.channels);
    samples += header.samples;
    for (const { entry } of placed) {
      if (entry.l === 'frame' && entry.frame.t === 'S') {
        channels = Math.max(channels, entry.frame.counts.length);
        samples++;
      }
      if (entry.l !== 'setup') continue;
      for (const c of entry.setup.channels) if (c.role === 'temperature') places.set(c.index, c.place);
    }
    if (firstSampleUs === null)
      for (const entry of pageEntries(item.page))
        if (entry.l === 'frame' && entry.frame.t === 'S') {
          firstSampleUs = entry.tUs;
          break;
        }
  }
  const used = new Set<string>();
  const temperatures = [...places]
    .sort(([a], [b]) => a - b)
    .map(([channel, place]): TemperatureColumn => {
      const known = place !== null && /^[a-z]+$/.test(place) && !used.has(place);
      if (known) used.add(place);
      return { channel, name: known ? `temperature_c_${place}` : `temperature_c_ch${channel}` };
    });
  return { channels, temperatures, firstSampleUs, samples, events };
}

class Batch implements RowBatch {
  n = 0;
  arrivalUs = new Float64Array(BATCH_ROWS);
  timeS = new Float64Array(BATCH_ROWS);
  bar = new Float64Array(BATCH_ROWS);
  uBar = new Float64Array(BATCH_ROWS);
  flags = new Int32Array(BATCH_ROWS);
  temperatures: Float64Array[];
  seq = new Float64Array(BATCH_ROWS);
  tick = new Float64Array(BATCH_ROWS);
  status = new Int32Array(BATCH_ROWS);
  raw: Float64Array[];

  constructor(private readonly shape: RowShape) {
    this.temperatures = shape.temperatures.map(() => new Float64Array(BATCH_ROWS));
    this.raw = Array.from({ length: shape.channels }, () => new Float64Array(BATCH_ROWS));
  }

  push(tUs: number, frame: SampleFrame, reading: Reading | null): void {
    const i = this.n++;
    const { temperatures, firstSampleUs } = this.shape;
    this.arrivalUs[i] = tUs;
    this.timeS[i] = (tUs - (firstSampleUs ?? tUs)) / 1e6;
    this.bar[i] = round(reading?.bar ?? Number.NaN, 1e6);
    this.uBar[i] = round(reading === null || reading.bar === null ? Number.NaN : reading.uBar, 1e6);
    this.flags[i] = reading?.flags ?? -1;
    for (let k = 0; k < temperatures.length; k++) {
      const found = reading?.temps.find((t) => t.channel === temperatures[k]!.channel);
      this.temperatures[k]![i] = round(found?.c ?? Number.NaN, 1e4);
    }
    this.seq[i] = frame.seq;
    this.tick[i] = frame.tick;
    this.status[i] = frame.status;
    for (let c = 0; c < this.raw.length; c++) this.raw[c]![i] = frame.counts[c] ?? Number.NaN;
  }
}

// Rounded well under the sensor's resolution, so that the last bit of another JavaScript engine makes no other file.
const round = (v: number, per: number): number => {
  const r = Math.round(v * per) / per;
  return r === 0 ? 0 : r;
};

/** Rows of the run in order. A batch is reused: it stands until the next one is asked for. */
export function* traceRows(
  pages: Uint8Array,
  shape: RowShape,
  sense: SenseRun,
): Generator<RowBatch, void, undefined> {
  let read: ((entry: LogEntry) => Reading | null) | null = null;
  const batch = new Batch(shape);
  for (const item of scanPages(pages, { chain: false })) {
    if (item.kind !== 'page') continue;
    if (item.page.head !== null && read === null) read = sense(item.page.head, shape.events);
    for (const entry of pageEntries(item.page)) {
      const reading = read?.(entry) ?? null;
      if (entry.l !== 'frame' || entry.frame.t !== 'S') continue;
      batch.push(entry.tUs, entry.frame, reading);
      if (batch.n === BATCH_ROWS) {
        yield batch;
        batch.n = 0;
      }
    }
  }
  if (batch.n > 0) yield batch;
}
