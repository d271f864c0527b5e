/** Checks of what a record's file carries of the log, against the record: what does not hold, and what holds bounds when. */
import { sameBytes } from '../bytes.ts';
import { toHex } from '../hex.ts';
import type { Manifest } from '../manifest.ts';
import type { Sealed } from '../seal.ts';
import type { RecordCrypto } from '../signing.ts';
import { type Checkpoint, checkpointText, parseCheckpoint } from './checkpoint.ts';
import { type Leaf, leafBytes, type Placed, type RunLeaf, readLeaf, runHash } from './leaves.ts';
import { isConsistent, isIncluded, leafHash } from './merkle.ts';
import { keyFingerprint, noteName } from './names.ts';
import { checkNote, KEY_TYPE, type NoteKey, parseNote } from './note.ts';
import { checkpointIn, type RunProof, readProof } from './run-proof.ts';
import { readStamp } from './time-stamp.ts';

export type ProofFault =
  | 'form' // not of the form that these files have
  | 'key' // the log's key is not the one that the manifest names
  | 'note' // a checkpoint that its log did not sign, or that a witness did not
  | 'inclusion' // a leaf that the checkpoint does not hold
  | 'consistency' // a tree that is not the beginning of the other
  | 'content' // the leaves speak of another record, or the checkpoint before the run is not the one right before it
  | 'twice' // the run was sealed more than once
  | 'addition' // an addition was noted that the file has not
  | 'stamp'; // the time stamp is of something else

/** By whom a time is bounded. */
export interface TimeBound {
  /** Fingerprint of the witness's key; null: an authority for time stamps, whose signature openssl checks. */
  readonly fingerprint: string | null;
  readonly utcMs: number;
}

/** What the log and its witnesses say of a record, where it holds. */
export interface Witnessed {
  readonly origin: string;
  /** Leaves of the trees before and after the run. */
  readonly before: number;
  readonly after: number;
  /** Heads of the chain that were noted while it ran. */
  readonly heads: number;
  /** Times by the installation's own clock; null: not noted. */
  readonly openedUtcMs: number | null;
  readonly endedUtcMs: number | null;
  readonly sealedUtcMs: number | null;
  /** The run was noted as opened after each of these times. */
  readonly notBefore: readonly TimeBound[];
  /** The sealed record was noted before each of these. */
  readonly notAfter: readonly TimeBound[];
}

export interface ProofSubject {
  readonly manifest: Manifest;
  /** Hex. */
  readonly manifestSha256: string;
  /** SHA-256 of each addition, hex. */
  readonly additions: readonly string[];
  /** SHA-256 of a page, hex; null where there is none, or pages were not read. */
  pageHash(page: number): string | null;
}

export interface ProofCheck {
  readonly faults: readonly ProofFault[];
  readonly witnessed: Witnessed;
  /** Trees that checkpoints elsewhere can be held against, by their number of leaves. */
  readonly trees: ReadonlyMap<number, Uint8Array>;
}

/** @throws SigningUnsupported where the platform has no Ed25519 */
export async function checkProof(
  crypto: RecordCrypto,
  proof: RunProof,
  subject: ProofSubject,
): Promise<ProofCheck> {
  const faults = new Set<ProofFault>();
  const { hashing } = crypto;
  const { manifest } = subject;
  const origin = noteName(hashing, 'log', proof.logKey);
  if (manifest.log?.publicKey !== toHex(proof.logKey) || manifest.log.origin !== origin) faults.add('key');
  const keys: NoteKey[] = [
    { name: origin, type: KEY_TYPE.plain, publicKey: proof.logKey },
    ...proof.keys.map((publicKey) => ({
      name: noteName(hashing, 'witness', publicKey),
      type: KEY_TYPE.cosignature,
      publicKey,
    })),
  ];
  /** By whom a checkpoint of this log was cosigned, and when. */
  async function cosigned(note: string): Promise<readonly TimeBound[]> {
    const check = await checkNote(crypto, parseNote(note)!, keys);
    if (!check.ok || checkpointIn(note).origin !== origin || !check.held.some((h) => h.timeS === null)) {
      faults.add('note');
      return [];
    }
    return check.held.flatMap(({ key, timeS }) =>
      timeS === null ? [] : [{ fingerprint: keyFingerprint(hashing, key.publicKey), utcMs: timeS * 1000 }],
    );
  }
  const [before, after] = [checkpointIn(proof.before), checkpointIn(proof.after)];
  await cosigned(proof.before);
  const notAfter = [...(await cosigned(proof.after))];

  const trees = new Map<number, Uint8Array>([[after.size, after.root]]);
  for (const tree of proof.trees) {
    const [older, newer] = tree.size <= after.size ? [tree, after] : [after, tree];
    if (isConsistent(hashing, older, newer, tree.path)) trees.set(tree.size, tree.root);
    else faults.add('consistency');
  }
  const stands = (c: Pick<Checkpoint, 'size' | 'root'>): boolean => {
    const root = trees.get(c.size);
    return root !== undefined && sameBytes(root, c.root);
  };
  if (!stands(before)) faults.add('consistency');

  const placed: Placed[] = [];
  for (const { index, text, path } of proof.leaves) {
    const hash = leafHash(hashing, leafBytes(text));
    if (!isIncluded(hashing, { hash, index }, after, path)) faults.add('inclusion');
    const leaf = readLeaf(text);
    if (leaf === null || index <= (placed.at(-1)?.index ?? -1)) faults.add('form');
    else placed.push({ index, leaf, text });
  }
  const run = runHash(hashing, manifest.runId);
  const own = placed.filter((p): p is Placed<RunLeaf> => 'run' in p.leaf && p.leaf.run === run);
  for (const p of placed)
    if (!own.includes(p as Placed<RunLeaf>) && p.leaf.leaf !== 'witnessed') faults.add('form');
  for (const fault of contentFaults(own, subject, before)) faults.add(fault);

  const first = own[0];
  let notBefore: readonly TimeBound[] = [];
  if (proof.seen !== null) {
    const sha256 = toHex(hashing.of(new TextEncoder().encode(proof.seen)));
    const noted = placed.find((p) => p.leaf.leaf === 'witnessed' && p.leaf.sha256 === sha256);
    // A log can be made to say anything of when a run was opened. That its first page names what a witness signed can't be
    // said of a page that was there before.
    if (noted === undefined || first === undefined || noted.index >= first.index || manifest.seen !== sha256)
      faults.add('content');
    else notBefore = await cosigned(proof.seen);
  }
  if (proof.stamp !== null) {
    const utcMs = stampedAt(
      crypto,
      proof,
      stands,
      origin,
      own.find((p) => p.leaf.leaf === 'sealed')?.index ?? null,
    );
    if (utcMs === null) faults.add('stamp');
    else notAfter.push({ fingerprint: null, utcMs });
  }
  const timeOf = (kind: Leaf['leaf']): number | null =>
    own.findLast((p) => p.leaf.leaf === kind)?.leaf.at ?? null;
  const witnessed: Witnessed = {
    origin,
    before: before.size,
    after: after.size,
    heads: own.filter((p) => p.leaf.leaf === 'head').length,
    openedUtcMs: timeOf('opened'),
    endedUtcMs: timeOf('ended'),
    sealedUtcMs: timeOf('sealed'),
    notBefore,
    notAfter,
  };
  return { faults: [...faults], witnessed, trees };
}

