/**
 * What an addition to a sealed record may hold beside its text: one small photograph, or one signature by hand, whole within
 * the signed statement itself. It may come from anywhere: nothing of it is shown before its schema has taken it.
 */
import * as z from 'zod/mini';
import { PHOTO_OCCASIONS, SIGNED_AS } from './enclosed.ts';
import { int, MADE, name, rule } from './fields.ts';
import { strokesSchema } from './strokes.ts';

/** Bytes of its JPEG: in base64 it stays within what a statement may have, beside a text. */
export const MOST_ADDED_BYTES = 36 << 10;
/** Longer sides that are tried, pixels: the largest whose bytes fit is taken. */
export const ADDED_SIDES = [800, 640, 480, 360, 240] as const;

const MOST_TEXT = Math.ceil(MOST_ADDED_BYTES / 3) * 4;
/** A JPEG's first three bytes, as base64 has them. */
const JPEG = /^\/9j\/[A-Za-z0-9+/]*={0,2}$/;

const addedPhotoSchema = z.strictObject({
  jpeg: z
    .string()
    .check(
      z.maxLength(MOST_TEXT),
      z.refine((s) => JPEG.test(s) && s.length % 4 === 0, rule('characters')),
    )
    .register(MADE, { is: 'text', most: MOST_TEXT }),
  width: int(1, ADDED_SIDES[0]),
  height: int(1, ADDED_SIDES[0]),
  occasion: z.enum(PHOTO_OCCASIONS),
  utcMs: int(0, 8_640_000_000_000_000),
  source: z.enum(['camera', 'file']),
});
export type AddedPhoto = z.infer<typeof addedPhotoSchema>;

const addedHandSchema = z.strictObject({
  as: z.enum(SIGNED_AS),
  name: name(80),
  strokes: strokesSchema,
});
export type AddedHand = z.infer<typeof addedHandSchema>;

const memberOf = (body: unknown, member: 'photo' | 'hand'): unknown =>
  typeof body === 'object' && body !== null ? (body as Record<string, unknown>)[member] : undefined;

/** null: the addition has none, or one that has not this form. */
export function addedPhotoIn(body: unknown): AddedPhoto | null {
  const parsed = addedPhotoSchema.safeParse(memberOf(body, 'photo'));
  return parsed.success ? parsed.data : null;
}

/** As above. */
export function addedHandIn(body: unknown): AddedHand | null {
  const parsed = addedHandSchema.safeParse(memberOf(body, 'hand'));
  return parsed.success ? parsed.data : null;
}
