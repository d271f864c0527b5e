import type { SideFiles } from '../record/side-files.ts';
import { openTraceCache, seriesOf, type TraceCache } from '../record/trace-cache.ts';
import type { PictureWindow, SeriesKey } from '../record/types.ts';
import type { Reading, SecondReading, TemperatureReading } from '../sensing/reading.ts';
import type { TraceWindow } from './messages.ts';

/** Newest readings for a plot that moves along: the moment's `fresh`. */
export interface Fresh {
  readonly s: Float64Array;
  readonly bar: Float32Array;
  readonly second: Float32Array | null;
  readonly temps: readonly { readonly channel: number; readonly c: Float32Array }[];
}

type TracedTemperature = Pick<TemperatureReading, 'channel' | 'place' | 'c'>;

/** What of a reading a trace keeps. */
export interface Traced extends Pick<Reading, 'tS' | 'bar'> {
  readonly second?: Pick<SecondReading, 'role' | 'bar'>;
  readonly temps: readonly TracedTemperature[];
}

/** The trace of the run that is being watched, and its side files where it has some. */
export interface LiveTrace {
  /** Samples taken in. */
  readonly rows: number;
  /** @param gap samples are missing before this one */
  add(reading: Traced, gap: boolean): void;
  /**
   * What the second adapter converted while no pressure comes: for the plot that moves along alone, since the side files
   * keep the pressure's samples.
   */
  beside(tUs: number, temps: readonly TemperatureReading[]): void;
  /** A sample that was not judged (another device's): the side files keep one row a sample. */
  blank(tUs: number): void;
  /** Seconds from the first sample. */
  window(fromS: number, toS: number, points: number): TraceWindow;
  /** What came since the last call. */
  drain(): Fresh;
  /** Readings to the side files. @throws StoreError */
  flush(): void;
  /** The end of the run. @throws StoreError */
  finish(): void;
}

/** More readings than this between two moments (a practice run at high speed) are thinned by the picture anyway. */
const MOST_FRESH = 4096;

/** No channel of a device: a second pressure is one line, whichever sensor it is read by. */
const SECOND_CHANNEL = -2;

const seriesKeys = (reading: Traced): SeriesKey[] => [
  { name: 'bar', place: null, channel: -1 },
  ...(reading.second === undefined
    ? []
    : [{ name: 'second' as const, place: reading.second.role, channel: SECOND_CHANNEL }]),
  ...reading.temps.map((t): SeriesKey => ({ name: 'temperature', place: t.place, channel: t.channel })),
];

/** Index of the first temperature. */
const temperaturesFrom = (keys: readonly SeriesKey[]): number => (keys[1]?.name === 'second' ? 2 : 1);

/** So long without a pressure's sample the temperatures stand alone, us. */
const ALONE_US = 2e6;

/** Puts one value a key into the row that side files and pictures hold, NaN for none. */
function fillRow(row: Float64Array, keys: readonly SeriesKey[], { bar, second, temps }: Traced): void {
  row[0] = bar ?? Number.NaN;
  const before = temperaturesFrom(keys);
  if (before === 2) row[1] = second?.bar ?? Number.NaN;
  for (let k = before; k < keys.length; k++) {
    const { channel } = keys[k]!;
    // They stay in the order of the first reading unless another Setup came.
    const near = temps[k - before];
    const found = near?.channel === channel ? near : temps.find((t) => t.channel === channel);
    row[k] = found?.c ?? Number.NaN;
  }
}

