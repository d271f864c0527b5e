/** Readings of a piece as columns, so that they go from worker to worker without being copied. */
import type { Traced } from '../../engine/trace.ts';
import type { SecondPressure } from '../../job/codes.ts';
import type { Place } from '../../job/setup.ts';

/** Rows that have the same columns. */
export interface ReadingColumns {
  readonly n: number;
  /** Sampling time, s; of a row without a reading its arrival, µs. */
  readonly at: Float64Array;
  /** 0 a reading; 1 one behind a gap; 2 none. */
  readonly what: Uint8Array;
  /** NaN for none, as everywhere below. */
  readonly bar: Float32Array;
  readonly second: { readonly role: SecondPressure; readonly bar: Float32Array } | null;
  readonly temps: readonly {
    readonly channel: number;
    readonly place: Place | null;
    readonly c: Float32Array;
  }[];
}

const ROWS = 16_000;

/** What tells which columns a row has. */
interface Columned {
  readonly second?: { readonly role: SecondPressure } | undefined;
  readonly temps: readonly { readonly channel: number; readonly place: Place | null }[];
}

interface Open {
  n: number;
  readonly at: Float64Array;
  readonly what: Uint8Array;
  readonly bar: Float32Array;
  readonly second: { readonly role: SecondPressure; readonly bar: Float32Array } | null;
  readonly temps: ReadingColumns['temps'];
}

const fits = ({ second, temps }: Open, reading: Traced): boolean =>
  second?.role === reading.second?.role &&
  temps.length === reading.temps.length &&
  temps.every((t, k) => t.channel === reading.temps[k]!.channel && t.place === reading.temps[k]!.place);

export class ReadingPacker {
  readonly done: ReadingColumns[] = [];
  private open: Open | null = null;

  reading(reading: Traced, gap: boolean): void {
    const open = this.open !== null && fits(this.open, reading) ? this.room() : this.begin(reading);
    const i = open.n++;
    open.at[i] = reading.tS;
    open.what[i] = gap ? 1 : 0;
    open.bar[i] = reading.bar ?? Number.NaN;
    if (open.second !== null) open.second.bar[i] = reading.second?.bar ?? Number.NaN;
    for (let k = 0; k < open.temps.length; k++) open.temps[k]!.c[i] = reading.temps[k]!.c ?? Number.NaN;
  }

  unjudged(tUs: number): void {
    const open = this.room();
    const i = open.n++;
    open.at[i] = tUs;
    open.what[i] = 2;
  }

  /** The last rows too. */
  close(): void {
    if (this.open !== null && this.open.n > 0) this.done.push(this.open);
    this.open = null;
  }

  private room(): Open {
    const { open } = this;
    if (open !== null && open.n < ROWS) return open;
    return this.begin(open === null ? null : { second: open.second ?? undefined, temps: open.temps });
  }

  private begin(like: Columned | null): Open {
    this.close();
    const second = like?.second;
    this.open = {
      n: 0,
      at: new Float64Array(ROWS),
      what: new Uint8Array(ROWS),
      bar: new Float32Array(ROWS),
      second: second === undefined ? null : { role: second.role, bar: new Float32Array(ROWS) },
      temps: (like?.temps ?? []).map(({ channel, place }) => ({ channel, place, c: new Float32Array(ROWS) })),
    };
    return this.open;
  }
}

const orNull = (v: number): number | null => (Number.isNaN(v) ? null : v);

/** Hands the rows on in their order. @param reading is good until the next one */
export function unpack(
  { n, at, what, bar, second, temps }: ReadingColumns,
  to: { reading(reading: Traced, gap: boolean): void; unjudged(tUs: number): void },
): void {
  const shown = temps.map(({ channel, place }) => ({ channel, place, c: null as number | null }));
  for (let i = 0; i < n; i++) {
    if (what[i] === 2) {
      to.unjudged(at[i]!);
      continue;
    }
    for (let k = 0; k < shown.length; k++) shown[k]!.c = orNull(temps[k]!.c[i]!);
    const beside = second === null ? {} : { second: { role: second.role, bar: orNull(second.bar[i]!) } };
    to.reading({ tS: at[i]!, bar: orNull(bar[i]!), ...beside, temps: shown }, what[i] === 1);
  }
}

/** Samples are missing before the first reading. */
export function putGap(columns: readonly ReadingColumns[]): void {
  for (const { n, what } of columns) {
    const first = what.subarray(0, n).findIndex((w) => w !== 2);
    if (first < 0) continue;
    what[first] = 1;
    return;
  }
}

/** What is handed over instead of copied. */
export const buffersOf = (columns: readonly ReadingColumns[]): ArrayBufferLike[] =>
  columns.flatMap(({ at, what, bar, second, temps }) => [
    at.buffer,
    what.buffer,
    bar.buffer,
    ...(second === null ? [] : [second.bar.buffer]),
    ...temps.map(({ c }) => c.buffer),
  ]);
