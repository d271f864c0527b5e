/** One thing of a backup, and how it stands to what is here. */
import { keptEnclosedIn } from '../../job/enclosed.ts';
import { type BackupDocument, bodyText } from '../../record/backup.ts';
import { toHex } from '../../record/hex.ts';
import type { SealedAddition } from '../../record/seal.ts';
import type { EvidenceDeps } from '../deps.ts';
import type { BackupGroup, RefusedWhy, RestoreFate } from './messages.ts';
import type { BackupFile } from './open.ts';

/** One thing of the backup: a document, a run's pages with their label, its seal, its additions, its decisions. */
export interface Thing {
  readonly group: BackupGroup;
  readonly id: string;
  readonly title: string;
  readonly fate: RestoreFate;
  readonly why: RefusedWhy | null;
  /** Documents with the text of what they would take the place of; null: nothing is there. */
  readonly puts: readonly Put[];
  readonly files: readonly BackupFile[];
  /** Of a seal: whose it is, and when it was made. */
  readonly seal?: {
    readonly fingerprint: string;
    /** What the run's line in the list says of it. */
    readonly label: { readonly sealedUtcMs: number; readonly sentUtcMs?: number };
  };
  /** Of additions: those that the record here has not yet, each with the fingerprint of its key. */
  readonly additions?: readonly { readonly signed: SealedAddition; readonly fingerprint: string }[];
}

export interface Put {
  readonly document: BackupDocument;
  /** SHA-256 of the body that rests here now, hex; null: none. */
  readonly over: string | null;
}

/** How theirs stands to mine, where both only ever grow at their end. */
export function growth(mine: readonly string[], theirs: readonly string[]): RestoreFate {
  const common = Math.min(mine.length, theirs.length);
  for (let i = 0; i < common; i++) if (mine[i] !== theirs[i]) return 'differs';
  return theirs.length > mine.length ? 'grows' : 'same';
}

export function reviewFate(mine: unknown, theirs: unknown): RestoreFate {
  const lines = (v: unknown) => ((v as { lines?: unknown[] } | null)?.lines ?? []).map((l) => bodyText(l));
  return growth(lines(mine), lines(theirs));
}

/** Of photographs and signatures by hand: both lists only grow, until somebody removes one. */
export function enclosedFate(mine: unknown, theirs: unknown): RestoreFate {
  const [m, t] = [keptEnclosedIn(mine), keptEnclosedIn(theirs)];
  if (m === null || t === null) return 'differs';
  const texts = (list: readonly unknown[]) => list.map((v) => bodyText(v));
  const fates = [growth(texts(m.photos), texts(t.photos)), growth(texts(m.signed), texts(t.signed))];
  const shrinks = t.photos.length < m.photos.length || t.signed.length < m.signed.length;
  if (fates.includes('differs') || (shrinks && fates.includes('grows'))) return 'differs';
  return fates.includes('grows') ? 'grows' : 'same';
}

export async function bodySha(deps: EvidenceDeps, body: unknown): Promise<string> {
  return toHex(await deps.crypto.sha256(new TextEncoder().encode(bodyText(body))));
}
