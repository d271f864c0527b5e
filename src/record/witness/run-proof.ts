/**
 * What a record's file carries of the log: the checkpoints before and after the run, the run's leaves with their proofs, and
 * what witnesses gave. Members in the folder `witness/`, of one form each: what was read comes out the same again.
 */
import { sameBytes } from '../bytes.ts';
import type { Sha256 } from '../hashing.ts';
import { fromHex, toHex } from '../hex.ts';
import { keyOfPem, pemOf } from '../signing.ts';
import { type Checkpoint, parseCheckpoint } from './checkpoint.ts';
import { MOST_LEAF_BYTES, readLeaf } from './leaves.ts';
import { MOST_LEAVES } from './merkle.ts';
import { keyTag } from './names.ts';
import { MOST_NOTE_CHARS, parseNote } from './note.ts';
import { MOST_STAMP_BYTES } from './time-stamp.ts';

type Hash = Uint8Array;

export const WITNESS_FOLDER = 'witness/';
const NAME = {
  after: `${WITNESS_FOLDER}after.txt`,
  before: `${WITNESS_FOLDER}before.txt`,
  leaves: `${WITNESS_FOLDER}leaves.txt`,
  key: `${WITNESS_FOLDER}log.pem`,
  seen: `${WITNESS_FOLDER}seen.txt`,
  stamp: `${WITNESS_FOLDER}stamp.tsr`,
  stamped: `${WITNESS_FOLDER}stamped.txt`,
  trees: `${WITNESS_FOLDER}trees.txt`,
} as const;
export const LEAVES_FILE = NAME.leaves;
const KEY = /^witness\/([0-9a-f]{16})\.pem$/;

/** Longest member, bytes: a run of eight days has 2400 leaves of at most 2 KiB with their paths. */
export const MOST_PROOF_BYTES = 16 << 20;
const MOST_RUN_LEAVES = 8192;
const MOST_TREES = 512;
const MOST_KEYS = 16;
/** A path is as long as the logarithm of the log. */
const MOST_PATH = 64;

export interface ProvedLeaf {
  readonly index: number;
  readonly text: string;
  /** From the leaf to the root of `after`, the nearest first (RFC 9162, 2.1.3.1). */
  readonly path: readonly Hash[];
}

export interface OtherTree {
  readonly size: number;
  readonly root: Hash;
  /** That the smaller of it and `after` is the beginning of the other (RFC 9162, 2.1.4.1). */
  readonly path: readonly Hash[];
}

export interface RunProof {
  /** Signed notes. */
  readonly before: string;
  readonly after: string;
  /** 32 bytes. */
  readonly logKey: Uint8Array;
  readonly leaves: readonly ProvedLeaf[];
  readonly trees: readonly OtherTree[];
  /** A note of an earlier tree with a cosignature, whose hash is among the leaves before the run; null: there is none. */
  readonly seen: string | null;
  /** The text of a checkpoint (not its note) and what an authority for time stamps gave for it. */
  readonly stamp: { readonly text: string; readonly response: Uint8Array } | null;
  /** Of the witnesses that cosigned. */
  readonly keys: readonly Uint8Array[];
}

export interface ProofMember {
  readonly name: string;
  readonly bytes: Uint8Array;
}

const utf8 = new TextEncoder();
const hexes = (path: readonly Hash[]): string => path.map((h) => ` ${toHex(h)}`).join('');

/** By name. @throws RangeError on more than a record carries */
export function proofMembers(sha256: Sha256, proof: RunProof): readonly ProofMember[] {
  if (
    proof.leaves.length > MOST_RUN_LEAVES ||
    proof.trees.length > MOST_TREES ||
    proof.keys.length > MOST_KEYS
  )
    throw new RangeError('more proofs than a record carries');
  const text = (name: string, content: string): ProofMember => ({ name, bytes: utf8.encode(content) });
  const members = [
    text(NAME.after, proof.after),
    text(NAME.before, proof.before),
    text(NAME.leaves, proof.leaves.map((l) => `${l.index} ${l.text}${hexes(l.path)}\n`).join('')),
    text(NAME.key, pemOf(proof.logKey)),
    text(NAME.trees, proof.trees.map((t) => `${t.size} ${toHex(t.root)}${hexes(t.path)}\n`).join('')),
    ...proof.keys.map((k) => text(`${WITNESS_FOLDER}${keyTag(sha256, k)}.pem`, pemOf(k))),
  ];
  if (proof.seen !== null) members.push(text(NAME.seen, proof.seen));
  if (proof.stamp !== null) {
    members.push(text(NAME.stamped, proof.stamp.text));
    members.push({ name: NAME.stamp, bytes: proof.stamp.response });
  }
  return members.sort((a, b) => (a.name < b.name ? -1 : 1));
}

