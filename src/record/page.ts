/** One page, read and checked: bytes to entries and events. Never throws on bytes that are no page. */

import type { Raw } from '../link/maps/raw.ts';
import type { WatchEvent } from '../watch/events.ts';
import { readColumns, type SampleColumns, sampleAt } from './columns.ts';
import { crc32c } from './crc.ts';
import { formatFor, type PlacedEntry, parseEntryLine, parseEventLine, parseHead } from './entry-text.ts';
import { columnBytesFor, PAGE_FLAG, type PageFormat, type PageHeader, readHeader } from './layout.ts';
import type { FrameEntry, LogEntry, LogHead } from './log.ts';

export interface Page {
  readonly header: PageHeader;
  readonly offset: number;
  /** The page's very bytes. */
  readonly bytes: Uint8Array;
  /** Views into the page where its place in memory allows. */
  readonly samples: SampleColumns;
  readonly placed: readonly PlacedEntry[];
  readonly events: readonly WatchEvent[];
  readonly head: LogHead | null;
}

export type PageResult =
  | { readonly ok: true; readonly page: Page }
  | {
      readonly ok: false;
      readonly what: 'crc' | 'form' | 'version' | 'torn';
      /** The header, where it was whole: its index and times are then a hint at what was lost. */
      readonly header: PageHeader | null;
    };

/** A page as it was read. Its columns are made when they are asked for: most looks at a run need none. */
class ReadPage implements Page {
  private columns: SampleColumns | null = null;

  constructor(
    readonly header: PageHeader,
    readonly offset: number,
    readonly bytes: Uint8Array,
    readonly placed: readonly PlacedEntry[],
    private list: readonly WatchEvent[] | null,
    readonly head: LogHead | null,
  ) {}

  get events(): readonly WatchEvent[] {
    this.list ??= eventsOf(this.header, this.bytes) ?? [];
    return this.list;
  }

  get samples(): SampleColumns {
    if (this.columns === null) {
      const { headerBytes, channels, samples } = this.header;
      const to = headerBytes + columnBytesFor(channels, samples);
      this.columns = readColumns(this.bytes.subarray(headerBytes, to), channels, samples);
    }
    return this.columns;
  }
}

const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

/** The lines of a section, each closed by LF, exactly so many; null otherwise. */
function readLines(bytes: Uint8Array, count: number): string[] | null {
  if (bytes.length === 0) return count === 0 ? [] : null;
  let text: string;
  try {
    text = decoder.decode(bytes);
  } catch {
    return null;
  }
  if (!text.endsWith('\n')) return null;
  const list = text.slice(0, -1).split('\n');
  return list.length === count ? list : null;
}

function parseAll<T>(list: readonly string[] | null, parse: (line: string) => T | null): T[] | null {
  if (list === null) return null;
  const out: T[] = [];
  for (const line of list) {
    const value = parse(line);
    if (value === null) return null;
    out.push(value);
  }
  return out;
}

/** null where they are not what the header says. */
function eventsOf(h: PageHeader, page: Uint8Array): readonly WatchEvent[] | null {
  const at = h.headerBytes + columnBytesFor(h.channels, h.samples) + h.entryBytes;
  return parseAll(readLines(page.subarray(at, at + h.eventBytes), h.events), parseEventLine);
}

/** Whether entries and samples of the page are in one order that never descends in time. */
function inOrder(h: PageHeader, page: Uint8Array, placed: readonly PlacedEntry[]): boolean {
  const dt = new DataView(page.buffer, page.byteOffset + h.headerBytes, 4 * h.samples);
  let last = h.firstUs;
  let p = 0;
  for (let i = 0; i <= h.samples; i++) {
    for (; p < placed.length && placed[p]!.samplesBefore === i; p++) {
      if (placed[p]!.entry.tUs < last) return false;
      last = placed[p]!.entry.tUs;
    }
    if (i === h.samples) break;
    const t = h.firstUs + dt.getUint32(4 * i, true);
    if (t < last) return false;
    last = t;
  }
  return p === placed.length && last <= h.lastUs;
}

