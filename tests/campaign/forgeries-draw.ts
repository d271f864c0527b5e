/** Seeded choices of a forger, and what is changed in plain bytes. */
import { bits32 } from '../../src/estimate/testing/random.ts';

export interface Draw {
  /** A whole number from 0 to under n. */
  below(n: number): number;
  pick<T>(list: readonly T[]): T;
}

export function createDraw(seed: number): Draw {
  const next = bits32(seed);
  const below = (n: number): number => next() % Math.max(1, n);
  return { below, pick: (list) => list[below(list.length)]! };
}

/** Lengths and counts at which readers stumble. */
const ODD_NUMBERS = [
  0, 1, 2, 7, 8, 0x7f, 0x80, 0xff, 0x100, 0xffff, 0x1_0000, 0x7fff_ffff, 0x8000_0000, 0xffff_ffff,
];

/** One change of another length or none: bits, bytes, numbers, spans taken out, put in, doubled, blanked, exchanged. */
export function changeBytes(d: Draw, bytes: Uint8Array): Uint8Array {
  const at = d.below(bytes.length);
  const span = 1 + d.below(d.pick([4, 64, 4096]));
  const out = bytes.slice();
  const put = (from: number, piece: Uint8Array, skip: number): Uint8Array => {
    const rest = bytes.subarray(Math.min(bytes.length, from + skip));
    const joined = new Uint8Array(from + piece.length + rest.length);
    joined.set(bytes.subarray(0, from));
    joined.set(piece, from);
    joined.set(rest, from + piece.length);
    return joined;
  };
  switch (d.below(9)) {
    case 0:
      out[at]! ^= 1 << d.below(8);
      return out;
    case 1:
      out[at] = d.below(256);
      return out;
    case 2: {
      const v = new DataView(out.buffer);
      if (at + 4 <= out.length) v.setUint32(at, d.pick(ODD_NUMBERS), true);
      return out;
    }
    case 3:
      return put(at, new Uint8Array(0), span);
    case 4:
      return put(
        at,
        Uint8Array.from({ length: span }, () => d.below(256)),
        0,
      );
    case 5:
      return put(at, bytes.slice(at, at + span), 0);
    case 6:
      out.fill(0, at, at + span);
      return out;
    case 7:
      out.set(bytes.slice(at, at + span).subarray(0, bytes.length - d.below(bytes.length)), 0);
      return out;
    default:
      return bytes.slice(0, at);
  }
}

/** A header's field of 1, 2, 4 or 8 bytes made odd. */
export function changeField(d: Draw, view: DataView, at: number, size: 1 | 2 | 4 | 8): void {
  const value = d.below(3) === 0 ? d.below(0x1_0000) : d.pick(ODD_NUMBERS);
  if (size === 1) view.setUint8(at, value & 0xff);
  else if (size === 2) view.setUint16(at, value & 0xffff, true);
  else if (size === 4) view.setUint32(at, value >>> 0, true);
  else view.setBigUint64(at, BigInt(value) << BigInt(d.below(33)), true);
}
