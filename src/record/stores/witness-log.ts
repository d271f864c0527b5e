/**
 * The installation's witness log among its documents. Leaves rest in sheets of a fixed length; a leaf is appended by putting
 * its sheet with one leaf more, which the store takes whole or not at all and only from whoever saw the sheet as it rests.
 * So two workers that append at once both get a place, a process that dies leaves the log as it was or one leaf longer, and
 * no leaf ever has another's place.
 */
import { leafBytes, MOST_LEAF_BYTES } from '../witness/leaves.ts';
import { type DocumentStore, type StoredDocument, StoreError } from './store.ts';

export const LEAVES_A_SHEET = 256;
/** Two thousand leaves: a week of work by day and by night. */
const SHEETS_BACK = 8;
/** Others may append at the same time, each of them a leaf a minute or fewer. */
const MOST_TRIES = 20;

const sheetId = (number: number): string => `leaves-${String(number).padStart(8, '0')}`;

export interface WitnessLog {
  /**
   * Appends a leaf; at rest when it settles. One whose answer was lost may be handed in again: it is not appended twice
   * while it is among the last.
   * @throws StoreError
   */
  append(leaf: string): Promise<void>;
  /** Leaves from a place on, a sheet at a time. @throws StoreError 'corrupt' where what rests is no log */
  from(index: number): AsyncIterable<{ readonly index: number; readonly leaves: readonly string[] }>;
  /** The newest leaf of which `is` holds, in the last few sheets; null: none there. @throws StoreError as `from` */
  newest(is: (leaf: string) => boolean): Promise<string | null>;
}

interface Sheet {
  readonly document: StoredDocument | null;
  readonly leaves: readonly string[];
}

function leavesIn(document: StoredDocument | null): readonly string[] {
  if (document === null) return [];
  const { body, id } = document;
  const sound =
    Array.isArray(body) &&
    body.length <= LEAVES_A_SHEET &&
    body.every((l) => typeof l === 'string' && l.length <= MOST_LEAF_BYTES);
  if (!sound) throw new StoreError('corrupt', `${id} of the witness log is not readable`);
  return body as readonly string[];
}

export function createWitnessLog(documents: DocumentStore, utcMs: () => number): WitnessLog {
  /** The last sheet when it was looked at last; it never goes back. */
  let last: number | null = null;

  async function sheet(number: number): Promise<Sheet> {
    const document = await documents.get('log', sheetId(number));
    return { document, leaves: leavesIn(document) };
  }

  /** The first sheet from this one on that is not there, by leaps and then by halves. */
  async function firstFree(): Promise<number> {
    let [there, step] = [-1, 1];
    while ((await documents.get('log', sheetId(there + step))) !== null) {
      there += step;
      step *= 2;
    }
    let free = there + step;
    while (free - there > 1) {
      const middle = (there + free) >> 1;
      if ((await documents.get('log', sheetId(middle))) === null) free = middle;
      else there = middle;
    }
    return free;
  }

  async function open(): Promise<{
    readonly number: number;
    readonly at: Sheet;
    readonly before: Sheet | null;
  }> {
    let number = last ?? Math.max(0, (await firstFree()) - 1);
    let before: Sheet | null = null;
    let at = await sheet(number);
    while (at.leaves.length === LEAVES_A_SHEET) {
      before = at;
      at = await sheet(++number);
    }
    last = number;
    if (at.leaves.length === 0 && before === null && number > 0) before = await sheet(number - 1);
    return { number, at, before };
  }

  return {
    async append(leaf) {
      if (leafBytes(leaf).length > MOST_LEAF_BYTES) throw new RangeError('the leaf is too long');
      for (let tries = 1; ; tries++) {
        const { number, at, before } = await open();
        if (at.leaves.includes(leaf) || before?.leaves.includes(leaf)) return;
        try {
          await documents.put({
            kind: 'log',
            id: sheetId(number),
            revision: at.document?.revision ?? 0,
            savedUtcMs: utcMs(),
            body: [...at.leaves, leaf],
          });
          return;
        } catch (cause) {
          if (!(cause instanceof StoreError && cause.code === 'stale') || tries === MOST_TRIES) throw cause;
        }
      }
    },
    async newest(is) {
      const { number } = await open();
      for (let n = number; n >= 0 && n > number - SHEETS_BACK; n--) {
        const found = (await sheet(n)).leaves.findLast(is);
        if (found !== undefined) return found;
      }
      return null;
    },
    async *from(index) {
      for (let number = Math.floor(index / LEAVES_A_SHEET); ; number++) {
        const { document, leaves } = await sheet(number);
        if (document === null) return;
        const first = number * LEAVES_A_SHEET;
        const skip = Math.max(0, index - first);
        if (leaves.length > skip) yield { index: first + skip, leaves: leaves.slice(skip) };
        if (leaves.length < LEAVES_A_SHEET) return;
      }
    },
  };
}
