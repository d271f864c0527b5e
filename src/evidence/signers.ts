/** Keys that the firm knows by name: a list kept beside the tablet's own key, of public facts only. */

import { parseFingerprint } from '../record/fingerprints.ts';
import { ALWAYS, type KeyTerm, keyTermIn, termFault } from '../record/key-terms.ts';
import type { Signer } from '../record/signing.ts';
import { keyHistory, loadSigner, makeSigner } from '../record/stores/keys.ts';
import type { DocumentStore } from '../record/stores/store.ts';
import type { EvidenceDeps } from './deps.ts';
import { EvidenceError } from './faults.ts';
import type { KeyView, KnownSigner } from './keys/messages.ts';

export const KNOWN_KEYS = 'known';
export const MOST_KNOWN = 500;
const NAME_MOST = 120;
/** This tablet's own keys have no name of anybody's: the page has the words for them. */
const OWN = '';

export const isKnownSigner = (v: unknown): v is KnownSigner => {
  const k = v as Partial<KnownSigner> | null;
  return (
    typeof k === 'object' &&
    k !== null &&
    typeof k.fingerprint === 'string' &&
    parseFingerprint(k.fingerprint) === k.fingerprint &&
    typeof k.name === 'string' &&
    k.name.length <= NAME_MOST &&
    typeof k.addedUtcMs === 'number' &&
    keyTermIn(k.term) !== null &&
    (k.replacedBy === null || parseFingerprint(String(k.replacedBy)) === k.replacedBy)
  );
};

export async function knownSigners(documents: DocumentStore): Promise<readonly KnownSigner[]> {
  const body = (await documents.get('key', KNOWN_KEYS))?.body;
  return Array.isArray(body) ? body.filter(isKnownSigner) : [];
}

async function write(deps: EvidenceDeps, list: readonly KnownSigner[]): Promise<readonly KnownSigner[]> {
  const resting = await deps.documents.get('key', KNOWN_KEYS);
  await deps.documents.put({
    kind: 'key',
    id: KNOWN_KEYS,
    revision: resting?.revision ?? 0,
    savedUtcMs: deps.utcMs(),
    body: list,
  });
  return list;
}

/** Adds a key, or names a known one anew. @throws EvidenceError 'bad-request' */
export async function knowSigner(
  deps: EvidenceDeps,
  typed: string,
  name: string,
): Promise<readonly KnownSigner[]> {
  const fingerprint = parseFingerprint(typed);
  const clean = name.trim().slice(0, NAME_MOST);
  if (fingerprint === null || clean === '')
    throw new EvidenceError('bad-request', 'a fingerprint has 64 hex digits, and its owner a name');
  const known = await knownSigners(deps.documents);
  const rest = known.filter((k) => k.fingerprint !== fingerprint);
  if (rest.length >= MOST_KNOWN) throw new EvidenceError('bad-request', 'the list of keys is full');
  // A new name is no new word about when it counts.
  const { term, replacedBy } = known.find((k) => k.fingerprint === fingerprint) ?? FRESH;
  return write(deps, [...rest, { fingerprint, name: clean, addedUtcMs: deps.utcMs(), term, replacedBy }]);
}

const FRESH = { term: ALWAYS, replacedBy: null } as const;

async function changed(
  deps: EvidenceDeps,
  fingerprint: string,
  change: (k: KnownSigner) => KnownSigner,
): Promise<KnownSigner[]> {
  const known = await knownSigners(deps.documents);
  if (!known.some((k) => k.fingerprint === fingerprint))
    throw new EvidenceError('missing', 'the key is not among the known ones');
  return known.map((k) => (k.fingerprint === fingerprint ? change(k) : k));
}

/** @throws EvidenceError 'bad-request' where the end is not after the beginning; 'missing' */
export async function setSignerTerm(
  deps: EvidenceDeps,
  fingerprint: string,
  wanted: KeyTerm,
): Promise<readonly KnownSigner[]> {
  const term = keyTermIn(wanted);
  if (term === null) throw new EvidenceError('bad-request', 'a key counts until a time after it began to');
  return write(deps, await changed(deps, fingerprint, (k) => ({ ...k, term })));
}

/**
 * The other key counts from this moment on, the old one until it: what it signed before stays valid.
 * @throws EvidenceError 'bad-request', 'missing'
 */
