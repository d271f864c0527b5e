/**
 * The page of a run's trace, byte by byte (docs/record.md holds the same in prose). Everything little-endian.
 * A run is one append-only file of such pages; a page holds all that entered in about half a second.
 */

import { makeColumnList, sampleBytes } from './columns.ts';
import { isUtcMs } from './utc.ts';

/** "Sbarpage" in ASCII. */
export const MAGIC = Uint8Array.of(0x53, 0x62, 0x61, 0x72, 0x70, 0x61, 0x67, 0x65);
/**
 * Format 3 is a page in which a state of the engine stands; format 2 one in which entries of a second adapter stand, and no
 * state; every other page is of format 1.
 */
export const PAGE_FORMATS = [1, 2, 3] as const;
export type PageFormat = (typeof PAGE_FORMATS)[number];

/** Fixed part of the header, bytes. */
export const FIXED_HEADER = 112;
/** A page is never larger: a length field that claims more is damage, and bounds what a reader allocates. */
export const MAX_PAGE_BYTES = 4 << 20;
/** Longest line of the entry and event sections, and longest head, bytes. */
export const MAX_LINE_BYTES = 1 << 20;
export const MAX_PAGE_SAMPLES = 16_384;
export const MAX_PAGE_CHANNELS = 7;
export const MAX_RUN_ID = 64;
export const HASH_BYTES = 32;

/** Flag bits of the header. */
export const PAGE_FLAG = {
  /** Carries the log's head; the first page and no other. */
  head: 1,
  /** The last page: nothing follows. */
  end: 2,
  /** With `end`: the run was not ended by its crew, it was found open and closed. */
  interrupted: 4,
  /** The first page after the run was taken up again. */
  resumed: 8,
} as const;
const KNOWN_FLAGS = Object.values(PAGE_FLAG).reduce((all, flag) => all | flag, 0);

/** utcMs field of a page whose wall clock is not known. */
const NO_UTC = 0xffff_ffff_ffff_ffffn;
const WORD = 2 ** 32;

/** u64 as the nearest number: exact as far as numbers are, which is checked by whoever asks. */
const u64 = (view: DataView, at: number): number =>
  view.getUint32(at + 4, true) * WORD + view.getUint32(at, true);

export interface PageHeader {
  readonly format: PageFormat;
  /** Offset of the first column from the start of the page: a multiple of 8. */
  readonly headerBytes: number;
  /** Whole page with its CRC: a multiple of 8. */
  readonly pageBytes: number;
  readonly index: number;
  readonly flags: number;
  /** Channels of the sample columns, 0-7. */
  readonly channels: number;
  readonly runId: string;
  /** Arrival of the first and last entry of the page on the run clock, µs. Sample times count from firstUs. */
  readonly firstUs: number;
  readonly lastUs: number;
  /** UTC in ms when the page was cut; null: not known. */
  readonly utcMs: number | null;
  readonly samples: number;
  readonly entries: number;
  readonly entryBytes: number;
  readonly events: number;
  readonly eventBytes: number;
  readonly headBytes: number;
  /** SHA-256 of the whole page before this one; zeros before the first. */
  readonly previous: Uint8Array;
}

const perChannels = <T>(make: (channels: number) => T): readonly T[] =>
  Array.from({ length: MAX_PAGE_CHANNELS + 1 }, (_, n) => make(n));
const LISTS = perChannels(makeColumnList);
const SAMPLE_BYTES = perChannels(sampleBytes);

/** The column list of a page with so many channels, four bytes a column. */
export const columnList = (channels: number): Uint8Array => LISTS[channels]!;

export const columnCount = (channels: number): number => columnList(channels).length / 4;

export const pad8 = (n: number): number => (n + 7) & ~7;

/** Bytes of a page's header for a run id of so many bytes. */
export const headerBytesFor = (channels: number, runIdBytes: number): number =>
  pad8(FIXED_HEADER + 4 * columnCount(channels) + runIdBytes);

/** Bytes of the sample columns. */
export const columnBytesFor = (channels: number, samples: number): number =>
  samples * SAMPLE_BYTES[channels]!;

/** Bytes of a whole page; the CRC is the last four. */
export const pageBytesFor = (headerBytes: number, channels: number, samples: number, texts: number): number =>
  pad8(headerBytes + columnBytesFor(channels, samples) + texts + 4);

export interface HeaderFields extends Omit<PageHeader, 'runId'> {
  readonly runId: Uint8Array;
}

/** Writes header, column list and run id at the start of `page`. */
export function writeHeader(page: Uint8Array, h: HeaderFields): void {
  const view = new DataView(page.buffer, page.byteOffset, page.byteLength);
  page.set(MAGIC, 0);
  view.setUint16(8, h.format, true);
  view.setUint16(10, h.headerBytes, true);
  view.setUint32(12, h.pageBytes, true);
  view.setUint32(16, h.index, true);
  view.setUint16(20, h.flags, true);
  view.setUint8(22, h.channels);
  view.setUint8(23, h.runId.length);
  view.setBigUint64(24, BigInt(h.firstUs), true);
  view.setBigUint64(32, BigInt(h.lastUs), true);
  view.setBigUint64(40, h.utcMs === null ? NO_UTC : BigInt(h.utcMs), true);
  view.setUint32(48, h.samples, true);
  view.setUint32(52, h.entries, true);
  view.setUint32(56, h.entryBytes, true);
  view.setUint32(60, h.events, true);
  view.setUint32(64, h.eventBytes, true);
  view.setUint32(68, h.headBytes, true);
  view.setUint32(72, columnCount(h.channels), true);
  view.setUint32(76, 0, true);
  page.set(h.previous, 80);
  const list = columnList(h.channels);
  page.set(list, FIXED_HEADER);
  page.set(h.runId, FIXED_HEADER + list.length);
}

