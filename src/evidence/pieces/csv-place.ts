/** Where in a trace.csv a row stands, without reading all that is before it. */
import { type ByteSource, CHUNK } from '../../record/byte-source.ts';
import { columnNames } from '../../record/trace-csv.ts';
import type { RowShape } from '../../record/trace-rows.ts';

const NEAR = 1 << 15;
const LF = 0x0a;

/** A row is longer than no row is: what has no end within it is none. */
const LOOK = 1 << 12;

/**
 * Rows stand in the order of their arrival: halves the file until little is left, and looks for the very row there.
 * @param row its bytes, line end and all
 * @returns its offset; null: it is not found. Whether what stands behind it follows is for whoever compares
 */
export async function placeOf(csv: ByteSource, shape: RowShape, row: Uint8Array): Promise<number | null> {
  const column = columnNames(shape).indexOf('arrival_us');
  const text = new TextDecoder('latin1');
  const arrivalOf = (line: Uint8Array): number => Number(text.decode(line).split(',')[column]);
  const wanted = arrivalOf(row);
  let [low, high] = [0, csv.size];
  while (high - low > NEAR) {
    const middle = Math.floor((low + high) / 2);
    const bytes = await csv.read(middle, Math.min(LOOK, csv.size - middle));
    const begin = bytes.indexOf(LF) + 1;
    const end = bytes.indexOf(LF, begin);
    const arrival = begin === 0 || end < 0 ? Number.NaN : arrivalOf(bytes.subarray(begin, end));
    // Several rows may have come at once: the first of them may stand before this one.
    if (arrival < wanted) low = middle;
    else high = middle;
  }
  const from = Math.max(0, low - NEAR);
  const bytes = await csv.read(from, Math.min(CHUNK, high + 2 * NEAR - from, csv.size - from));
  for (let at = from === 0 ? 0 : bytes.indexOf(LF) + 1; at < bytes.length; ) {
    const end = bytes.indexOf(LF, at) + 1;
    if (end === 0) return null;
    if (end - at === row.length && row.every((b, i) => b === bytes[at + i])) return from + at;
    at = end;
  }
  return null;
}
