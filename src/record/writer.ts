/**
 * Entries and events to pages. The writer keeps the open page in memory; cut() closes it and gives its bytes, for
 * the owner to append and flush. Nothing here is at rest until the store says so.
 */

import { sha256 } from '@noble/hashes/sha2.js';
import type { WatchEvent } from '../watch/events.ts';
import { joinBytes } from './bytes.ts';
import { GrowingColumns } from './columns.ts';
import { crc32c } from './crc.ts';
import { entryLine, eventLine, formatFor } from './entry-text.ts';
import {
  columnBytesFor,
  HASH_BYTES,
  headerBytesFor,
  MAX_LINE_BYTES,
  MAX_PAGE_SAMPLES,
  MAX_RUN_ID,
  PAGE_FLAG,
  type PageFormat,
  pageBytesFor,
  writeHeader,
} from './layout.ts';
import type { LogEntry, LogHead } from './log.ts';
import type { RunEnd } from './types.ts';

/** Text of one page beyond which it is closed, so that a page stays far under its bound. */
const FULL_TEXT_BYTES = 256 << 10;

/** Where a run that is taken up again goes on: see recovery. */
export interface WriterStart {
  readonly index: number;
  /** SHA-256 of the last page that stands. */
  readonly previous: Uint8Array;
  /** Arrival of the last entry that stands, µs. */
  readonly lastUs: number;
  /** Samples that stand. */
  readonly samples: number;
}

export interface PageWriter {
  /**
   * @throws RangeError when tUs is not a whole number of µs, descends, or when the entry's text is over
   * MAX_LINE_BYTES; the page is then as before.
   */
  addEntry(entry: LogEntry): void;
  addEvent(event: WatchEvent): void;
  /**
   * The bytes of the page so far (of several pages, after a flood), or null when nothing came in.
   * @param utcMs wall clock at the cut, null when not known
   */
  cut(utcMs: number | null): Uint8Array | null;
  /** The last bytes of the run: always a page, with the end mark. Nothing may be added after it. */
  finish(utcMs: number | null, end: RunEnd): Uint8Array;
  /** Bytes that wait for a cut, roughly: a reason to cut early. */
  readonly waiting: number;
  /** Index of the next page and SHA-256 of the last page cut. */
  readonly next: { readonly index: number; readonly previous: Uint8Array };
}

const utf8 = new TextEncoder();
const lines = (list: readonly string[]): Uint8Array =>
  list.length === 0 ? new Uint8Array(0) : utf8.encode(`${list.join('\n')}\n`);

class Writer implements PageWriter {
  private readonly columns = new GrowingColumns();
  private readonly runId: Uint8Array;
  private head: Uint8Array | null;
  private entries: string[] = [];
  private events: string[] = [];
  private textBytes = 0;
  private format: PageFormat = 1;
  private firstUs: number | null = null;
  private lastUs: number;
  private index: number;
  private previous: Uint8Array;
  private pendingFlags: number;
  private done: Uint8Array[] = [];
  private finished = false;

  constructor(head: LogHead, start: WriterStart | null) {
    this.runId = utf8.encode(head.runId);
    if (this.runId.length === 0 || this.runId.length > MAX_RUN_ID)
      throw new RangeError('a run id has 1 to 64 bytes');
    this.head = start === null ? utf8.encode(JSON.stringify(head)) : null;
    if (this.head !== null && this.head.length > MAX_LINE_BYTES) throw new RangeError('the head is too long');
    this.index = start?.index ?? 0;
    this.previous = start?.previous.slice() ?? new Uint8Array(HASH_BYTES);
    this.lastUs = start?.lastUs ?? 0;
    this.pendingFlags = start === null ? PAGE_FLAG.head : PAGE_FLAG.resumed;
  }

  get waiting(): number {
    const { n, channels } = this.columns;
    const columns = columnBytesFor(Math.max(0, channels), n);
    return this.textBytes + columns + this.done.reduce((s, d) => s + d.length, 0);
  }

  get next(): { index: number; previous: Uint8Array } {
    return { index: this.index, previous: this.previous.slice() };
  }

