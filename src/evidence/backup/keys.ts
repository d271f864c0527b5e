/**
 * The keys that a backup names. What it says of them is nobody's word but the file's: each is shown by its
 * fingerprint, and counts here only if that very fingerprint was chosen.
 */
import { fromHex } from '../../record/hex.ts';
import { fingerprintOf } from '../../record/signing.ts';
import { isKeyFacts, KEY_HISTORY, type KeyFacts, keyHistory } from '../../record/stores/keys.ts';
import type { EvidenceDeps } from '../deps.ts';
import type { KnownSigner } from '../keys/messages.ts';
import { isKnownSigner, KNOWN_KEYS, knownSigners, MOST_KNOWN } from '../signers.ts';
import { bodySha, type Put, type Thing } from './fates.ts';
import type { BackupKey, RestoreChoice } from './messages.ts';
import type { OpenBackup } from './open.ts';

const listed = <T>(backup: OpenBackup, id: string, is: (v: unknown) => v is T): readonly T[] => {
  const body = backup.documents.find((d) => d.kind === 'key' && d.id === id)?.body;
  return Array.isArray(body) ? body.slice(0, MOST_KNOWN).filter(is) : [];
};

/** Keys that signed on that tablet, as it says, whose fingerprint is their own. */
async function ownThere(deps: EvidenceDeps, backup: OpenBackup): Promise<readonly KeyFacts[]> {
  const good: KeyFacts[] = [];
  for (const k of listed(backup, KEY_HISTORY, isKeyFacts))
    if ((await fingerprintOf(deps.crypto, fromHex(k.publicKey)!)) === k.fingerprint) good.push(k);
  return good;
}

const knownThere = (backup: OpenBackup): readonly KnownSigner[] => listed(backup, KNOWN_KEYS, isKnownSigner);

/** Every key that the backup names, in the order: own, known, others that signed something in it. */
export async function keysOf(
  deps: EvidenceDeps,
  backup: OpenBackup,
  things: readonly Thing[],
): Promise<readonly BackupKey[]> {
  const seals = new Map<string, number>();
  const additions = new Map<string, number>();
  const one = (of: Map<string, number>, f: string) => of.set(f, (of.get(f) ?? 0) + 1);
  for (const t of things) {
    if (t.seal !== undefined) one(seals, t.seal.fingerprint);
    for (const a of t.additions ?? []) one(additions, a.fingerprint);
  }
  const counted = (fingerprint: string) => ({
    fingerprint,
    seals: seals.get(fingerprint) ?? 0,
    additions: additions.get(fingerprint) ?? 0,
  });
  const ownHere = new Set((await keyHistory(deps.documents)).map((k) => k.fingerprint));
  const knownHere = new Set((await knownSigners(deps.documents)).map((k) => k.fingerprint));
  const own = (await ownThere(deps, backup)).map(
    (k): BackupKey => ({
      ...counted(k.fingerprint),
      role: 'own',
      name: '',
      sinceUtcMs: k.sinceUtcMs,
      here: ownHere.has(k.fingerprint),
    }),
  );
  const known = knownThere(backup).map(
    (k): BackupKey => ({
      ...counted(k.fingerprint),
      role: 'known',
      name: k.name,
      sinceUtcMs: k.addedUtcMs,
      here: knownHere.has(k.fingerprint),
    }),
  );
  const named = new Set([...own, ...known].map((k) => k.fingerprint));
  const others = new Set([...seals.keys(), ...additions.keys()].filter((f) => !named.has(f)));
  if (backup.manifest.key !== null && !named.has(backup.manifest.key)) others.add(backup.manifest.key);
  const signers = [...others].map(
    (f): BackupKey => ({
      ...counted(f),
      role: 'signer',
      name: '',
      sinceUtcMs: null,
      here: ownHere.has(f) || knownHere.has(f),
    }),
  );
  return [...own, ...known, ...signers];
}

/** The lists of keys with those that were chosen; what is here stays as it is. */
export async function keyPuts(
  deps: EvidenceDeps,
  backup: OpenBackup,
  { own, known }: Pick<RestoreChoice, 'own' | 'known'>,
): Promise<readonly Put[]> {
  const puts: Put[] = [];
  const list = async <T extends { readonly fingerprint: string }>(
    id: string,
    mine: readonly T[],
    theirs: readonly T[],
    chosen: readonly string[],
    together: (fresh: readonly T[]) => readonly T[],
  ): Promise<void> => {
    const here = new Set(mine.map((k) => k.fingerprint));
    const fresh = theirs.filter((k) => chosen.includes(k.fingerprint) && !here.has(k.fingerprint));
    if (fresh.length === 0) return;
    const resting = await deps.documents.get('key', id);
    const over = resting === null ? null : await bodySha(deps, resting.body);
    puts.push({ document: { kind: 'key', id, savedUtcMs: deps.utcMs(), body: together(fresh) }, over });
  };
  const history = await keyHistory(deps.documents);
  // They signed before: the last of the history is the key that signs, or did last, on this tablet.
  await list(KEY_HISTORY, history, await ownThere(deps, backup), own, (fresh) => [...fresh, ...history]);
  const names = await knownSigners(deps.documents);
  await list(KNOWN_KEYS, names, knownThere(backup), known, (fresh) => [...names, ...fresh]);
  return puts;
}
