/** What witnesses gave for this installation's log, taken in where it is of this log and holds. */
import { sameBytes } from '../../record/bytes.ts';
import { toHex } from '../../record/hex.ts';
import { checkpointText, parseCheckpoint } from '../../record/witness/checkpoint.ts';
import { tidied } from '../../record/witness/compare.ts';
import type { Cosigned } from '../../record/witness/exchange.ts';
import { noteName } from '../../record/witness/names.ts';
import { checkNote, KEY_TYPE, MOST_NOTE_CHARS, parseNote } from '../../record/witness/note.ts';
import { readStamp } from '../../record/witness/time-stamp.ts';
import type { EvidenceDeps } from '../deps.ts';
import type { TakeOutcome } from './messages.ts';
import type { OwnLog } from './own-log.ts';

const utf8 = new TextEncoder();

/** A note that a witness signed. @returns 'taken' for one that is new here */
export async function takeCosigned(
  deps: EvidenceDeps,
  log: OwnLog,
  { note: text, publicKey }: Cosigned,
): Promise<TakeOutcome | 'known'> {
  const { crypto } = deps;
  const own = await log.key();
  const note = parseNote(text);
  const checkpoint = note === null ? null : parseCheckpoint(note.text);
  if (note === null || checkpoint === null || note.text !== checkpointText(checkpoint)) return 'form';
  if (checkpoint.origin !== own.name) return 'other-log';
  const held = await checkNote(crypto, note, [
    { name: own.name, type: KEY_TYPE.plain, publicKey: own.publicKey },
    { name: noteName(crypto.hashing, 'witness', publicKey), type: KEY_TYPE.cosignature, publicKey },
  ]);
  const timeS = held.ok ? (held.held.find((h) => h.timeS !== null)?.timeS ?? null) : null;
  if (!held.ok || held.held.length !== 2 || timeS === null) return 'unsigned';
  const tree = await log.tree();
  if (checkpoint.size > tree.size || !sameBytes(tree.root(checkpoint.size), checkpoint.root))
    return 'another-history';
  const key = toHex(publicKey);
  const given = await log.given();
  if (given.some((g) => g.size === checkpoint.size && g.by.what === 'cosignature' && g.by.publicKey === key))
    return 'known';
  const sha256 = toHex(await crypto.sha256(utf8.encode(text)));
  const by = { what: 'cosignature', publicKey: key } as const;
  await log.take({ size: checkpoint.size, note: text, sha256, utcMs: timeS * 1000, by });
  return 'taken';
}

/** An authority's answer for the text of a checkpoint of this log. */
export async function takeStamp(
  deps: EvidenceDeps,
  log: OwnLog,
  checkpointNote: string,
  response: Uint8Array,
): Promise<TakeOutcome> {
  const { crypto } = deps;
  if (checkpointNote.length > MOST_NOTE_CHARS) return 'form';
  // The note, or its text alone, as `stamp` writes it.
  const tidy = tidied(checkpointNote);
  const checkpoint = parseCheckpoint(parseNote(tidy)?.text ?? tidy);
  if (checkpoint === null) return 'form';
  if (checkpoint.origin !== (await log.key()).name) return 'other-log';
  const read = readStamp(response);
  if (!read.ok) return read.why === 'refused' ? 'refused' : 'form';
  const text = checkpointText(checkpoint);
  if (!sameBytes(read.stamp.sha256, await crypto.sha256(utf8.encode(text)))) return 'no-stamp-of';
  const tree = await log.tree();
  if (checkpoint.size > tree.size || !sameBytes(tree.root(checkpoint.size), checkpoint.root))
    return 'another-history';
  const sha256 = toHex(await crypto.sha256(response));
  const { utcMs } = read.stamp;
  await log.take({ size: checkpoint.size, note: text, sha256, utcMs, by: { what: 'stamp', response } });
  return 'taken';
}
