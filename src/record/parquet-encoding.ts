/**
 * The encodings of Parquet that a trace needs (Encodings.md of the format), over typed arrays and without an object a
 * value: a long trace has thirty million of them.
 */

/** Bytes as they are put together. The caller sees to the room: see roomFor(). */
export interface Sheet {
  readonly bytes: Uint8Array;
  at: number;
}

const BLOCK = 128;
const MINIBLOCKS = 4;
const MINIBLOCK = BLOCK / MINIBLOCKS;
/** With up to seven bits that wait, so many more still fit into a word of 32. */
const EASY_BITS = 24;

/** Room for a page of n values in any of these encodings. */
export const roomFor = (n: number): number => 9 * n + 1024;

export const createSheet = (size: number): Sheet => ({ bytes: new Uint8Array(size), at: 0 });

/** ULEB128 of a whole number from 0 to 2^53. */
function putVarInt(out: Sheet, n: number): void {
  let rest = n;
  for (; rest >= 0x80; rest = Math.floor(rest / 0x80)) out.bytes[out.at++] = (rest % 0x80) | 0x80;
  out.bytes[out.at++] = rest;
}

const putZigZag = (out: Sheet, n: number): void => putVarInt(out, n < 0 ? -2 * n - 1 : 2 * n);

const bitsOf = (n: number): number =>
  n < 2 ** 32 ? 32 - Math.clz32(n) : 64 - Math.clz32(Math.floor(n / 2 ** 32));

/**
 * DELTA_BINARY_PACKED.
 * @param values whole, below 2^52 in size
 * @param bits of the column's type: differences wrap at it
 */
export function putDeltas(out: Sheet, values: Float64Array, n: number, bits: 32 | 64): void {
  putVarInt(out, BLOCK);
  putVarInt(out, MINIBLOCKS);
  putVarInt(out, n);
  putZigZag(out, n === 0 ? 0 : values[0]!);
  for (let i = 1; i < n; i += BLOCK) putBlock(out, values, i, Math.min(BLOCK, n - i), bits);
}

const deltas = new Float64Array(BLOCK);

function putBlock(out: Sheet, values: Float64Array, from: number, n: number, bits: 32 | 64): void {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    const step = values[from + i]! - values[from + i - 1]!;
    const delta = bits === 32 ? step | 0 : step;
    deltas[i] = delta;
    if (delta < least) least = delta;
  }
  // What fills the last miniblock up is not read.
  for (let i = 0; i < BLOCK; i++) deltas[i] = i < n ? deltas[i]! - least : 0;
  putZigZag(out, least);
  const widths = out.at;
  out.at += MINIBLOCKS;
  for (let m = 0; m < MINIBLOCKS; m++) {
    let most = 0;
    for (let i = m * MINIBLOCK; i < (m + 1) * MINIBLOCK; i++) if (deltas[i]! > most) most = deltas[i]!;
    const width = bitsOf(most);
    out.bytes[widths + m] = width;
    if (width > 0) putPacked(out, deltas, m * MINIBLOCK, MINIBLOCK, width);
  }
}

/** Numbers of so many bits each, the low ones first; together they fill whole bytes. */
function putPacked(out: Sheet, values: Float64Array, from: number, n: number, width: number): void {
  const { bytes } = out;
  let { at } = out;
  let waiting = 0;
  let used = 0;
  for (let i = from; i < from + n; i++) {
    let value = values[i]!;
    let left = width;
    for (; left > EASY_BITS; left -= 16) {
      waiting |= (value % 65_536) << used;
      value = Math.floor(value / 65_536);
      bytes[at] = waiting;
      bytes[at + 1] = waiting >>> 8;
      at += 2;
      waiting >>>= 16;
    }
    waiting |= value << used;
    for (used += left; used >= 8; used -= 8) {
      bytes[at++] = waiting;
      waiting >>>= 8;
    }
  }
  out.at = at;
}

/** RLE and bit-packed runs mixed, of numbers of so many bits (at most 24). */
export function putRuns(out: Sheet, values: Int32Array, n: number, width: number): void {
  let packed = 0;
  let i = 0;
  while (i < n) {
    const value = values[i]!;
    let end = i + 1;
    while (end < n && values[end] === value) end++;
    if (end - i < 8) {
      i += 8;
      continue;
    }
    putGroups(out, values, packed, i, n, width);
    putVarInt(out, (end - i) * 2);
    for (let bit = 0; bit < width; bit += 8) out.bytes[out.at++] = value >>> bit;
    i = end;
    packed = end;
  }
  putGroups(out, values, packed, i, n, width);
}

/** Groups of eight from `from` to `to`, filled up with zeros behind the n-th. */
function putGroups(out: Sheet, values: Int32Array, from: number, to: number, n: number, width: number): void {
  if (from === to) return;
  putVarInt(out, ((to - from) >> 3) * 2 + 1);
  const { bytes } = out;
  let { at } = out;
  let waiting = 0;
  let used = 0;
  for (let i = from; i < to; i++) {
    if (i < n) waiting |= values[i]! << used;
    for (used += width; used >= 8; used -= 8) {
      bytes[at++] = waiting;
      waiting >>>= 8;
    }
  }
  out.at = at;
}

/** PLAIN doubles: whole numbers as parts of a unit. */
export function putDoubles(out: Sheet, whole: Float64Array, n: number, unit: number): void {
  const view = new DataView(out.bytes.buffer, out.bytes.byteOffset);
  for (let i = 0; i < n; i++, out.at += 8) {
    // Adding zero takes the sign of a zero away.
    view.setFloat64(out.at, whole[i]! / unit + 0, true);
  }
}

const SLOTS = 1 << 14;
const MOST_DISTINCT = SLOTS / 4;

/** Finds the distinct ones among whole numbers, in order of their first places. */
export class Distinct {
  /** The distinct numbers, and for each number its index among them. */
  readonly values = new Float64Array(MOST_DISTINCT);
  readonly indices: Int32Array;
  private readonly slots = new Int32Array(SLOTS);

  constructor(most: number) {
    this.indices = new Int32Array(most);
  }

  /** How many there are; null when they are so many that naming them saves little. */
  find(whole: Float64Array, n: number): number | null {
    const { values, indices, slots } = this;
    const most = Math.min(MOST_DISTINCT, n >> 2);
    let count = 0;
    let last = Number.NaN;
    let index = 0;
    slots.fill(-1);
    for (let i = 0; i < n; i++) {
      const v = whole[i]!;
      if (v !== last) {
        last = v;
        let slot = (Math.imul(v | 0, 0x9e37_79b1) >>> 18) & (SLOTS - 1);
        for (;;) {
          index = slots[slot]!;
          if (index < 0 || values[index] === v) break;
          slot = (slot + 1) & (SLOTS - 1);
        }
        if (index < 0) {
          if (count === most) return null;
          index = count++;
          values[index] = v;
          slots[slot] = index;
        }
      }
      indices[i] = index;
    }
    return count;
  }
}
