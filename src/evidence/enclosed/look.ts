/**
 * What a file is before anything decodes it: its kind, its size in pixels, and what it says besides its picture. Only
 * the beginning is read, every length is bounded before it is used, and nothing of it is believed beyond these.
 * JPEG: ITU-T T.81 annex B. Exif: CIPA DC-008 (TIFF 6.0 directories). PNG: ISO/IEC 15948. WebP: its RIFF container.
 */
import type { Carried, OriginalType } from '../../job/enclosed.ts';

export interface PictureLook {
  readonly type: OriginalType;
  readonly width: number;
  readonly height: number;
  readonly carries: readonly Carried[];
}

export type LookRefusal =
  | 'not-a-picture' // another kind of file
  | 'heic' // a camera's own format, which browsers don't open
  | 'drawing' // SVG: it may hold anything
  | 'broken'; // its beginning is not what its kind has

export type LookResult =
  | { readonly ok: true; readonly look: PictureLook }
  | { readonly ok: false; readonly why: LookRefusal };

/** So much of a file is looked at: camera data and previews stand before the size. */
export const LOOK_BYTES = 1 << 20;

const BROKEN: LookResult = { ok: false, why: 'broken' };

const ascii = (b: Uint8Array, at: number, length: number): string =>
  String.fromCharCode(...b.subarray(at, at + length));

const u16 = (b: Uint8Array, at: number): number => ((b[at] ?? 0) << 8) | (b[at + 1] ?? 0);
const u32 = (b: Uint8Array, at: number): number => u16(b, at) * 65_536 + u16(b, at + 2);

/** Directory entries of one TIFF directory that are looked at. */
const MOST_ENTRIES = 400;

/** Exif tags by what they tell. */
const PERSON = new Set([0x013b, 0x8298, 0x9c9d, 0xa430, 0x9286, 0x9c9c]);
const TIME = new Set([0x0132, 0x9003, 0x9004]);
const DEVICE = new Set([0x010f, 0x0110, 0xa431, 0xa434, 0xa435]);
const GPS = 0x8825;
const EXIF = 0x8769;

/** What a block of Exif says, by the tags that it holds. @param b from its byte order mark on */
export function exifCarries(b: Uint8Array): ReadonlySet<Carried> {
  const found = new Set<Carried>();
  const order = ascii(b, 0, 2);
  if ((order !== 'II' && order !== 'MM') || b.length < 8) return found;
  const view = new DataView(b.buffer, b.byteOffset, b.byteLength);
  const little = order === 'II';
  const seen = new Set<number>();
  const walk = (at: number): void => {
    // A directory that leads back to itself, or out of the block, ends the walk.
    if (seen.has(at) || at < 8 || at + 2 > b.length || seen.size > 8) return;
    seen.add(at);
    const entries = Math.min(view.getUint16(at, little), MOST_ENTRIES);
    for (let i = 0; i < entries; i++) {
      const entry = at + 2 + 12 * i;
      if (entry + 12 > b.length) return;
      const tag = view.getUint16(entry, little);
      if (tag === GPS) found.add('place');
      if (PERSON.has(tag)) found.add('person');
      if (TIME.has(tag)) found.add('time');
      if (DEVICE.has(tag)) found.add('device');
      if (tag === EXIF) walk(view.getUint32(entry + 8, little));
    }
  };
  walk(view.getUint32(4, little));
  return found;
}

const sorted = (found: ReadonlySet<Carried>): readonly Carried[] =>
  (['place', 'person', 'time', 'device', 'other'] as const).filter((c) => found.has(c));

