/**
 * The samples of a page as columns: which there are, how they lie on the page (docs/record.md), how they are gathered,
 * written and read back.
 */

import type { SampleFrame } from '../link/frames.ts';

interface Arrays {
  readonly u8: Uint8Array;
  readonly u16: Uint16Array;
  readonly u32: Uint32Array;
  readonly i32: Int32Array;
}
type Type = keyof Arrays;

/** Number in the column list, and bytes of a value. */
const TYPE: { readonly [T in Type]: { readonly code: number; readonly width: number } } = {
  u8: { code: 1, width: 1 },
  u16: { code: 2, width: 2 },
  u32: { code: 3, width: 4 },
  i32: { code: 4, width: 4 },
};

/** Every member of a sample has its column; `dt` is its arrival, `nulls` says which counts are none. */
type Name = 'dt' | 'nulls' | Exclude<keyof SampleFrame, 't'>;

/**
 * In their order on the page: the wide ones first, so that each starts on a multiple of its own width. `counts` is a
 * column a channel. `kind` is its number in the column list.
 */
const COLUMNS = {
  dt: { kind: 1, type: 'u32' },
  seq: { kind: 2, type: 'u32' },
  tick: { kind: 3, type: 'u32' },
  counts: { kind: 4, type: 'i32' },
  status: { kind: 5, type: 'u16' },
  nulls: { kind: 6, type: 'u8' },
} as const satisfies { readonly [N in Name]: { readonly kind: number; readonly type: Type } };

type ArrayOf<N extends Name> = Arrays[(typeof COLUMNS)[N]['type']];

/** Columns of `n` samples. */
export type SampleColumns = { readonly n: number } & {
  /** dt: after the page's firstUs, µs. counts: an array a channel, 0 where the channel's bit in `nulls` is set. */
  readonly [N in Name]: N extends 'counts' ? readonly ArrayOf<N>[] : ArrayOf<N>;
};

/** The columns of a page, one after another. */
const columnsFor = (channels: number) =>
  Object.entries(COLUMNS).flatMap(([name, column]) =>
    Array.from({ length: name === 'counts' ? channels : 1 }, (_, channel) => ({ ...column, channel })),
  );

/** The column list of a page: kind, channel, type, zero; four bytes a column. */
export const makeColumnList = (channels: number): Uint8Array =>
  Uint8Array.from(columnsFor(channels).flatMap((c) => [c.kind, c.channel, TYPE[c.type].code, 0]));

/** Bytes of one sample in the columns of a page. */
export const sampleBytes = (channels: number): number =>
  columnsFor(channels).reduce((sum, c) => sum + TYPE[c.type].width, 0);

/** Growing columns of a page that is being written; reused from page to page. */
export class GrowingColumns implements SampleColumns {
  n = 0;
  /** Of the samples so far; -1: none yet. */
  channels = -1;
  dt = new Uint32Array(64);
  seq = new Uint32Array(64);
  tick = new Uint32Array(64);
  counts: Int32Array[] = [];
  status = new Uint16Array(64);
  nulls = new Uint8Array(64);

  reset(): void {
    this.n = 0;
    this.channels = -1;
  }

  private grow(): void {
    const size = this.dt.length * 2;
    const wider = <T extends Arrays[Type]>(from: T, to: T): T => {
      to.set(from);
      return to;
    };
    this.dt = wider(this.dt, new Uint32Array(size));
    this.seq = wider(this.seq, new Uint32Array(size));
    this.tick = wider(this.tick, new Uint32Array(size));
    this.counts = this.counts.map((c) => wider(c, new Int32Array(size)));
    this.status = wider(this.status, new Uint16Array(size));
    this.nulls = wider(this.nulls, new Uint8Array(size));
  }

  /**
   * False when the sample belongs among the texts: another number of channels, or too far from the first.
   * @param dt after the page's firstUs, µs
   */
  push(dt: number, frame: SampleFrame): boolean {
    const { counts } = frame;
    if (dt > 0xffff_ffff || (this.channels >= 0 && counts.length !== this.channels)) return false;
    if (this.channels < 0) {
      this.channels = counts.length;
      while (this.counts.length < counts.length) this.counts.push(new Int32Array(this.dt.length));
    }
    const i = this.n;
    if (i === this.dt.length) this.grow();
    let nulls = 0;
    for (let c = 0; c < counts.length; c++) {
      const value = counts[c]!;
      if (value === null) nulls |= 1 << c;
      this.counts[c]![i] = value ?? 0;
    }
    this.dt[i] = dt;
    this.seq[i] = frame.seq;
    this.tick[i] = frame.tick;
    this.status[i] = frame.status;
    this.nulls[i] = nulls;
    this.n = i + 1;
    return true;
  }

  /** Columns one after another from `at`; the caller made room. Little-endian whatever the machine. Gives their end. */
  write(page: Uint8Array, at: number): number {
    const view = new DataView(page.buffer, page.byteOffset, page.byteLength);
    const { n } = this;
    let p = at;
    for (const column of [this.dt, this.seq, this.tick])
      for (let i = 0; i < n; i++, p += 4) view.setUint32(p, column[i]!, true);
    for (let c = 0; c < this.channels; c++) {
      const column = this.counts[c]!;
      for (let i = 0; i < n; i++, p += 4) view.setInt32(p, column[i]!, true);
    }
    for (let i = 0; i < n; i++, p += 2) view.setUint16(p, this.status[i]!, true);
    for (let i = 0; i < n; i++, p++) page[p] = this.nulls[i]!;
    return p;
  }
}

const LITTLE = new Uint8Array(Uint16Array.of(1).buffer)[0] === 1;

type WordArray = Uint32Array | Int32Array | Uint16Array;

function word<T extends WordArray>(
  make: { new (buffer: ArrayBufferLike, offset: number, n: number): T; new (n: number): T },
  width: 2 | 4,
  bytes: Uint8Array,
  at: number,
  n: number,
): T {
  if (LITTLE) return new make(bytes.buffer, bytes.byteOffset + at, n);
  const out = new make(n);
  const view = new DataView(bytes.buffer, bytes.byteOffset + at, n * width);
  for (let i = 0; i < n; i++)
    out[i] = width === 2 ? view.getUint16(i * 2, true) : view.getUint32(i * 4, true);
  return out;
}

/** The columns in bytes that hold nothing else; views into them where their place in memory allows. */
export function readColumns(section: Uint8Array, channels: number, n: number): SampleColumns {
  // In a zip the pages lie where they fall: then one copy, which lies right.
  const bytes = section.byteOffset % 8 === 0 ? section : new Uint8Array(section);
  let at = 0;
  const u32 = (): Uint32Array => {
    const c = word(Uint32Array, 4, bytes, at, n);
    at += 4 * n;
    return c;
  };
  const dt = u32();
  const seq = u32();
  const tick = u32();
  const counts: Int32Array[] = [];
  for (let c = 0; c < channels; c++, at += 4 * n) counts.push(word(Int32Array, 4, bytes, at, n));
  const status = word(Uint16Array, 2, bytes, at, n);
  at += 2 * n;
  return { n, dt, seq, tick, counts, status, nulls: bytes.subarray(at, at + n) };
}

/** The i-th sample as the frame that it was. */
export function sampleAt({ seq, tick, counts, status, nulls }: SampleColumns, i: number): SampleFrame {
  const mask = nulls[i]!;
  const row = new Array<number | null>(counts.length);
  for (let c = 0; c < counts.length; c++) row[c] = mask & (1 << c) ? null : counts[c]![i]!;
  return { t: 'S', seq: seq[i]!, tick: tick[i]!, counts: row, status: status[i]! };
}