  addEntry(entry: LogEntry): void {
    this.mayAdd();
    const { tUs } = entry;
    if (!Number.isSafeInteger(tUs) || tUs < this.lastUs)
      throw new RangeError(`tUs ${tUs} is not a whole number of µs at or after ${this.lastUs}`);
    // A page holds one state at the most.
    if (this.full || (entry.l === 'state' && this.format === 3)) this.seal(null, 0);
    const raw = entry.l === 'frame' ? entry.raw : undefined;
    if (raw !== undefined) this.entries.push(this.line(entryLine(this.columns.n, { l: 'raw', tUs, raw })));
    const fits =
      entry.l === 'frame' &&
      entry.frame.t === 'S' &&
      this.columns.push(tUs - (this.firstUs ?? tUs), entry.frame);
    if (!fits) this.entries.push(this.line(entryLine(this.columns.n, entry)));
    this.format = Math.max(this.format, formatFor(entry)) as PageFormat;
    this.firstUs ??= tUs;
    this.lastUs = tUs;
  }

  addEvent(event: WatchEvent): void {
    this.mayAdd();
    if (this.full) this.seal(null, 0);
    this.events.push(this.line(eventLine(event)));
  }

  cut(utcMs: number | null): Uint8Array | null {
    const idle = this.columns.n === 0 && this.entries.length === 0 && this.events.length === 0;
    if (!idle || this.head !== null) this.seal(utcMs, 0);
    return this.take();
  }

  finish(utcMs: number | null, end: RunEnd): Uint8Array {
    this.mayAdd();
    this.seal(utcMs, PAGE_FLAG.end | (end === 'interrupted' ? PAGE_FLAG.interrupted : 0));
    this.finished = true;
    return this.take()!;
  }

  private mayAdd(): void {
    if (this.finished) throw new RangeError('the run has its end mark');
  }

  private get full(): boolean {
    return this.columns.n >= MAX_PAGE_SAMPLES || this.textBytes >= FULL_TEXT_BYTES;
  }

  private line(text: string): string {
    // A UTF-16 unit takes at most three bytes of UTF-8.
    const bytes = text.length * 3 > MAX_LINE_BYTES ? utf8.encode(text).length : text.length;
    if (bytes > MAX_LINE_BYTES) throw new RangeError(`an entry of ${bytes} bytes is too long for a page`);
    this.textBytes += bytes + 1;
    return text;
  }

  private take(): Uint8Array | null {
    const { done } = this;
    this.done = [];
    return done.length === 0 ? null : joinBytes(done);
  }

  private seal(utcMs: number | null, flags: number): void {
    const { columns } = this;
    const channels = Math.max(0, columns.channels);
    const entryBytes = lines(this.entries);
    const eventBytes = lines(this.events);
    const head = this.head ?? new Uint8Array(0);
    const headerBytes = headerBytesFor(channels, this.runId.length);
    const texts = entryBytes.length + eventBytes.length + head.length;
    const page = new Uint8Array(pageBytesFor(headerBytes, channels, columns.n, texts));
    writeHeader(page, {
      format: this.format,
      headerBytes,
      pageBytes: page.length,
      index: this.index,
      flags: this.pendingFlags | flags,
      channels,
      runId: this.runId,
      firstUs: this.firstUs ?? this.lastUs,
      lastUs: this.lastUs,
      utcMs: utcMs === null ? null : Math.round(utcMs),
      samples: columns.n,
      entries: this.entries.length,
      entryBytes: entryBytes.length,
      events: this.events.length,
      eventBytes: eventBytes.length,
      headBytes: head.length,
      previous: this.previous,
    });
    let at = columns.write(page, headerBytes);
    for (const text of [entryBytes, eventBytes, head]) {
      page.set(text, at);
      at += text.length;
    }
    const crc = crc32c(page, 0, page.length - 4);
    new DataView(page.buffer).setUint32(page.length - 4, crc, true);
    this.done.push(page);
    this.previous = sha256(page);
    this.index++;
    this.pendingFlags = 0;
    this.head = null;
    this.format = 1;
    this.firstUs = null;
    this.entries = [];
    this.events = [];
    this.textBytes = 0;
    columns.reset();
  }
}

/**
 * A writer of a new run, or with `start` of a run taken up again.
 * @throws RangeError on a run id of no or more than 64 bytes
 */
export function createPageWriter(head: LogHead, start: WriterStart | null = null): PageWriter {
  return new Writer(head, start);
}
