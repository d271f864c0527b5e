/** Registers to numbers, and what speaks for one order of their bytes. */
import type { RegisterType, WordOrder } from '../../job/codes.ts';

const swapped = (word: number): number => ((word & 0xff) << 8) | (word >>> 8);

/** The words with the most significant first and each byte where the standard has it. */
function ordered(words: readonly number[], order: WordOrder): number[] {
  const isSwapped = order === 'badc' || order === 'dcba';
  const isReversed = order === 'cdab' || order === 'dcba';
  const right = isSwapped ? words.map(swapped) : [...words];
  return isReversed ? right.reverse() : right;
}

const view = new DataView(new ArrayBuffer(4));

/** The number in one or two registers; NaN and infinity as they stand there. */
export function numberOf(words: readonly number[], type: RegisterType, order: WordOrder): number {
  const [high, low] = ordered(words, order) as [number, number];
  switch (type) {
    case 'uint16':
      return high;
    case 'int16':
      return (high << 16) >> 16;
    case 'int32':
      return (high << 16) | low;
    case 'uint32':
      return ((high << 16) | low) >>> 0;
    case 'float32':
      view.setUint32(0, ((high << 16) | low) >>> 0);
      return view.getFloat32(0);
  }
}

/** No instrument tells a smaller number than this that is not zero: its bytes stand in another order. */
const LEAST = 1e-20;

/** A number that no order of bytes is right for, or none at all. */
export const isNoNumber = (value: number): boolean =>
  !Number.isFinite(value) || (value !== 0 && Math.abs(value) < LEAST);
