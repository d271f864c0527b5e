/** Whether two checkpoints are of one history: a photograph of one and a record's file, or two of one log. */
import { sameBytes } from '../bytes.ts';
import type { RecordCrypto } from '../signing.ts';
import type { FileProof } from '../verify-witness.ts';
import { type Checkpoint, parseCheckpoint } from './checkpoint.ts';
import { readLeaf } from './leaves.ts';
import type { MerkleTree } from './merkle.ts';
import { noteName } from './names.ts';
import { checkNote, KEY_TYPE, MOST_NOTE_CHARS, parseNote } from './note.ts';

export type Comparison =
  /** The text is no signed checkpoint. */
  | { readonly c: 'no-checkpoint' }
  /** It is of another log than the one that it is held against. */
  | { readonly c: 'other-log'; readonly origin: string }
  /** Its log did not sign it so. */
  | { readonly c: 'unsigned'; readonly size: number }
  /** One is the beginning of the other. */
  | {
      readonly c: 'same-history';
      readonly size: number;
      /** What the checkpoint holds of the record: nothing yet, a part of the run, all with the sealing; null: no record. */
      readonly holds: 'nothing' | 'part' | 'sealed' | null;
    }
  /** Two histories of one log: something was exchanged, or left out. */
  | { readonly c: 'another-history'; readonly size: number }
  /** The log is shorter than the checkpoint that it signed: what came after was taken away. */
  | { readonly c: 'shorter'; readonly size: number; readonly now: number }
  /** Nothing here proves it either way. */
  | { readonly c: 'not-told'; readonly size: number };

/** A text as it comes from a code or a mail: line ends and white space around it are nobody's statement. */
export const tidied = (text: string): string => `${text.replace(/\r\n?/g, '\n').trim()}\n`;

type Read = { readonly note: string; readonly checkpoint: Checkpoint };

function read(text: string): Read | null {
  const note = text.length > MOST_NOTE_CHARS ? '' : tidied(text);
  const parsed = parseNote(note);
  const checkpoint = parsed === null ? null : parseCheckpoint(parsed.text);
  return checkpoint === null ? null : { note, checkpoint };
}

/** @param logKey the log's, 32 bytes. Another's is another log. */
async function checked(
  crypto: RecordCrypto,
  text: string,
  logKey: Uint8Array,
): Promise<
  { readonly ok: true; readonly checkpoint: Checkpoint } | { readonly ok: false; readonly why: Comparison }
> {
  const found = read(text);
  if (found === null) return { ok: false, why: { c: 'no-checkpoint' } };
  const { checkpoint, note } = found;
  const name = noteName(crypto.hashing, 'log', logKey);
  if (checkpoint.origin !== name) return { ok: false, why: { c: 'other-log', origin: checkpoint.origin } };
  const held = await checkNote(crypto, parseNote(note)!, [{ name, type: KEY_TYPE.plain, publicKey: logKey }]);
  if (!held.ok || held.held.length === 0) return { ok: false, why: { c: 'unsigned', size: checkpoint.size } };
  return { ok: true, checkpoint };
}

/** A checkpoint's text against what a record's file carries. @param file a proof in which nothing was at fault */
export async function compareWithFile(
  crypto: RecordCrypto,
  text: string,
  { proof, check }: FileProof,
): Promise<Comparison> {
  const its = await checked(crypto, text, proof.logKey);
  if (!its.ok) return its.why;
  const { size, root } = its.checkpoint;
  const there = check.trees.get(size);
  if (there === undefined) return { c: 'not-told', size };
  if (!sameBytes(there, root)) return { c: 'another-history', size };
  const run = proof.leaves.filter((l) => {
    const leaf = readLeaf(l.text);
    return leaf !== null && 'run' in leaf;
  });
  const sealed = run.find((l) => readLeaf(l.text)?.leaf === 'sealed');
  const holds =
    sealed !== undefined && size > sealed.index
      ? 'sealed'
      : size > (run[0]?.index ?? size)
        ? 'part'
        : 'nothing';
  return { c: 'same-history', size, holds };
}

/** A checkpoint's text against the leaves of its log. */
export async function compareWithLog(
  crypto: RecordCrypto,
  text: string,
  logKey: Uint8Array,
  tree: MerkleTree,
): Promise<Comparison> {
  const its = await checked(crypto, text, logKey);
  if (!its.ok) return its.why;
  const { size, root } = its.checkpoint;
  if (size > tree.size) return { c: 'shorter', size, now: tree.size };
  return sameBytes(tree.root(size), root)
    ? { c: 'same-history', size, holds: null }
    : { c: 'another-history', size };
}

/**
 * Two checkpoints of one log, with the leaves of the log where they are at hand.
 * @param tree null: only checkpoints of one size can be told apart
 */
export async function compareTwo(
  crypto: RecordCrypto,
  a: string,
  b: string,
  logKey: Uint8Array,
  tree: MerkleTree | null,
): Promise<Comparison> {
  const [one, two] = [await checked(crypto, a, logKey), await checked(crypto, b, logKey)];
  if (!one.ok) return one.why;
  if (!two.ok) return two.why;
  const { size, root } = two.checkpoint;
  if (one.checkpoint.size === size)
    return sameBytes(one.checkpoint.root, root)
      ? { c: 'same-history', size, holds: null }
      : { c: 'another-history', size };
  if (tree === null) return { c: 'not-told', size };
  const first = await compareWithLog(crypto, a, logKey, tree);
  return first.c === 'same-history' ? compareWithLog(crypto, b, logKey, tree) : first;
}
