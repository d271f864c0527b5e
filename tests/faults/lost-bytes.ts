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

/** So many bytes of a sample's line hold its number and its CRC: they are nowhere else. */
const ANCHOR = 24;
const LF = 10;

/** The line's first place at or before this one. */
const lineStart = (bytes: Buffer, at: number): number => bytes.lastIndexOf(LF, at - 1) + 1;

/** Lines with their ends. */
function linesOf(bytes: Buffer): string[] {
  return bytes.toString('latin1').match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

/** Bytes of the lines of `all` that are not among those of `some`. */
function without(all: readonly string[], some: readonly string[]): number {
  const there = new Map<string, number>();
  for (const line of some) there.set(line, (there.get(line) ?? 0) + 1);
  let bytes = 0;
  for (const line of all) {
    const left = there.get(line) ?? 0;
    if (left > 0) there.set(line, left - 1);
    else bytes += line.length;
  }
  return bytes;
}

/** The next sample's line of the record, from `i` on, that the tap holds from `at` on. */
function nextSample(tap: Buffer, record: Buffer, i: number, at: number): { i: number; at: number } | null {
  for (let line = i; line < record.length; ) {
    if (record[line] === 0x53 && line + ANCHOR <= record.length) {
      const found = tap.indexOf(record.subarray(line, line + ANCHOR), at);
      if (found >= 0) return { i: line, at: found };
    }
    const end = record.indexOf(LF, line);
    if (end < 0) break;
    line = end + 1;
  }
  return null;
}

/**
 * Lays the record over what the line took: the record must be the tap with pieces missing. Where they part, the next
 * sample that both hold brings them together; greetings alone do not, they are alike each time.
 * @param tap every byte that the line took, in order
 * @param record the capture as rebuilt from the record
 */
export function compareBytes(tap: Buffer, record: Buffer): Compared {
  const losses: Loss[] = [];
  const first = nextSample(tap, record, 0, 0);
  if (first === null) return { losses, foreign: record.length, from: 0, to: 0 };
  // The run begins with the last that was heard before it: the greeting may lie far back, and its lines come again.
  const from = first.at;
  let foreign = 0;
  let { i, at } = first;
  for (;;) {
    while (i < record.length && at < tap.length && record[i] === tap[at]) {
      i++;
      at++;
    }
    if (i >= record.length) return { losses, foreign, from, to: at };
    const back = Math.min(i - lineStart(record, i), at - lineStart(tap, at));
    i -= back;
    at -= back;
    const next = nextSample(tap, record, i, at);
    const missed = linesOf(tap.subarray(at, next?.at ?? at));
    const own = linesOf(record.subarray(i, next?.i ?? record.length));
    const bytes = without(missed, own);
    if (bytes > 0) losses.push({ at, bytes });
    foreign += without(own, missed);
    if (next === null) return { losses, foreign, from, to: at };
    ({ i, at } = next);
  }
}

/** Bytes lost between two places of the tap. */
export function lostBetween(losses: readonly Loss[], from: number, to: number): number {
  let sum = 0;
  for (const { at, bytes } of losses) sum += Math.max(0, Math.min(to, at + bytes) - Math.max(from, at));
  return sum;
}