/** Whether what was noted is of this record. */
function contentFaults(
  own: readonly Placed<RunLeaf>[],
  { manifest, manifestSha256, additions, pageHash }: ProofSubject,
  before: Checkpoint,
): readonly ProofFault[] {
  const faults: ProofFault[] = [];
  const first = own[0];
  // Right before it: an older one, of a tree that is as genuine, would leave open what was noted between.
  if (first === undefined || before.size !== first.index) faults.push('content');
  const sealed = new Set(own.flatMap((p) => (p.leaf.leaf === 'sealed' ? [p.leaf.manifest] : [])));
  if (sealed.size > 1) faults.push('twice');
  if (!sealed.has(manifestSha256)) faults.push('content');
  const { count, damage } = manifest.pages;
  const end = damage.reduce((sum, d) => sum + d.pages, count);
  for (const { leaf } of own) {
    // It was noted when there were more pages than are left of it.
    if ('page' in leaf && leaf.page >= end) faults.push('content');
    // What is opened as practice is never a job's record.
    if (leaf.leaf === 'opened' && leaf.practice) faults.push('content');
    if (leaf.leaf === 'added' && !additions.includes(leaf.addition)) faults.push('addition');
    if (leaf.leaf === 'ended' && leaf.head !== manifest.pages.chainHead) faults.push('content');
    if (leaf.leaf === 'head' || leaf.leaf === 'resumed') {
      const there = pageHash(leaf.page);
      if (there !== null && there !== leaf.head) faults.push('content');
    }
  }
  return faults;
}

/** UTC in ms of a stamp over a tree of this log that holds the sealed record; null where it is of something else. */
function stampedAt(
  { hashing }: RecordCrypto,
  { stamp }: RunProof,
  stands: (c: Checkpoint) => boolean,
  origin: string,
  sealedIndex: number | null,
): number | null {
  if (stamp === null || sealedIndex === null) return null;
  const checkpoint = parseCheckpoint(stamp.text);
  if (
    checkpoint === null ||
    checkpoint.origin !== origin ||
    !stands(checkpoint) ||
    checkpoint.size <= sealedIndex
  )
    return null;
  const read = readStamp(stamp.response);
  const text = new TextEncoder().encode(checkpointText(checkpoint));
  return read.ok && sameBytes(read.stamp.sha256, hashing.of(text)) ? read.stamp.utcMs : null;
}

/**
 * What a sealed record carries of a log, held against it; its pages were held against its seal elsewhere. null where it has
 * not the form.
 */
export async function checkSealedProof(
  crypto: RecordCrypto,
  sealed: Sealed,
  manifest: Manifest,
): Promise<ProofCheck | null> {
  const proof = readProof(crypto.hashing, new Map(sealed.proof.map((m) => [m.name, m.bytes])));
  if (proof === null) return null;
  const sha256Of = async (bytes: Uint8Array): Promise<string> => toHex(await crypto.sha256(bytes));
  const additions = await Promise.all(sealed.additions.map((a) => sha256Of(a.statement)));
  const manifestSha256 = await sha256Of(sealed.manifest);
  return checkProof(crypto, proof, { manifest, manifestSha256, additions, pageHash: () => null });
}
