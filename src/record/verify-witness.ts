/** What a record's file carries of the witness log, held against the record. */
import type { ByteSource } from './byte-source.ts';
import { readAll } from './byte-source.ts';
import { apartFromWitnesses } from './clock-apart.ts';
import { toHex } from './hex.ts';
import type { Manifest } from './manifest.ts';
import { isProofName } from './members.ts';
import type { NamedPages } from './signed-heads.ts';
import type { Work } from './verify-derived.ts';
import { checkProof, type ProofCheck } from './witness/check-proof.ts';
import { readLeaf } from './witness/leaves.ts';
import {
  LEAVES_FILE,
  MOST_PROOF_BYTES,
  type ProofMember,
  type RunProof,
  readLeaves,
  readProof,
} from './witness/run-proof.ts';
import { contentOf, type ZipEntry } from './zip-reader.ts';

/** Proofs, notes and the keys of as many witnesses as are taken. */
const MOST_MEMBERS = 32;

/** Hashes of the pages that the log names, taken down as the pages go by. */
export class NotedPages implements NamedPages {
  private readonly hashes = new Map<number, string | null>();

  constructor(pages: readonly number[]) {
    for (const page of pages) this.hashes.set(page, null);
  }

  hashed(page: number, hash: Uint8Array): void {
    if (this.hashes.has(page)) this.hashes.set(page, toHex(hash));
  }

  has(page: number): boolean {
    return this.hashes.has(page);
  }

  hash(page: number): string | null {
    return this.hashes.get(page) ?? null;
  }
}

/** Which pages that are, before they are read. */
export async function notedPages(file: ByteSource, entries: readonly ZipEntry[]): Promise<NotedPages> {
  const entry = entries.find((e) => e.name === LEAVES_FILE);
  if (entry === undefined || entry.size > MOST_PROOF_BYTES) return new NotedPages([]);
  const leaves = readLeaves(await readAll(contentOf(file, entry))) ?? [];
  return new NotedPages(
    leaves.flatMap(({ text }) => {
      const leaf = readLeaf(text);
      return leaf !== null && 'page' in leaf ? [leaf.page] : [];
    }),
  );
}

/** A proof that was read, and what its check found. */
export interface FileProof {
  readonly proof: RunProof;
  readonly check: ProofCheck;
}

/** The members as they stand in the file; null where they are more or longer than a record's. */
export async function proofIn(files: Work['files']): Promise<readonly ProofMember[] | null> {
  const found = [...files].filter(([name]) => isProofName(name));
  if (found.length > MOST_MEMBERS || found.some(([, m]) => m.content.size > MOST_PROOF_BYTES)) return null;
  return Promise.all(found.map(async ([name, m]) => ({ name, bytes: await readAll(m.content) })));
}

/** @param additions SHA-256 of each, hex */
export async function checkWitness(
  { options, findings, remarks }: Work,
  members: readonly ProofMember[] | null,
  manifest: Manifest,
  manifestSha256: string,
  additions: readonly string[],
  pages: NotedPages,
): Promise<FileProof | null> {
  if (members?.length === 0) {
    if (manifest.log === null) remarks.push({ r: 'not-logged' });
    else findings.push({ f: 'missing', file: LEAVES_FILE });
    return null;
  }
  const { crypto, trusted } = options;
  const proof =
    members === null ? null : readProof(crypto.hashing, new Map(members.map((m) => [m.name, m.bytes])));
  if (proof === null) {
    findings.push({ f: 'witness', why: 'form' });
    return null;
  }
  const pageHash = (page: number): string | null => pages.hash(page);
  const check = await checkProof(crypto, proof, { manifest, manifestSha256, additions, pageHash });
  for (const why of check.faults) findings.push({ f: 'witness', why });
  // Nothing that does not hold bounds anything.
  if (check.faults.length > 0) return { proof, check };
  const { notBefore, notAfter, ...logged } = check.witnessed;
  remarks.push({ r: 'logged', ...logged });
  if (notBefore.length + notAfter.length === 0) remarks.push({ r: 'no-witness' });
  for (const [side, bounds] of [
    ['not-before', notBefore],
    ['not-after', notAfter],
  ] as const)
    for (const { fingerprint, utcMs } of bounds)
      remarks.push({
        r: 'bounded',
        side,
        utcMs,
        fingerprint,
        name: fingerprint === null ? null : (trusted.get(fingerprint) ?? null),
      });
  remarks.push(...apartFromWitnesses(manifest, check.witnessed));
  return { proof, check };
}
