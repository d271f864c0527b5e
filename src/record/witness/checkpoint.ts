/** Checkpoints as C2SP's tlog-checkpoint writes them down: whose log, how long it is, and its tree's root. */
import { fromBase64, toBase64 } from '../base64.ts';
import { MOST_LEAVES } from './merkle.ts';
import { isKeyName } from './note.ts';

const ROOT_BYTES = 32;

export interface Checkpoint {
  /** Whose log it is; by convention a name that looks like a web address without its scheme. */
  readonly origin: string;
  /** Leaves. */
  readonly size: number;
  /** 32 bytes. */
  readonly root: Uint8Array;
}

/** The text that is signed. Lines of extension are never written here. @throws RangeError on what no checkpoint has */
export function checkpointText({ origin, size, root }: Checkpoint): string {
  if (!isKeyName(origin)) throw new RangeError(`'${origin}' names no log`);
  if (!Number.isInteger(size) || size < 0 || size > MOST_LEAVES) throw new RangeError(`${size} is no size`);
  if (root.length !== ROOT_BYTES) throw new RangeError('a root has 32 bytes');
  return `${origin}\n${size}\n${toBase64(root)}\n`;
}

/** null for whatever is no checkpoint; lines of extension behind the root are let pass, as the form asks. */
export function parseCheckpoint(text: string): Checkpoint | null {
  const lines = text.split('\n');
  if (lines.length < 4 || lines.at(-1) !== '' || lines.slice(0, -1).includes('')) return null;
  const [origin, size, base64] = lines as [string, string, string];
  if (!isKeyName(origin) || !/^(?:0|[1-9][0-9]{0,9})$/.test(size) || Number(size) > MOST_LEAVES) return null;
  const root = fromBase64(base64);
  if (root === null || root.length !== ROOT_BYTES) return null;
  return { origin, size: Number(size), root };
}

const SHORT = 8;

/** The first signs of the root, for whoever compares by eye; the same in a note and in its text. Empty: no checkpoint. */
export const shortForm = (note: string): string => note.split('\n')[2]?.slice(0, SHORT) ?? '';