const hashOf = (text: string | undefined): Hash | null => {
  const bytes = text === undefined ? null : fromHex(text);
  return bytes?.length === 32 ? bytes : null;
};

function pathOf(texts: readonly string[]): Hash[] | null {
  if (texts.length > MOST_PATH) return null;
  const path = texts.map(hashOf);
  return path.every((h) => h !== null) ? path : null;
}

const numberOf = (text: string | undefined): number | null =>
  text !== undefined && /^(?:0|[1-9][0-9]{0,8})$/.test(text) && Number(text) <= MOST_LEAVES
    ? Number(text)
    : null;

function linesOf<T>(text: string, most: number, read: (words: readonly string[]) => T | null): T[] | null {
  const lines = text.split('\n');
  if (lines.pop() !== '' || lines.length > most) return null;
  const out: T[] = [];
  for (const line of lines) {
    const one = read(line.split(' '));
    if (one === null) return null;
    out.push(one);
  }
  return out;
}

const isCheckpointNote = (note: string): boolean => {
  const read = note.length > MOST_NOTE_CHARS ? null : parseNote(note);
  return read !== null && parseCheckpoint(read.text) !== null;
};

/** Leaves as they stand in their member; null where it has not its form. */
export function readLeaves(bytes: Uint8Array): readonly ProvedLeaf[] | null {
  if (bytes.length > MOST_PROOF_BYTES) return null;
  return linesOf(textIn(bytes), MOST_RUN_LEAVES, ([n, leaf, ...rest]) => {
    const [index, path] = [numberOf(n), pathOf(rest)];
    if (index === null || path === null || leaf === undefined || leaf.length > MOST_LEAF_BYTES) return null;
    return { index, text: leaf, path };
  });
}

const textIn = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

/** @param members of the folder, by name. null for whatever is not of the one form */
export function readProof(sha256: Sha256, members: ReadonlyMap<string, Uint8Array>): RunProof | null {
  for (const bytes of members.values()) if (bytes.length > MOST_PROOF_BYTES) return null;
  const text = (name: string): string | null => {
    const bytes = members.get(name);
    return bytes === undefined ? null : textIn(bytes);
  };
  const [before, after, seen] = [text(NAME.before), text(NAME.after), text(NAME.seen)];
  const logKey = keyOfPem(text(NAME.key) ?? '');
  const leaves = readLeaves(members.get(NAME.leaves) ?? Uint8Array.of(0));
  const trees = linesOf(text(NAME.trees) ?? '-', MOST_TREES, ([n, r, ...rest]) => {
    const [size, root, path] = [numberOf(n), hashOf(r), pathOf(rest)];
    return size === null || root === null || path === null ? null : { size, root, path };
  });
  const keys: Uint8Array[] = [];
  for (const name of [...members.keys()].sort()) {
    if (!KEY.test(name)) continue;
    const key = keyOfPem(text(name)!);
    if (key === null) return null;
    keys.push(key);
  }
  if (before === null || after === null || logKey === null || leaves === null || trees === null) return null;
  for (const note of [before, after, ...(seen === null ? [] : [seen])])
    if (!isCheckpointNote(note)) return null;
  const stamped = text(NAME.stamped);
  const response = members.get(NAME.stamp);
  if ((stamped === null) !== (response === undefined)) return null;
  if (stamped !== null && (parseCheckpoint(stamped) === null || response!.length > MOST_STAMP_BYTES))
    return null;
  const stamp = stamped === null ? null : { text: stamped, response: response! };
  const proof: RunProof = { before, after, logKey, leaves, trees, seen, stamp, keys };
  if (keys.length > MOST_KEYS) return null;
  const again = proofMembers(sha256, proof);
  const same =
    again.length === members.size &&
    again.every(({ name, bytes }) => sameBytes(bytes, members.get(name) ?? Uint8Array.of()));
  return same ? proof : null;
}

/** The members without the leaves of additions. */
export function withoutAdded(sha256: Sha256, members: readonly ProofMember[]): readonly ProofMember[] {
  const proof = readProof(sha256, new Map(members.map((m) => [m.name, m.bytes])));
  if (proof === null) return members;
  return proofMembers(sha256, {
    ...proof,
    leaves: proof.leaves.filter((l) => readLeaf(l.text)?.leaf !== 'added'),
  });
}

/** The checkpoint of a note that has the form of one. @throws RangeError on another */
export function checkpointIn(note: string): Checkpoint {
  const read = parseNote(note);
  const checkpoint = read === null ? null : parseCheckpoint(read.text);
  if (checkpoint === null) throw new RangeError('not the note of a checkpoint');
  return checkpoint;
}
