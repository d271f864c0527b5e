/**
 * The firm's mark, as it stands on a certificate: a small PNG that was drawn here and nothing else, so that no drawing
 * of anybody's enters a page.
 */
import * as z from 'zod/mini';
import { int, MADE, rule } from './fields.ts';

/** Pixels that a mark is fitted into: 30 by 10 mm at 500 dots an inch. */
export const MARK_BOX = { width: 600, height: 200 } as const;
export const MOST_MARK_BYTES = 96 << 10;
/** Of the file that it is made of. */
export const MOST_MARK_FILE = 2 << 20;

const BASE64 = /^(?:[A-Za-z0-9+/]{4})*(?:[A-Za-z0-9+/]{2}==|[A-Za-z0-9+/]{3}=)?$/;
/** The signature of a PNG and its first chunk's length and name, ISO/IEC 15948, as base64 has them. */
const PNG_BEGINS = 'iVBORw0KGgoAAAANSUhEUg';

const isPng = (text: string): boolean => text.startsWith(PNG_BEGINS) && BASE64.test(text);

/** The size that the picture itself claims. */
function sizeIn(png: string): { readonly width: number; readonly height: number } {
  const head = Uint8Array.from(atob(png.slice(0, 32)), (c) => c.charCodeAt(0));
  const view = new DataView(head.buffer);
  return { width: view.getUint32(16), height: view.getUint32(20) };
}

export const markSchema = z
  .strictObject({
    /** Base64. */
    png: z
      .string()
      .check(
        z.maxLength(Math.ceil(MOST_MARK_BYTES / 3) * 4),
        z.minLength(44),
        z.refine(isPng, rule('characters')),
      )
      .register(MADE, { is: 'text', most: Math.ceil(MOST_MARK_BYTES / 3) * 4 }),
    width: int(1, MARK_BOX.width),
    height: int(1, MARK_BOX.height),
  })
  .check(
    z.refine((m) => {
      if (!isPng(m.png) || m.png.length < 44) return false;
      const { width, height } = sizeIn(m.png);
      return width === m.width && height === m.height;
    }, rule('order')),
  );
export type Mark = z.infer<typeof markSchema>;
