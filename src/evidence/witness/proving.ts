/** What a sealed run's file carries of this installation's witness log, made from the log as it stands. */
import { sameBytes } from '../../record/bytes.ts';
import { fromHex, toHex } from '../../record/hex.ts';
import { type LogName, type Manifest, parseManifest } from '../../record/manifest.ts';
import type { Sealed } from '../../record/seal.ts';
import { keepProof } from '../../record/stores/sealed-store.ts';
import { type Leaf, type Placed, runHash } from '../../record/witness/leaves.ts';
import type { MerkleTree } from '../../record/witness/merkle.ts';
import { parseNote } from '../../record/witness/note.ts';
import {
  type OtherTree,
  type ProofMember,
  proofMembers,
  type RunProof,
} from '../../record/witness/run-proof.ts';
import type { EvidenceDeps } from '../deps.ts';
import type { Given, OwnLog } from './own-log.ts';

/** As a manifest names it. */
export async function logName(log: OwnLog): Promise<LogName> {
  const { name, publicKey } = await log.key();
  return { origin: name, publicKey: toHex(publicKey) };
}

/** More trees between are not proved in one file. */
const MOST_BETWEEN = 400;

/** Notes the sealing and each addition, where they are not noted yet. */
async function noteSealed(deps: EvidenceDeps, log: OwnLog, run: string, sealed: Sealed): Promise<void> {
  const there = await log.ofRun(run);
  const at = (): number => Math.round(deps.utcMs());
  const sha256Of = async (bytes: Uint8Array): Promise<string> => toHex(await deps.crypto.sha256(bytes));
  const missing = async (leaf: Leaf, is: (l: Leaf) => boolean): Promise<void> => {
    if (!there.some((p) => is(p.leaf))) await log.append(leaf);
  };
  const manifest = await sha256Of(sealed.manifest);
  await missing(
    { leaf: 'sealed', at: at(), run, manifest },
    (l) => l.leaf === 'sealed' && l.manifest === manifest,
  );
  for (const { statement } of sealed.additions) {
    const addition = await sha256Of(statement);
    await missing(
      { leaf: 'added', at: at(), run, addition },
      (l) => l.leaf === 'added' && l.addition === addition,
    );
  }
}

const cosignatures = (given: readonly Given[]): readonly Given[] =>
  given.filter((g) => g.by.what === 'cosignature');

/** The keys that signed any of these notes, each once. */
function keysFor(given: readonly Given[], notes: readonly (string | null)[]): Uint8Array[] {
  const names = new Set(
    notes.flatMap((n) => (n === null ? [] : parseNote(n)!.signatures.map((s) => s.name))),
  );
  const keys = new Map<string, Uint8Array>();
  for (const { by, note } of given) {
    if (by.what !== 'cosignature') continue;
    const signed = parseNote(note)?.signatures.some((s) => names.has(s.name)) ?? false;
    const key = fromHex(by.publicKey);
    if (signed && key !== null) keys.set(by.publicKey, key);
  }
  return [...keys.values()].slice(0, 16);
}

const treeBeside = (tree: MerkleTree, size: number, after: number): OtherTree => ({
  size,
  root: tree.root(size),
  path: size <= after ? tree.consistency(size, after) : tree.consistency(after, size),
});

/** The proof of a run whose leaves these are, oldest first. */
async function prove(
  log: OwnLog,
  own: readonly Placed[],
  { seen: named }: Pick<Manifest, 'seen'>,
): Promise<RunProof> {
  const given = await log.given();
  const shown = await log.shown();
  const tree = await log.tree();
  const { publicKey } = await log.key();
  const [first, last] = [own[0]!, own.at(-1)!];
  const whole = last.index + 1;
  const sealedAt = own.findLast((p) => p.leaf.leaf === 'sealed')?.index ?? last.index;
  const smallest = (list: readonly Given[], from: number): Given | null =>
    list.filter((g) => g.size >= from && g.size <= tree.size).sort((a, b) => a.size - b.size)[0] ?? null;
  // The tree that a witness saw first says most of when; without one the smallest that holds all of it.
  const after = smallest(cosignatures(given), whole)?.size ?? whole;
  const stamped = smallest(
    given.filter((g) => g.by.what === 'stamp'),
    sealedAt + 1,
  );
  // What the run's first page names: its leaf, and the note itself.
  let seenLeaf: Placed | null = null;
  for await (const p of log.leaves()) {
    if (named === null || seenLeaf !== null || p.index >= first.index) break;
    if (p.leaf.leaf === 'witnessed' && p.leaf.sha256 === named) seenLeaf = p;
  }
  const seen = seenLeaf === null ? null : (given.find((g) => g.sha256 === named) ?? null);
  const leaves = [...(seen === null || seenLeaf === null ? [] : [seenLeaf]), ...own].map(
    ({ index, text }) => ({
      index,
      text,
      path: tree.inclusion(index, after),
    }),
  );
  const ended = own.findLast((p) => p.leaf.leaf === 'ended');
  const sizes = new Set([
    first.index,
    first.index + 1,
    ...(ended === undefined ? [] : [ended.index + 1]),
    ...(stamped === null ? [] : [stamped.size]),
    ...shown.filter((n) => n >= first.index && n <= after).slice(-MOST_BETWEEN),
  ]);
  sizes.delete(after);
  const [before, afterNote] = [await log.note(first.index), await log.note(after)];
  const keys = keysFor(given, [before, afterNote, seen?.note ?? null]);
  return {
    before,
    after: afterNote,
    logKey: publicKey,
    leaves,
    // The tree before the run, of which `before` tells, may be the one after another's.
    trees: [...sizes].sort((a, b) => a - b).map((size) => treeBeside(tree, size, after)),
    seen: seen?.note ?? null,
    stamp: stamped?.by.what === 'stamp' ? { text: stamped.note, response: stamped.by.response } : null,
    keys,
  };
}

const sameMembers = (a: readonly ProofMember[], b: readonly ProofMember[]): boolean =>
  a.length === b.length && a.every((m, i) => m.name === b[i]!.name && sameBytes(m.bytes, b[i]!.bytes));

/**
 * The sealed record with what the log says of it today, kept with it. A record of another installation's log keeps what it
 * came with.
 */
export async function proved(
  deps: EvidenceDeps,
  log: OwnLog,
  runId: string,
  sealed: Sealed,
): Promise<Sealed> {
  const read = parseManifest(sealed.manifest);
  if (!read.ok || read.manifest.log === null) return sealed;
  const { manifest } = read;
  if (manifest.log?.origin !== (await log.key()).name) return sealed;
  const run = runHash(deps.crypto.hashing, manifest.runId);
  await noteSealed(deps, log, run, sealed);
  const proof = proofMembers(deps.crypto.hashing, await prove(log, await log.ofRun(run), manifest));
  if (sameMembers(proof, sealed.proof)) return sealed;
  await keepProof(deps.documents, runId, proof);
  return { ...sealed, proof };
}
