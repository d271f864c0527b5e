/**
 * A photograph made small in a worker: decoded once, at the size that is kept, and written anew as JPEG. What the file
 * said besides its picture is not written again.
 */
import { type EnclosedSize, fitted } from './fit.ts';

export interface Reduced {
  readonly bytes: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/**
 * Makes JPEGs of a picture, one a longer side asked for, the largest first.
 * @throws whatever the browser throws on a picture that it can't decode
 */
export type Reduce = (
  file: Blob,
  from: EnclosedSize,
  sides: readonly number[],
) => Promise<readonly Reduced[]>;

/** Share of JPEG's own scale; a fourth of the bytes of the best, and nothing that an eye misses at this size. */
const QUALITY = 0.82;

async function jpegOf(source: ImageBitmap, size: EnclosedSize): Promise<Reduced> {
  const canvas = new OffscreenCanvas(size.width, size.height);
  const context = canvas.getContext('2d', { alpha: false });
  if (context === null) throw new Error('no canvas');
  // What is transparent would turn black.
  context.fillStyle = '#fff';
  context.fillRect(0, 0, size.width, size.height);
  context.imageSmoothingQuality = 'high';
  context.drawImage(source, 0, 0, size.width, size.height);
  const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: QUALITY });
  if (blob.type !== 'image/jpeg') throw new Error('no JPEG');
  return { bytes: new Uint8Array(await blob.arrayBuffer()), ...size };
}

/** A camera that was held upright says so in the file, and the browser turns the picture: then the sides are changed. */
async function decode(file: Blob, from: EnclosedSize, side: number): Promise<ImageBitmap> {
  const { width, height } = fitted(from, side);
  const bitmap = await createImageBitmap(file, {
    imageOrientation: 'from-image',
    // One side alone: the other follows, whichever way the picture is turned.
    ...(width >= height ? { resizeWidth: width } : { resizeHeight: height }),
    resizeQuality: 'high',
  });
  return bitmap;
}

export const reduceInWorker: Reduce = async (file, from, sides) => {
  const bitmap = await decode(file, from, Math.max(...sides));
  try {
    const made: Reduced[] = [];
    for (const side of sides) made.push(await jpegOf(bitmap, fitted(bitmap, side)));
    return made;
  } finally {
    bitmap.close();
  }
};
