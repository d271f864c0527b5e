/** Bytes that the device's line took and the record does not hold. */

export interface Loss {
  /** Place in the tap of the first byte that is not in the record. */
  readonly at: number;
  readonly bytes: number;
}

export interface Compared {
  readonly losses: readonly Loss[];
  /** Bytes of the record that the line never carried here (another device's, or damage). */
  readonly foreign: number;
  /** Places in the tap of the first recorded byte and behind the last; the record's own beginning loses nothing. */
  readonly from: number;
  readonly to: number;
}

/** So many equal bytes are a place that is found again: a line of a sample carries its number and its CRC. */
const ANCHOR = 40;

/**
 * Lays the record over what the line took: the record must be the tap with pieces missing.
 * @param tap every byte that the line took, in order
 * @param record the capture as rebuilt from the record
 */
export function compareBytes(tap: Buffer, record: Buffer): Compared {
  const losses: Loss[] = [];
  let foreign = 0;
  let at = 0;
  let from = -1;
  let i = 0;
  while (i < record.length) {
    const found = tap.indexOf(record.subarray(i, i + ANCHOR), at);
    if (found < 0) {
      foreign++;
      i++;
      continue;
    }
    if (from < 0) from = found;
    else if (found > at) losses.push({ at, bytes: found - at });
    at = found;
    while (i < record.length && at < tap.length && record[i] === tap[at]) {
      i++;
      at++;
    }
  }
  return { losses, foreign, from: Math.max(0, from), to: from < 0 ? 0 : at };
}

/** Bytes lost between two places of the tap. */
export function lostBetween(losses: readonly Loss[], from: number, to: number): number {
  let sum = 0;
  for (const { at, bytes } of losses) sum += Math.max(0, Math.min(to, at + bytes) - Math.max(from, at));
  return sum;
}
