/**
 * What is laid beside a job or a run and sealed with it: photographs and signatures by hand. Facts and hashes; the
 * photographs' own bytes rest as files of their own.
 */
import * as z from 'zod/mini';
import { block, distinct, int, line, MADE, name, rows } from './fields.ts';
import { markSchema } from './mark.ts';
import { peopleSchema } from './people.ts';
import { strokesSchema } from './strokes.ts';

/** When a photograph was taken, in the order of the work. */
export const PHOTO_OCCASIONS = [
  'before',
  'dressed',
  'seated',
  'after',
  'packer-damage',
  'witness-sample',
  'other',
] as const;
export type PhotoOccasion = (typeof PHOTO_OCCASIONS)[number];

export const SIGNED_AS = ['crew', 'client'] as const;
export type SignedAs = (typeof SIGNED_AS)[number];

/** What an original says besides its picture. */
export const CARRIED = ['place', 'person', 'time', 'device', 'other'] as const;
export type Carried = (typeof CARRIED)[number];

export const ORIGINAL_TYPES = ['jpeg', 'png', 'webp'] as const;
export type OriginalType = (typeof ORIGINAL_TYPES)[number];

export const MOST_PHOTOS = 40;
const MOST_SIGNED = 12;
/** Longer side of a kept photograph and of the small one on a certificate, pixels. */
export const PHOTO_SIDE = 1600;
export const SMALL_SIDE = 480;
/** Bytes. What is made here is far smaller; a record that claims more is refused. */
export const MOST_PHOTO_BYTES = 4 << 20;
export const MOST_SMALL_BYTES = 256 << 10;
/** Of the file that a photograph is made from, kept beside it or not. */
export const MOST_ORIGINAL_BYTES = 64 << 20;

/** Latest time that a date can tell, ms. */
const MOST_MS = 8_640_000_000_000_000;
const utcMs = () => int(0, MOST_MS);
const sha256 = () =>
  z
    .string()
    .check(z.regex(/^[0-9a-f]{64}$/))
    .register(MADE, { is: 'text', most: 64 });

const sizes = (side: number, bytes: number) => ({
  sha256: sha256(),
  bytes: int(1, bytes),
  width: int(1, side),
  height: int(1, side),
});

const photoSchema = z.strictObject({
  ...sizes(PHOTO_SIDE, MOST_PHOTO_BYTES),
  small: z.strictObject(sizes(SMALL_SIDE, MOST_SMALL_BYTES)),
  occasion: z.enum(PHOTO_OCCASIONS),
  /** By this computer's clock for one of its camera, by the file's own date for a file. */
  utcMs: utcMs(),
  source: z.enum(['camera', 'file']),
  /** Initials of who took it or brought it in. */
  by: line(40),
  note: block(300),
  /** The file that it was made of, kept on purpose; null: only what is shown was kept. */
  original: z.nullable(
    z.strictObject({
      sha256: sha256(),
      bytes: int(1, MOST_ORIGINAL_BYTES),
      type: z.enum(ORIGINAL_TYPES),
      carries: z.array(z.enum(CARRIED)).check(z.maxLength(CARRIED.length)),
    }),
  ),
});
export type Photo = z.infer<typeof photoSchema>;

const signedSchema = z.strictObject({
  as: z.enum(SIGNED_AS),
  name: name(80),
  utcMs: utcMs(),
  strokes: strokesSchema,
});
export type HandSigned = z.infer<typeof signedSchema>;

/** As a sealed record has it. */
export const enclosedSchema = z.strictObject({
  photos: distinct(photoSchema, 'sha256', MOST_PHOTOS),
  signed: rows(signedSchema, MOST_SIGNED),
  /** Who was here on the day of the run, as this computer's list had it. */
  present: peopleSchema,
  /** Empty: not stated. */
  firm: line(120),
  mark: z.nullable(markSchema),
});
export type Enclosed = z.infer<typeof enclosedSchema>;

const ofRun = { runId: z.nullable(line(64)), sealed: z.boolean() };

/** As it rests beside a job or a run until it is sealed, and after. */
export const keptEnclosedSchema = z.strictObject({
  version: z.literal(1),
  photos: distinct(z.extend(photoSchema, ofRun), 'sha256', 4 * MOST_PHOTOS),
  signed: rows(z.extend(signedSchema, ofRun), 4 * MOST_SIGNED),
});
export type KeptEnclosed = z.infer<typeof keptEnclosedSchema>;
export type KeptPhoto = KeptEnclosed['photos'][number];

/** A record's photographs and signatures by hand as they came from anywhere; null where they have not this form. */
export function enclosedIn(value: unknown): Enclosed | null {
  const parsed = enclosedSchema.safeParse(value);
  return parsed.success ? parsed.data : null;
}

export function keptEnclosedIn(value: unknown): KeptEnclosed | null {
  const parsed = keptEnclosedSchema.safeParse(value);
  return parsed.success ? parsed.data : null;
}

const numbered = (index: number): string => `photo-${String(index + 1).padStart(2, '0')}`;

/** Names of a record's photographs in its file, by their place in the list. */
export const photoName = (photo: Pick<Photo, 'occasion'>, index: number): string =>
  `${numbered(index)}-${photo.occasion}.jpg`;
export const smallName = (index: number): string => `${numbered(index)}-small.jpg`;
export const originalName = (type: OriginalType, index: number): string =>
  `${numbered(index)}-original.${type === 'jpeg' ? 'jpg' : type}`;

export interface EnclosedFile {
  readonly name: string;
  readonly sha256: string;
  readonly bytes: number;
}

/** Every file that a record's photographs stand for. */
export const enclosedFiles = (enclosed: Enclosed | null): readonly EnclosedFile[] =>
  (enclosed?.photos ?? []).flatMap((p, i) => [
    { name: photoName(p, i), sha256: p.sha256, bytes: p.bytes },
    { name: smallName(i), sha256: p.small.sha256, bytes: p.small.bytes },
    ...(p.original === null
      ? []
      : [
          {
            name: originalName(p.original.type, i),
            sha256: p.original.sha256,
            bytes: p.original.bytes,
          },
        ]),
  ]);
