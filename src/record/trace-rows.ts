/**
 * A run's samples as rows for other programs: raw counts as they came, and beside them what today's sensing makes
 * of them. Batch after batch, so that twelve hours need not stand in memory as objects.
 */

import { SECOND_PRESSURES, type SecondPressure } from '../job/codes.ts';
import type { Setup } from '../job/setup.ts';
import type { SampleFrame } from '../link/frames.ts';
import type { Reading } from '../sensing/reading.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { ByteSource } from './byte-source.ts';
import { PAGE_FLAG } from './layout.ts';
import { type LogEntry, type LogHead, STATE_STEP } from './log.ts';
import { EntryCursor, type Page } from './page.ts';
import { type ScanOptions, scanChunks } from './page-scanner.ts';
import { firstSampleOf } from './reader.ts';

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
  /** Second pressures that a Setup of the run names. */
  readonly seconds: readonly SecondPressure[];
  readonly temperatures: readonly TemperatureColumn[];
  readonly firstSampleUs: number | null;
  readonly samples: number;
}

/** Rounded well under the sensor's resolution, so that the last bit of another JavaScript engine makes no other file. */
export const DECIMALS = { seconds: 6, bar: 6, celsius: 4 } as const;

/** Rows of one batch, as columns. Measured values are whole numbers of their last decimal (DECIMALS), NaN for none. */
export interface RowBatch {
  readonly n: number;
  readonly arrivalUs: Float64Array;
  /** µs from the first sample, by arrival. */
  readonly sinceUs: Float64Array;
  readonly bar: Float64Array;
  readonly uBar: Float64Array;
  /** Flags of the pressure; -1 where the sample gave no reading. */
  readonly flags: Int32Array;
  /** Two columns a second pressure: its value, and its expanded uncertainty. */
  readonly seconds: readonly { readonly bar: Float64Array; readonly uBar: Float64Array }[];
  /** One column a temperature. */
  readonly temperatures: readonly Float64Array[];
  readonly seq: Uint32Array;
  readonly tick: Uint32Array;
  readonly status: Int32Array;
  /** Raw counts; bit c of `missing` is set where channel c had no conversion. */
  readonly raw: readonly Int32Array[];
  readonly missing: Uint8Array;
}

/**
 * Rows of a batch, and of a row group of trace.parquet: as many as an array of theirs still lies among the short-lived
 * objects of the engine. Arrays four times as long cost half as much again, and 60 MB more at the peak.
 */
export const BATCH_ROWS = STATE_STEP;

/** @param setups of the run, in order */
export function shapeOf(
  setups: readonly Setup[],
  facts: Pick<RowShape, 'channels' | 'firstSampleUs' | 'samples'>,
): RowShape {
  const places = new Map<number, string | null>();
  const roles = new Set<string>();
  for (const { channels } of setups)
    for (const c of channels) {
      roles.add(c.role);
      if (c.role === 'temperature') places.set(c.index, c.place);
    }
  const used = new Set<string>();
  const temperatures = [...places]
    .sort(([a], [b]) => a - b)
    .map(([channel, place]): TemperatureColumn => {
      const known = place !== null && /^[a-z]+$/.test(place) && !used.has(place);
      if (known) used.add(place);
      return { channel, name: known ? `temperature_c_${place}` : `temperature_c_ch${channel}` };
    });
  const seconds = SECOND_PRESSURES.filter((role) => roles.has(role));
  const { channels, firstSampleUs, samples } = facts;
  return { channels, seconds, temperatures, firstSampleUs, samples };
}

/** Finds out the columns that a run has, from its pages in order. */
export class Shaper {
  private channels = 0;
  private firstSampleUs: number | null = null;
  private samples = 0;
  private readonly setups: Setup[] = [];

  page(page: Page): void {
    const { header, placed } = page;
    if (header.samples > 0) this.channels = Math.max(this.channels, header.channels);
    this.samples += header.samples;
    for (const { entry } of placed) {
      if (entry.l === 'frame' && entry.frame.t === 'S') {
        this.channels = Math.max(this.channels, entry.frame.counts.length);
        this.samples++;
      }
      if (entry.l === 'setup') this.setups.push(entry.setup);
    }
    this.firstSampleUs ??= firstSampleOf(page);
  }

  shape(): RowShape {
    const { channels, firstSampleUs, samples } = this;
    return shapeOf(this.setups, { channels, firstSampleUs, samples });
  }
}