export type HeaderResult =
  | { readonly ok: true; readonly header: PageHeader }
  /** 'torn': fewer bytes than a header. */
  | { readonly ok: false; readonly what: 'form' | 'version' | 'torn' };

const FORM: HeaderResult = { ok: false, what: 'form' };

export function hasMagic(bytes: Uint8Array, at: number): boolean {
  if (at + 8 > bytes.length) return false;
  for (let i = 0; i < 8; i++) if (bytes[at + i] !== MAGIC[i]) return false;
  return true;
}

/** So many bytes from `at` on tell whether a page stands there: never more than the largest page has. */
export function neededBytes(bytes: Uint8Array, at: number): number {
  if (at + FIXED_HEADER > bytes.length || !hasMagic(bytes, at)) return FIXED_HEADER;
  const pageBytes =
    (bytes[at + 12]! | (bytes[at + 13]! << 8) | (bytes[at + 14]! << 16) | (bytes[at + 15]! << 24)) >>> 0;
  return pageBytes > MAX_PAGE_BYTES ? FIXED_HEADER : Math.max(FIXED_HEADER, pageBytes);
}

const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

/** The run id that was read last: all pages of a run have the same. */
let known = { bytes: new Uint8Array(0), text: '' };

/** null where it is no text. */
function runIdAt(bytes: Uint8Array, at: number, length: number): string | null {
  let same = length === known.bytes.length;
  for (let i = 0; same && i < length; i++) same = bytes[at + i] === known.bytes[i];
  if (same) return known.text;
  const id = bytes.slice(at, at + length);
  try {
    known = { bytes: id, text: decoder.decode(id) };
  } catch {
    return null;
  }
  return known.text;
}

/** Reads the header at `at`; checks every bound before it is used, never reads past the array, never throws. */
export function readHeader(bytes: Uint8Array, at: number): HeaderResult {
  if (at + FIXED_HEADER > bytes.length) return { ok: false, what: 'torn' };
  if (!hasMagic(bytes, at)) return FORM;
  const view = new DataView(bytes.buffer, bytes.byteOffset + at, bytes.length - at);
  const format = PAGE_FORMATS.find((f) => f === view.getUint16(8, true));
  if (format === undefined) return { ok: false, what: 'version' };
  const headerBytes = view.getUint16(10, true);
  const pageBytes = view.getUint32(12, true);
  const flags = view.getUint16(20, true);
  const channels = view.getUint8(22);
  const idBytes = view.getUint8(23);
  const firstUs = u64(view, 24);
  const lastUs = u64(view, 32);
  const noUtc = view.getUint32(40, true) === WORD - 1 && view.getUint32(44, true) === WORD - 1;
  const utcMs = noUtc ? null : u64(view, 40);
  const samples = view.getUint32(48, true);
  const entries = view.getUint32(52, true);
  const entryBytes = view.getUint32(56, true);
  const events = view.getUint32(60, true);
  const eventBytes = view.getUint32(64, true);
  const headBytes = view.getUint32(68, true);
  if (pageBytes > MAX_PAGE_BYTES || channels > MAX_PAGE_CHANNELS || idBytes > MAX_RUN_ID) return FORM;
  if (samples > MAX_PAGE_SAMPLES || (flags & ~KNOWN_FLAGS) !== 0) return FORM;
  if (Math.max(entryBytes, eventBytes, headBytes) > MAX_PAGE_BYTES) return FORM;
  // A line is at least one character and its LF.
  if (entries * 2 > entryBytes || events * 2 > eventBytes) return FORM;
  if (headerBytes !== headerBytesFor(channels, idBytes)) return FORM;
  if (pageBytes !== pageBytesFor(headerBytes, channels, samples, entryBytes + eventBytes + headBytes))
    return FORM;
  if (view.getUint32(72, true) !== columnCount(channels) || view.getUint32(76, true) !== 0) return FORM;
  if (!Number.isSafeInteger(lastUs) || firstUs > lastUs) return FORM;
  if (utcMs !== null && !isUtcMs(utcMs)) return FORM;
  if (headerBytes > bytes.length - at) return { ok: false, what: 'torn' };
  const list = columnList(channels);
  for (let i = 0; i < list.length; i++) if (bytes[at + FIXED_HEADER + i] !== list[i]) return FORM;
  const idAt = at + FIXED_HEADER + list.length;
  const runId = runIdAt(bytes, idAt, idBytes);
  if (runId === null) return FORM;
  const header: PageHeader = {
    format,
    headerBytes,
    pageBytes,
    index: view.getUint32(16, true),
    flags,
    channels,
    runId,
    firstUs,
    lastUs,
    utcMs,
    samples,
    entries,
    entryBytes,
    events,
    eventBytes,
    headBytes,
    previous: bytes.slice(at + 80, at + 80 + HASH_BYTES),
  };
  return { ok: true, header };
}
