import { randomBytes } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { sameBytes } from '../record/bytes.ts';
import { checkpointText, parseCheckpoint } from '../record/witness/checkpoint.ts';
import { tidied } from '../record/witness/compare.ts';
import { MOST_NOTE_CHARS, parseNote } from '../record/witness/note.ts';
import {
  isNonce,
  MOST_STAMP_BYTES,
  readRequest,
  readStamp,
  stampRequest,
} from '../record/witness/time-stamp.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { readArguments } from './arguments.ts';
import { fault, shown } from './fault.ts';
import { readFileNamed } from './files.ts';
import { nodeCrypto } from './node-crypto.ts';

export interface StampOutcome {
  readonly exitCode: number;
  readonly text: string;
}

const OPTIONS = {} as const;

/** The text of the checkpoint in a file, as it is signed and stamped; its signatures are no part of it. */
function textIn(name: string): Uint8Array {
  const tidy = tidied(new TextDecoder().decode(readFileNamed(name, name, MOST_NOTE_CHARS)));
  const checkpoint = parseCheckpoint(parseNote(tidy)?.text ?? tidy);
  if (checkpoint === null) throw fault((f) => f.noCheckpoint(shown(name)));
  return new TextEncoder().encode(checkpointText(checkpoint));
}

function write(name: string, bytes: Uint8Array): void {
  try {
    writeFileSync(name, bytes);
  } catch (cause) {
    throw fault((f) => f.unwritable(name, String((cause as NodeJS.ErrnoException).code)));
  }
}

const stemOf = (name: string): string => name.replace(/\.[^./]*$/, '');

/**
 * `request CHECKPOINT`: writes CHECKPOINT.tsq for an authority, and beside it the text that is stamped.
 * `take CHECKPOINT ANSWER`: whether the answer is for that request, and when it says it was.
 * @param nonce eight random bytes
 * @throws InputFault on what can't be used
 */
export function runStamp(
  args: readonly string[],
  words: Catalogue,
  nonce: Uint8Array = randomBytes(8),
): StampOutcome {
  const { STAMP, USAGE } = words.commands;
  const [verb, name, answer, ...more] = readArguments(args, OPTIONS, 'stamp').rest;
  if (name === undefined || more.length > 0) throw fault((f) => f.oneStamp(USAGE.stamp));
  const text = textIn(name);
  const sha256 = nodeCrypto().hashing.of(text);
  const [query, stamped] = [`${stemOf(name)}.tsq`, `${stemOf(name)}.stamped.txt`];
  if (verb === 'request' && answer === undefined) {
    write(query, stampRequest(sha256, nonce));
    write(stamped, text);
    return { exitCode: 0, text: `${STAMP.requested(query, stamped)}\n` };
  }
  if (verb !== 'take' || answer === undefined) throw fault((f) => f.oneStamp(USAGE.stamp));
  const asked = readRequest(readFileNamed(query, query, MOST_STAMP_BYTES));
  const read = readStamp(readFileNamed(answer, answer, MOST_STAMP_BYTES));
  if (!read.ok) return { exitCode: read.why === 'refused' ? 1 : 2, text: `${STAMP[read.why]}\n` };
  const { stamp } = read;
  if (!sameBytes(stamp.sha256, sha256)) return { exitCode: 1, text: `${STAMP.other}\n` };
  if (asked === null || !sameBytes(asked.sha256, sha256) || !isNonce(stamp, asked.nonce))
    return { exitCode: 1, text: `${STAMP.notAsked}\n` };
  write(stamped, text);
  return { exitCode: 0, text: `${STAMP.taken(new Date(stamp.utcMs).toISOString(), stamped, answer)}\n` };
}
