/**
 * What the leaves of an installation's witness log say: canonical JSON, small, and no names, so that a log which is shown to
 * strangers does not tell on a client. A run's id is 122 random bits and stands in every page and manifest: its hash, and
 * theirs, are told by nobody who has not the record.
 */
import * as z from 'zod/mini';
import { canonicalBytes, parseCanonical } from '../canonical.ts';
import type { Sha256 } from '../hashing.ts';
import { toHex } from '../hex.ts';

/** Longest leaf, bytes. */
export const MOST_LEAF_BYTES = 1024;

const hash = z.string().check(z.regex(/^[0-9a-f]{64}$/));
const count = z.number().check(z.refine((v) => Number.isSafeInteger(v) && v >= 0));
/** UTC in ms, by the clock of who appended it. */
const at = count;
/** A page of the run by its number, and the page's SHA-256: it stands for all pages up to it. */
const head = { at, run: hash, page: count, head: hash };

const schema = z.discriminatedUnion('leaf', [
  z.strictObject({ leaf: z.literal('opened'), at, run: hash, practice: z.boolean() }),
  z.strictObject({ leaf: z.literal('head'), ...head }),
  z.strictObject({ leaf: z.literal('resumed'), ...head }),
  z.strictObject({ leaf: z.literal('ended'), ...head }),
  z.strictObject({ leaf: z.literal('sealed'), at, run: hash, manifest: hash }),
  z.strictObject({ leaf: z.literal('added'), at, run: hash, addition: hash }),
  /** The fingerprint of a signing key that begins to sign here. */
  z.strictObject({ leaf: z.literal('key'), at, key: hash, why: z.enum(['first', 'changed', 'after-loss']) }),
  z.strictObject({ leaf: z.literal('backup'), at, backup: hash }),
  z.strictObject({ leaf: z.literal('restored'), at, backup: hash }),
  /** SHA-256 of what a witness gave for an earlier tree of this log: what follows came after that. */
  z.strictObject({ leaf: z.literal('witnessed'), at, what: z.enum(['cosignature', 'stamp']), sha256: hash }),
]);

export type Leaf = z.infer<typeof schema>;
export type LeafKind = Leaf['leaf'];
export type RunLeaf = Extract<Leaf, { run: string }>;

export const isOfRun = (leaf: Leaf): leaf is RunLeaf => 'run' in leaf;

/** A run as leaves name it: the SHA-256 of its id, hex. */
export const runHash = (sha256: Sha256, runId: string): string =>
  toHex(sha256.of(new TextEncoder().encode(runId)));

const utf8 = new TextEncoder();
export const leafBytes = (text: string): Uint8Array => utf8.encode(text);

export const leafText = (leaf: Leaf): string => new TextDecoder().decode(canonicalBytes(leaf));

/** null for whatever is no leaf that this version knows. */
export function readLeaf(text: string): Leaf | null {
  const bytes = leafBytes(text);
  if (bytes.length > MOST_LEAF_BYTES) return null;
  const read = schema.safeParse(parseCanonical(bytes));
  return read.success ? read.data : null;
}

/** A leaf with its place in the log. */
export interface Placed<L extends Leaf = Leaf> {
  readonly index: number;
  readonly leaf: L;
  readonly text: string;
}