/** @param rows samples that the side files hold from a snapshot's time */
export function createLiveTrace(files: SideFiles, rows = 0): LiveTrace {
  let cache: TraceCache | null = null;
  let keys: readonly SeriesKey[] = [];
  const places = new Map<number, string | null>();
  let row = new Float64Array(0);
  let firstUs = 0;
  let lastUs = 0;
  let seen = rows;
  let fresh: number[][] = [];
  /** Temperatures that came later than the first reading, which alone decides what the side files hold. */
  let added: number[] = [];

  /** For the plot: what the side files hold, and behind it what was added. */
  function show(us: number, values: ArrayLike<number>, temps: readonly TracedTemperature[]): void {
    if (fresh.length >= MOST_FRESH) return;
    const more = added.map((channel) => temps.find((t) => t.channel === channel)?.c ?? Number.NaN);
    fresh.push([(us - firstUs) / 1e6, ...Array.from(values), ...more]);
  }

  /** The rows of one moment have the same columns. */
  function noteAdded(temps: readonly TracedTemperature[]): void {
    for (const { channel } of temps) {
      if (added.includes(channel) || keys.some((k) => k.channel === channel)) continue;
      added = [...added, channel];
      for (const row of fresh) row.push(Number.NaN);
    }
  }

  function append(us: number, gap: boolean): void {
    lastUs = Math.max(lastUs, us);
    // After a resumption the side files hold the older readings already.
    if (cache !== null && seen++ >= cache.restored) cache.append(lastUs, row, gap);
  }

  return {
    get rows() {
      return seen;
    },
    add(reading, gap) {
      const us = reading.tS * 1e6;
      if (cache === null) {
        keys = seriesKeys(reading);
        row = new Float64Array(keys.length);
        cache = openTraceCache(keys, files);
        firstUs = cache.firstUs ?? us;
      }
      for (const t of reading.temps) if (places.get(t.channel) !== t.place) places.set(t.channel, t.place);
      if (reading.second !== undefined) places.set(SECOND_CHANNEL, reading.second.role);
      fillRow(row, keys, reading);
      append(us, gap);
      noteAdded(reading.temps);
      show(us, row, reading.temps);
    },
    beside(tUs, temps) {
      if (cache === null || tUs - lastUs < ALONE_US) return;
      noteAdded(temps);
      const alone = keys.map(({ channel }) => temps.find((t) => t.channel === channel)?.c ?? Number.NaN);
      show(tUs, alone, temps);
    },
    blank(tUs) {
      row.fill(Number.NaN);
      append(tUs, true);
    },
    window(fromS, toS, points) {
      if (cache === null) return { fromS, toS, s: new Float64Array(0), series: [], readings: 0 };
      const picture = cache.picture(firstUs + fromS * 1e6, firstUs + toS * 1e6, points);
      return traceWindow(picture, firstUs, fromS, toS, places);
    },
    drain() {
      const rows = fresh;
      fresh = [];
      const column = (k: number) => Float32Array.from(rows, (r) => r[k + 1]!);
      const from = temperaturesFrom(keys);
      return {
        s: Float64Array.from(rows, (r) => r[0]!),
        bar: column(0),
        second: from === 2 ? column(1) : null,
        temps: [...keys.slice(from).map((key) => key.channel), ...added].map((channel, i) => ({
          channel,
          c: column(from + i),
        })),
      };
    },
    flush() {
      cache?.flush();
    },
    finish() {
      cache?.finish();
    },
  };
}

/**
 * The record's picture as the message carries it: seconds from the first sample. A later setup may have named the
 * place of a channel that streamed before; `places` has the newest.
 */
export function traceWindow(
  picture: PictureWindow,
  firstUs: number,
  fromS: number,
  toS: number,
  places: ReadonlyMap<number, string | null>,
): TraceWindow {
  return {
    fromS,
    toS,
    s: picture.us.map((us) => (us - firstUs) / 1e6),
    series: picture.series.map(({ key, min, max }) => ({
      ...key,
      place: places.get(key.channel) ?? key.place,
      min,
      max,
    })),
    readings: picture.readings,
  };
}

/** Readings that a run's side files hold, whole and sound. */
export function restoredRows(files: SideFiles): number {
  const keys = seriesOf(files.buckets);
  return keys === null ? 0 : openTraceCache(keys, files).restored;
}