const BAR = 10 ** DECIMALS.bar;
const CELSIUS = 10 ** DECIMALS.celsius;

/** Is filled, handed on and filled again. */
export class Batch implements RowBatch {
  n = 0;
  readonly arrivalUs = new Float64Array(BATCH_ROWS);
  readonly sinceUs = new Float64Array(BATCH_ROWS);
  readonly bar = new Float64Array(BATCH_ROWS);
  readonly uBar = new Float64Array(BATCH_ROWS);
  readonly flags = new Int32Array(BATCH_ROWS);
  readonly seconds: RowBatch['seconds'];
  readonly temperatures: Float64Array[];
  readonly seq = new Uint32Array(BATCH_ROWS);
  readonly tick = new Uint32Array(BATCH_ROWS);
  readonly status = new Int32Array(BATCH_ROWS);
  readonly raw: Int32Array[];
  readonly missing = new Uint8Array(BATCH_ROWS);

  constructor(private readonly shape: RowShape) {
    this.seconds = shape.seconds.map(() => ({
      bar: new Float64Array(BATCH_ROWS),
      uBar: new Float64Array(BATCH_ROWS),
    }));
    this.temperatures = shape.temperatures.map(() => new Float64Array(BATCH_ROWS));
    this.raw = Array.from({ length: shape.channels }, () => new Int32Array(BATCH_ROWS));
  }

  push(tUs: number, frame: SampleFrame, reading: Reading | null): void {
    const i = this.n++;
    const { temperatures, seconds, firstSampleUs } = this.shape;
    const bar = reading?.bar ?? Number.NaN;
    this.arrivalUs[i] = tUs;
    this.sinceUs[i] = tUs - (firstSampleUs ?? tUs);
    this.bar[i] = Math.round(bar * BAR);
    this.uBar[i] = reading === null || Number.isNaN(bar) ? Number.NaN : Math.round(reading.uBar * BAR);
    this.flags[i] = reading?.flags ?? -1;
    for (let k = 0; k < seconds.length; k++) {
      const second = reading?.second?.role === seconds[k] ? reading?.second : undefined;
      const value = second?.bar ?? Number.NaN;
      this.seconds[k]!.bar[i] = Math.round(value * BAR);
      this.seconds[k]!.uBar[i] = Number.isNaN(value) ? Number.NaN : Math.round((second?.uBar ?? 0) * BAR);
    }
    for (let k = 0; k < temperatures.length; k++)
      this.temperatures[k]![i] = Math.round(celsiusOf(reading, temperatures[k]!.channel) * CELSIUS);
    this.seq[i] = frame.seq;
    this.tick[i] = frame.tick;
    this.status[i] = frame.status;
    let missing = 0;
    for (let c = 0; c < this.raw.length; c++) {
      const count = frame.counts[c] ?? null;
      if (count === null) missing |= 1 << c;
      this.raw[c]![i] = count ?? 0;
    }
    this.missing[i] = missing;
  }
}

function celsiusOf(reading: Reading | null, channel: number): number {
  if (reading !== null) for (const t of reading.temps) if (t.channel === channel) return t.c ?? Number.NaN;
  return Number.NaN;
}

/**
 * Rows of the run in order. A batch is reused: it stands until the next one is asked for.
 * @param events all of the run's
 */
export async function* traceRows(
  pages: ByteSource,
  shape: RowShape,
  sense: SenseRun,
  events: readonly WatchEvent[],
  options: ScanOptions = {},
): AsyncGenerator<RowBatch, void, undefined> {
  let read: ((entry: LogEntry) => Reading | null) | null = null;
  const batch = new Batch(shape);
  let ended = false;
  for await (const items of scanChunks(pages, { ...options, chain: false }))
    for (const item of items) {
      // Nothing counts behind the end mark.
      if (item.kind !== 'page' || ended) continue;
      const { page } = item;
      if (page.head !== null && read === null) read = sense(page.head, events);
      const cursor = new EntryCursor(page);
      for (let entry = cursor.next(); entry !== null; entry = cursor.next()) {
        const reading = read?.(entry) ?? null;
        if (entry.l !== 'frame' || entry.frame.t !== 'S') continue;
        batch.push(entry.tUs, entry.frame, reading);
        if (batch.n === BATCH_ROWS) {
          yield batch;
          batch.n = 0;
        }
      }
      ended = (page.header.flags & PAGE_FLAG.end) !== 0;
    }
  if (batch.n > 0) yield batch;
}