/** A page holds one state at the most: it is a place to begin at. null: it holds more. */
function formatOf(placed: readonly PlacedEntry[]): PageFormat | null {
  let format: PageFormat = 1;
  let states = 0;
  for (const { entry } of placed) {
    if (entry.l === 'state') states++;
    format = Math.max(format, formatFor(entry)) as PageFormat;
  }
  return states > 1 ? null : format;
}

/**
 * The page that starts at `at`, with everything in it checked.
 * @param base where the bytes lie in the run's file
 * @param sound it was read before and is: it is not checked a second time
 */
export function readPage(file: Uint8Array, at: number, base = 0, sound = false): PageResult {
  const found = readHeader(file, at);
  if (!found.ok) return { ok: false, what: found.what, header: null };
  const { header: h } = found;
  const end = at + h.pageBytes;
  if (end > file.length) return { ok: false, what: 'torn', header: h };
  const bytes = file.subarray(at, end);
  const stored = new DataView(bytes.buffer, bytes.byteOffset + h.pageBytes - 4, 4).getUint32(0, true);
  if (!sound && crc32c(bytes, 0, h.pageBytes - 4) !== stored) return { ok: false, what: 'crc', header: h };
  const bad: PageResult = { ok: false, what: 'form', header: h };
  let p = h.headerBytes + columnBytesFor(h.channels, h.samples);
  const placed = parseAll(readLines(bytes.subarray(p, p + h.entryBytes), h.entries), parseEntryLine);
  p += h.entryBytes;
  const events = sound ? null : eventsOf(h, bytes);
  p += h.eventBytes;
  if (placed === null || (!sound && events === null)) return bad;
  // A page has one form only.
  if (h.format !== formatOf(placed)) return bad;
  let head: LogHead | null = null;
  if ((h.flags & PAGE_FLAG.head) !== 0) {
    try {
      head = parseHead(decoder.decode(bytes.subarray(p, p + h.headBytes)));
    } catch {
      return bad;
    }
    if (head === null || head.runId !== h.runId || h.index !== 0) return bad;
  } else if (h.headBytes !== 0 || h.index === 0) return bad;
  // The rest up to the CRC is zero: a page has one form only.
  for (p += h.headBytes; !sound && p < h.pageBytes - 4; p++) if (bytes[p] !== 0) return bad;
  if (!sound && !inOrder(h, bytes, placed)) return bad;
  return { ok: true, page: new ReadPage(h, base + at, bytes, placed, events, head) };
}

const sampleEntry = ({ header, samples }: Page, i: number): FrameEntry => ({
  l: 'frame',
  tUs: header.firstUs + samples.dt[i]!,
  frame: sampleAt(samples, i),
});

const madeOf = (entry: LogEntry, raw: Raw | null): LogEntry =>
  raw !== null && entry.l === 'frame' && entry.frame.t === 'S' ? { ...entry, raw } : entry;

/** Goes through everything that entered during a page, in its very order. */
export class EntryCursor {
  private sample = 0;
  private text = 0;

  constructor(private readonly page: Page) {}

  /** null behind the last one. */
  next(): LogEntry | null {
    const { placed, header } = this.page;
    let raw: Raw | null = null;
    for (;;) {
      const text = placed[this.text];
      if (text?.samplesBefore !== this.sample) break;
      this.text++;
      if (text.entry.l !== 'raw') return madeOf(text.entry, raw);
      raw = text.entry.raw;
    }
    return this.sample < header.samples ? madeOf(sampleEntry(this.page, this.sample++), raw) : null;
  }
}

/** Everything that entered during the page, in its very order. */
export function* pageEntries(page: Page): Generator<LogEntry, void, undefined> {
  const cursor = new EntryCursor(page);
  for (let entry = cursor.next(); entry !== null; entry = cursor.next()) yield entry;
}
