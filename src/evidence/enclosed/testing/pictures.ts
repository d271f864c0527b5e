/** Beginnings of pictures, made byte by byte, for tests: nothing that could be decoded. */
import { joinBytes } from '../../../record/bytes.ts';
import type { Reduce } from '../reduce.ts';

const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);
const be16 = (n: number): number[] => [(n >>> 8) & 0xff, n & 0xff];
const be32 = (n: number): number[] => [...be16(n >>> 16), ...be16(n)];

/** One directory with these tags, and one behind it for camera data. @returns from its byte order mark on */
export function exifBlock(tags: readonly number[], inner: readonly number[] = []): Uint8Array {
  const all = inner.length > 0 ? [...tags, 0x8769] : tags;
  const innerAt = 8 + 2 + 12 * all.length + 4;
  const out = new Uint8Array(innerAt + 2 + 12 * inner.length + 4);
  const view = new DataView(out.buffer);
  out.set(ascii('II'));
  view.setUint16(2, 42, true);
  view.setUint32(4, 8, true);
  const directory = (at: number, list: readonly number[]) => {
    view.setUint16(at, list.length, true);
    list.forEach((tag, i) => {
      view.setUint16(at + 2 + 12 * i, tag, true);
      if (tag === 0x8769) view.setUint32(at + 2 + 12 * i + 8, innerAt, true);
    });
  };
  directory(8, all);
  if (inner.length > 0) directory(innerAt, inner);
  return out;
}

export function jpegHead(width: number, height: number, exif?: Uint8Array): Uint8Array {
  const app1 =
    exif === undefined ? [] : [Uint8Array.of(0xff, 0xe1, ...be16(8 + exif.length)), ascii('Exif\0\0'), exif];
  return joinBytes([
    Uint8Array.of(0xff, 0xd8),
    ...app1,
    Uint8Array.of(0xff, 0xc0, ...be16(11), 8, ...be16(height), ...be16(width), 1, 1, 0x11, 0),
    Uint8Array.of(0xff, 0xd9),
  ]);
}

export const pngHead = (width: number, height: number, chunk?: string): Uint8Array =>
  joinBytes([
    Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, ...be32(13)),
    ascii('IHDR'),
    Uint8Array.of(...be32(width), ...be32(height), 8, 2, 0, 0, 0, ...be32(0)),
    ...(chunk === undefined
      ? []
      : [Uint8Array.of(...be32(4)), ascii(chunk), Uint8Array.of(1, 2, 3, 4, ...be32(0))]),
  ]);

export function webpHead(width: number, height: number): Uint8Array {
  const out = new Uint8Array(32);
  out.set(ascii('RIFF'));
  out.set(ascii('WEBPVP8X'), 8);
  const view = new DataView(out.buffer);
  view.setUint32(16, 10, true);
  view.setUint32(24, width - 1, true);
  const h = height - 1;
  out.set([h & 0xff, (h >>> 8) & 0xff, (h >>> 16) & 0xff], 27);
  return out;
}

/** In place of a canvas: JPEG beginnings that differ by the file's own bytes. */
export const reduceInTest: Reduce = async (file, from, sides) => {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const mark = bytes.at(-1) ?? 0;
  if (mark === 0xee) throw new Error('cannot be decoded');
  return sides.map((side) => {
    const share = Math.min(1, side / Math.max(from.width, from.height));
    const [width, height] = [Math.round(from.width * share), Math.round(from.height * share)];
    return { bytes: joinBytes([jpegHead(width, height), Uint8Array.of(mark)]), width, height };
  });
};

/** A file from a camera that differs by its number. */
export const photoFile = (number: number, exif?: Uint8Array): File =>
  new File(
    [joinBytes([jpegHead(4000, 3000, exif), Uint8Array.of(number)]) as Uint8Array<ArrayBuffer>],
    'p.jpg',
    {
      type: 'image/jpeg',
    },
  );
