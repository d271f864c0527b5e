/**
 * What two installations lay in a shared folder for each other: a log its checkpoint, with proofs that it continues earlier
 * ones; a witness the same note with its signature. Whatever lies there may be anybody's.
 */
import * as z from 'zod/mini';
import { fromHex, toHex } from '../hex.ts';
import { MOST_NOTE_CHARS } from './note.ts';

/** Longest file of this kind that is read, bytes. */
export const MOST_EXCHANGE_BYTES = 1 << 20;
/** Earlier trees that a published checkpoint is proved to continue. */
export const MOST_CONTINUED = 100;

const hash = z.string().check(z.regex(/^[0-9a-f]{64}$/));
const note = z.string().check(z.maxLength(MOST_NOTE_CHARS));
const size = z.number().check(z.refine((v) => Number.isSafeInteger(v) && v >= 0));

const published = z.strictObject({
  schema: z.literal('steadybar-checkpoint/1'),
  note,
  publicKey: hash,
  continues: z
    .array(z.strictObject({ size, path: z.array(hash).check(z.maxLength(64)) }))
    .check(z.maxLength(MOST_CONTINUED)),
});
const cosigned = z.strictObject({ schema: z.literal('steadybar-cosigned/1'), note, publicKey: hash });

export interface Published {
  readonly note: string;
  /** Of the log, 32 bytes. */
  readonly publicKey: Uint8Array;
  readonly continues: readonly { readonly size: number; readonly path: readonly Uint8Array[] }[];
}

export interface Cosigned {
  readonly note: string;
  /** Of the witness, 32 bytes. */
  readonly publicKey: Uint8Array;
}

export const publishedText = ({ note: text, publicKey, continues }: Published): string =>
  `${JSON.stringify({
    schema: 'steadybar-checkpoint/1',
    note: text,
    publicKey: toHex(publicKey),
    continues: continues.map((c) => ({ size: c.size, path: c.path.map(toHex) })),
  } satisfies z.infer<typeof published>)}\n`;

export const cosignedText = ({ note: text, publicKey }: Cosigned): string =>
  `${JSON.stringify({
    schema: 'steadybar-cosigned/1',
    note: text,
    publicKey: toHex(publicKey),
  } satisfies z.infer<typeof cosigned>)}\n`;

function parsed(text: string): unknown {
  try {
    return text.length > MOST_EXCHANGE_BYTES ? null : JSON.parse(text);
  } catch {
    return null;
  }
}

/** null for whatever is none. */
export function readPublished(text: string): Published | null {
  const read = published.safeParse(parsed(text));
  if (!read.success) return null;
  const { data } = read;
  return {
    note: data.note,
    publicKey: fromHex(data.publicKey)!,
    continues: data.continues.map((c) => ({ size: c.size, path: c.path.map((h) => fromHex(h)!) })),
  };
}

/** null for whatever is none. */
export function readCosigned(text: string): Cosigned | null {
  const read = cosigned.safeParse(parsed(text));
  return read.success ? { note: read.data.note, publicKey: fromHex(read.data.publicKey)! } : null;
}

/** What a witness makes of a checkpoint. */
export type SeenOutcome =
  | 'cosigned'
  | 'own' // of this installation's own log
  | 'known' // an earlier one that was seen then
  | 'form' // no checkpoint, or not signed by its log
  | 'shorter' // a tree that was never seen, shorter than one that was
  | 'different' // another history than the one that was seen
  | 'no-proof'; // longer, and nothing proves that it continues what was seen

/** What becomes of the word of a witness, or of an authority for time stamps. */
export type TakeOutcome =
  | 'taken'
  | 'form'
  | 'other-log'
  | 'another-history'
  | 'unsigned'
  | 'refused'
  | 'no-stamp-of';