export async function replaceSigner(
  deps: EvidenceDeps,
  fingerprint: string,
  typed: string,
  utcMs: number,
): Promise<readonly KnownSigner[]> {
  const by = parseFingerprint(typed);
  if (by === null || by === fingerprint || !Number.isSafeInteger(utcMs))
    throw new EvidenceError('bad-request', 'the fingerprint of another key has 64 hex digits');
  const list = await changed(deps, fingerprint, (k) => {
    const term = keyTermIn({ ...k.term, untilUtcMs: utcMs });
    if (term === null) throw new EvidenceError('bad-request', 'a key counts until a time after it began to');
    return { ...k, term, replacedBy: by };
  });
  const { name } = list.find((k) => k.fingerprint === fingerprint)!;
  if (list.some((k) => k.fingerprint === by)) return write(deps, list);
  if (list.length >= MOST_KNOWN) throw new EvidenceError('bad-request', 'the list of keys is full');
  const term = { ...ALWAYS, fromUtcMs: utcMs };
  return write(deps, [...list, { fingerprint: by, name, addedUtcMs: deps.utcMs(), term, replacedBy: null }]);
}

export async function forgetSigner(deps: EvidenceDeps, fingerprint: string): Promise<readonly KnownSigner[]> {
  const rest = (await knownSigners(deps.documents)).filter((k) => k.fingerprint !== fingerprint);
  return write(deps, rest);
}

/** Keys by which a record is as good as the firm's own word: this tablet's, of now and before, and the known ones. */
export interface Trust {
  readonly own: ReadonlySet<string>;
  /** By fingerprint; the value is whose it is, empty for this tablet's own. */
  readonly names: ReadonlyMap<string, string>;
  /** For which times a key counts, where that was said. */
  readonly terms: ReadonlyMap<string, KeyTerm>;
}

/** Whose key it is that signed at this time; null: not known, or not for that time. */
export const signerAt = (trust: Trust, fingerprint: string, utcMs: number): string | null =>
  termFault(trust.terms.get(fingerprint), utcMs) === null ? (trust.names.get(fingerprint) ?? null) : null;

export const trustOptions = ({ names, terms }: Trust) => ({ trusted: names, terms });

export async function trustOf(documents: DocumentStore): Promise<Trust> {
  const own = new Set((await keyHistory(documents)).map((k) => k.fingerprint));
  const names = new Map([...own].map((f) => [f, OWN]));
  const terms = new Map<string, KeyTerm>();
  for (const k of await knownSigners(documents)) {
    names.set(k.fingerprint, k.name);
    terms.set(k.fingerprint, k.term);
  }
  return { own, names, terms };
}

export async function keyView(deps: EvidenceDeps): Promise<KeyView> {
  const now = await loadSigner(deps.documents, deps.subtle);
  const history = await keyHistory(deps.documents);
  const line = ({ fingerprint, sinceUtcMs, previous }: Omit<Signer, 'publicKey' | 'sign'>) => ({
    fingerprint,
    sinceUtcMs,
    previous,
  });
  return {
    state: now.state,
    key: now.state === 'ready' ? line(now.signer) : now.state === 'lost' ? line(now.last) : null,
    history: history.map(line),
  };
}

/** Two tabs at once must not make two keys. @throws EvidenceError 'run-locked', 'key-missing' */
async function alone<T>(deps: EvidenceDeps, work: () => Promise<T>): Promise<T> {
  const release = await deps.locks.acquire('signing-key');
  if (release === null) throw new EvidenceError('run-locked', 'another tab is at the key');
  try {
    return await work();
  } finally {
    release();
  }
}

async function make(deps: EvidenceDeps): Promise<Signer> {
  try {
    return await makeSigner(deps.documents, deps.subtle, deps.utcMs());
  } catch (cause) {
    // NotSupportedError: a browser without Ed25519 in WebCrypto.
    if (cause instanceof Error && cause.name === 'NotSupportedError')
      throw new EvidenceError('key-missing', 'this browser makes no Ed25519 keys');
    throw cause;
  }
}

/** The tablet's key, made at first need; `made` says whether and why a new one was. */
export function signerFor(
  deps: EvidenceDeps,
): Promise<{ readonly signer: Signer; readonly made: 'first' | 'after-loss' | null }> {
  return alone(deps, async () => {
    const now = await loadSigner(deps.documents, deps.subtle);
    if (now.state === 'ready') return { signer: now.signer, made: null };
    return { signer: await make(deps), made: now.state === 'none' ? 'first' : 'after-loss' } as const;
  });
}

/** Another key in place of the present one, which vouches for it. */
export function changeKey(deps: EvidenceDeps): Promise<KeyView> {
  return alone(deps, async () => {
    await make(deps);
    return keyView(deps);
  });
}
