/**
 * This installation as a witness of other logs: it keeps the last tree that it saw of each, signs one that continues it with
 * the time, and refuses a shorter or another history. What it saw is at rest before it signs, so that a process that dies
 * never signs two histories.
 */
import { sameBytes } from '../../record/bytes.ts';
import { fromHex, toHex } from '../../record/hex.ts';
import { noteSigner } from '../../record/stores/note-keys.ts';
import { parseCheckpoint } from '../../record/witness/checkpoint.ts';
import type { Cosigned, Published } from '../../record/witness/exchange.ts';
import { isConsistent } from '../../record/witness/merkle.ts';
import { keyTag, noteName } from '../../record/witness/names.ts';
import { checkNote, cosignNote, KEY_TYPE, noteText, parseNote } from '../../record/witness/note.ts';
import type { EvidenceDeps } from '../deps.ts';
import type { SeenLog, SeenOutcome } from './messages.ts';

/** Trees of one log that are kept, to know an old file from a forged one. */
const MOST_HISTORY = 4000;

interface SeenBody {
  readonly origin: string;
  readonly publicKey: string;
  /** Oldest first; the last is the one that the next must continue. */
  readonly trees: readonly { readonly size: number; readonly root: string; readonly utcMs: number }[];
  readonly refused: SeenLog['refused'];
}

const bodyOf = (body: unknown): SeenBody | null => {
  const b = body as Partial<SeenBody> | null | undefined;
  return typeof b?.origin === 'string' && Array.isArray(b.trees) ? (b as SeenBody) : null;
};

export async function seenLogs({ documents }: Pick<EvidenceDeps, 'documents'>): Promise<readonly SeenLog[]> {
  return (await documents.list('witness')).flatMap(({ body }) => {
    const seen = bodyOf(body);
    const last = seen?.trees.at(-1);
    return seen === null || last === undefined
      ? []
      : [{ origin: seen.origin, size: last.size, utcMs: last.utcMs, refused: seen.refused }];
  });
}

export interface Seen {
  readonly outcome: SeenOutcome;
  readonly origin: string | null;
  readonly size: number | null;
  /** For 'cosigned'. */
  readonly cosigned: Cosigned | null;
}

/** Looks at a checkpoint of another log, and countersigns it where it continues what was seen. @throws StoreError */
export async function witness(deps: EvidenceDeps, given: Published, ownOrigin: string | null): Promise<Seen> {
  const { crypto, documents } = deps;
  const none = (outcome: SeenOutcome, origin: string | null = null, size: number | null = null): Seen => ({
    outcome,
    origin,
    size,
    cosigned: null,
  });
  const note = parseNote(given.note);
  const checkpoint = note === null ? null : parseCheckpoint(note.text);
  if (note === null || checkpoint === null) return none('form');
  const { origin, size, root } = checkpoint;
  if (origin === ownOrigin) return none('own', origin, size);
  const key = {
    name: noteName(crypto.hashing, 'log', given.publicKey),
    type: KEY_TYPE.plain,
    publicKey: given.publicKey,
  };
  const held = await checkNote(crypto, note, [key]);
  if (origin !== key.name || !held.ok || held.held.length === 0) return none('form');

  const id = keyTag(crypto.hashing, given.publicKey);
  const resting = await documents.get('witness', id);
  const seen = bodyOf(resting?.body);
  const put = (body: SeenBody) =>
    documents.put({
      kind: 'witness',
      id,
      revision: resting?.revision ?? 0,
      savedUtcMs: deps.utcMs(),
      body: { ...body, trees: body.trees.slice(-MOST_HISTORY) },
    });
  // The digits in the name are not the whole key.
  if (seen !== null && seen.publicKey !== toHex(given.publicKey)) return none('form', origin, size);
  const why = seen === null ? 'continues' : standing(deps, seen, given, { size, root });
  if (why !== 'continues' && why !== 'last') {
    if (seen !== null && why !== 'known' && why !== 'no-proof')
      await put({ ...seen, refused: { why, size, utcMs: deps.utcMs() } });
    return none(why, origin, size);
  }
  if (why === 'continues') {
    const tree = { size, root: toHex(root), utcMs: deps.utcMs() };
    await put({
      origin,
      publicKey: toHex(given.publicKey),
      trees: [...(seen?.trees ?? []), tree],
      refused: seen?.refused ?? null,
    });
  }
  const signer = await noteSigner(documents, deps.subtle, 'witness', deps.utcMs());
  const timeS = Math.floor(deps.utcMs() / 1000);
  const mine = await cosignNote(crypto.hashing, signer.name, signer, note.text, timeS);
  // Of the others' words only the log's own goes on: theirs reach it by their own way.
  const signatures = [...note.signatures.filter((s) => s.name === origin), mine];
  return {
    outcome: 'cosigned',
    origin,
    size,
    cosigned: { note: noteText({ text: note.text, signatures }), publicKey: signer.publicKey },
  };
}

function standing(
  { crypto }: EvidenceDeps,
  seen: SeenBody,
  given: Published,
  { size, root }: { readonly size: number; readonly root: Uint8Array },
): 'continues' | 'last' | Exclude<SeenOutcome, 'cosigned' | 'own' | 'form'> {
  const last = seen.trees.at(-1)!;
  if (size <= last.size) {
    const then = seen.trees.find((t) => t.size === size);
    if (then !== undefined && then.root !== toHex(root)) return 'different';
    if (then === undefined) return 'shorter';
    return size === last.size ? 'last' : 'known';
  }
  const proof = given.continues.find((c) => c.size === last.size);
  const older = { size: last.size, root: fromHex(last.root) ?? new Uint8Array(0) };
  // Nothing is proved of a tree without leaves: every other continues it.
  if (last.size === 0)
    return sameBytes(older.root, crypto.hashing.of(new Uint8Array(0))) ? 'continues' : 'different';
  if (proof === undefined) return 'no-proof';
  return isConsistent(crypto.hashing, older, { size, root }, proof.path) ? 'continues' : 'different';
}
