/** Whether a seal out of a backup belongs to the run it is named for, and its additions to it. */
import type { BackupDocument } from '../../record/backup.ts';
import { fromHex } from '../../record/hex.ts';
import { type Manifest, PRACTICE_SCHEMA, parseManifest } from '../../record/manifest.ts';
import { checkAddition, MAX_ADDITIONS, type Sealed, sealedOf } from '../../record/seal.ts';
import { fingerprintOf } from '../../record/signing.ts';
import { checkSealedProof } from '../../record/witness/check-proof.ts';
import type { EvidenceDeps } from '../deps.ts';
import type { RefusedWhy } from './messages.ts';
import { namesRun } from './names.ts';

/** The pages that a seal has to be of. */
export interface RunPages {
  /** Of the head of the pages. */
  readonly runId: string;
  readonly sha256: string;
}

export type CheckedSeal =
  | {
      readonly ok: true;
      readonly sealed: Sealed;
      readonly manifest: Manifest;
      /** Fingerprint of each addition's key, in their order. */
      readonly signers: readonly string[];
    }
  | { readonly ok: false; readonly why: RefusedWhy };

/** Run id, pages, key, signature and the chain of additions agree; whose key it is, is not asked here. */
export async function checkSeal(
  { crypto }: Pick<EvidenceDeps, 'crypto'>,
  { id, body }: BackupDocument,
  pages: RunPages,
): Promise<CheckedSeal> {
  const refuse = (why: RefusedWhy): CheckedSeal => ({ ok: false, why });
  const sealed = sealedOf(body);
  const read = sealed === null ? null : parseManifest(sealed.manifest);
  if (sealed === null || read === null) return refuse('form');
  if (!read.ok) return refuse(read.what === 'version' ? 'future' : 'form');
  const { manifest } = read;
  if (manifest.practice !== (manifest.schema === PRACTICE_SCHEMA)) return refuse('form');
  if (manifest.runId !== pages.runId || !namesRun(id, manifest.runId)) return refuse('other-run');
  if (manifest.pagesSha256 !== pages.sha256) return refuse('pages');
  const key = fromHex(manifest.signer.publicKey)!;
  if ((await fingerprintOf(crypto, key)) !== manifest.signer.fingerprint) return refuse('key');
  if (!(await crypto.verify(key, sealed.manifest, sealed.signature))) return refuse('signature');
  if (sealed.additions.length > MAX_ADDITIONS) return refuse('chain');
  const signers: string[] = [];
  for (let i = 0; i < sealed.additions.length; i++) {
    const addition = await checkAddition(sealed, manifest.runId, i, crypto);
    if (!addition.ok) return refuse('chain');
    signers.push(addition.addition.signer.fingerprint);
  }
  if (sealed.proof.length > 0) {
    const proof = await checkSealedProof(crypto, sealed, manifest);
    if (proof === null || proof.faults.length > 0) return refuse('log');
  }
  return { ok: true, sealed, manifest, signers };
}