/** Start of frame markers of T.81: those that tell a size. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

function lookAtJpeg(b: Uint8Array): LookResult {
  const found = new Set<Carried>();
  let at = 2;
  while (at + 4 <= b.length) {
    if (b[at] !== 0xff) return BROKEN;
    const marker = b[at + 1]!;
    // Fill bytes.
    if (marker === 0xff) {
      at++;
      continue;
    }
    const length = u16(b, at + 2);
    if (length < 2) return BROKEN;
    const data = b.subarray(at + 4, at + 2 + length);
    if (isFrame(marker)) {
      if (data.length < 6) return BROKEN;
      const [height, width] = [u16(data, 1), u16(data, 3)];
      return width === 0 || height === 0
        ? BROKEN
        : { ok: true, look: { type: 'jpeg', width, height, carries: sorted(found) } };
    }
    if (marker === 0xe1 && ascii(data, 0, 4) === 'Exif')
      for (const c of exifCarries(data.subarray(6))) found.add(c);
    // XMP, IPTC and comments may name a place or a person in words of their own.
    else if (marker === 0xe1 || marker === 0xed || marker === 0xfe) found.add('other');
    if (marker === 0xd9 || marker === 0xda) return BROKEN;
    at += 2 + length;
  }
  return BROKEN;
}

function lookAtPng(b: Uint8Array): LookResult {
  if (b.length < 33 || ascii(b, 12, 4) !== 'IHDR') return BROKEN;
  const [width, height] = [u32(b, 16), u32(b, 20)];
  if (width === 0 || height === 0) return BROKEN;
  const found = new Set<Carried>();
  for (let at = 8; at + 12 <= b.length; ) {
    const length = u32(b, at);
    const kind = ascii(b, at + 4, 4);
    if (kind === 'eXIf') for (const c of exifCarries(b.subarray(at + 8, at + 8 + length))) found.add(c);
    if (kind === 'tEXt' || kind === 'iTXt' || kind === 'zTXt') found.add('other');
    if (kind === 'tIME') found.add('time');
    at += 12 + length;
  }
  return { ok: true, look: { type: 'png', width, height, carries: sorted(found) } };
}

function lookAtWebp(b: Uint8Array): LookResult {
  if (b.length < 30) return BROKEN;
  const view = new DataView(b.buffer, b.byteOffset, b.byteLength);
  const kind = ascii(b, 12, 4);
  const found = new Set<Carried>();
  let [width, height] = [0, 0];
  if (kind === 'VP8X') {
    const flags = b[20]!;
    if ((flags & 0x08) !== 0 || (flags & 0x04) !== 0) found.add('other');
    width = 1 + (view.getUint32(24, true) & 0xff_ffff);
    height = 1 + ((view.getUint32(26, true) >>> 8) & 0xff_ffff);
  } else if (kind === 'VP8 ') {
    width = view.getUint16(26, true) & 0x3fff;
    height = view.getUint16(28, true) & 0x3fff;
  } else if (kind === 'VP8L') {
    const bits = view.getUint32(21, true);
    width = 1 + (bits & 0x3fff);
    height = 1 + ((bits >>> 14) & 0x3fff);
  }
  return width === 0 || height === 0
    ? BROKEN
    : { ok: true, look: { type: 'webp', width, height, carries: sorted(found) } };
}

/** Brands of ISO/IEC 23008-12 files as cameras write them. */
const HEIF = /^(heic|heix|hevc|heim|heis|mif1|msf1|avif)$/;
const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** @param b the first LOOK_BYTES of the file, or all of a shorter one */
export function lookAt(b: Uint8Array): LookResult {
  if (b[0] === 0xff && b[1] === 0xd8 && b[2] === 0xff) return lookAtJpeg(b);
  if (PNG.every((v, i) => b[i] === v)) return lookAtPng(b);
  if (ascii(b, 0, 4) === 'RIFF' && ascii(b, 8, 4) === 'WEBP') return lookAtWebp(b);
  if (ascii(b, 4, 4) === 'ftyp' && HEIF.test(ascii(b, 8, 4))) return { ok: false, why: 'heic' };
  if (/<svg[\s>]/i.test(ascii(b, 0, Math.min(b.length, 4096)))) return { ok: false, why: 'drawing' };
  return { ok: false, why: 'not-a-picture' };
}
