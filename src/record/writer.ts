/**
 * Entries and events to pages. The writer keeps the open page in memory; cut() closes it and gives its bytes, for
 * the owner to append and flush. Nothing here is at rest until the store says so.
 */
import { sha256 } from '@noble/hashes/sha2.js';
import type { SampleFrame } from '../link/frames.ts';
import type { WatchEvent } from '../watch/events.ts';
import { crc32c } from './crc.ts';
import { entryLine, eventLine } from './entry-text.ts';
import {
  HASH_BYTES,
  headerBytesFor,
  MAX_LINE_BYTES,
  MAX_PAGE_SAMPLES,
  MAX_RUN_ID,
  PAGE_FLAG,
  pageBytesFor,
  writeHeader,
} from './layout.ts';
import type { LogEntry, LogHead } from './log.ts';
import type { RunEnd } from './types.ts';

/** Text of one page beyond which it is closed, so that a page stays far under its bound. */
const FULL_TEXT_BYTES = 256 << 10;
const U32_MAX = 0xffff_ffff;

/** Where a run that is taken up again goes on: see recovery. */
export interface WriterStart {
  readonly index: number;
  /** SHA-256 of the last page that stands. */
  readonly previous: Uint8Array;
  /** Arrival of the last entry that stands, µs. */
  readonly lastUs: number;
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

/** Growing columns of the open page; reused from page to page. */
class Columns {
  n = 0;
  channels = -1;
  dt = new Uint32Array(64);
  seq = new Uint32Array(64);
  tick = new Uint32Array(64);
  counts: Int32Array[] = [];
  status = new Uint16Array(64);
  nulls = new Uint8Array(64);

  reset(): void {
    this.n = 0;
    this.channels = -1;
  }

  private grow(): void {
    const size = this.dt.length * 2;
    const wider = <T extends Uint8Array | Uint16Array | Uint32Array | Int32Array>(from: T, to: T): T => {
      to.set(from);
      return to;
    };
    this.dt = wider(this.dt, new Uint32Array(size));
    this.seq = wider(this.seq, new Uint32Array(size));
    this.tick = wider(this.tick, new Uint32Array(size));
    this.counts = this.counts.map((c) => wider(c, new Int32Array(size)));
    this.status = wider(this.status, new Uint16Array(size));
    this.nulls = wider(this.nulls, new Uint8Array(size));
  }

  /** False when the sample belongs among the texts: another number of channels, or too far from the first. */
  push(dt: number, frame: SampleFrame): boolean {
    const { counts } = frame;
    if (dt > U32_MAX || (this.channels >= 0 && counts.length !== this.channels)) return false;
    if (this.channels < 0) {
      this.channels = counts.length;
      while (this.counts.length < counts.length) this.counts.push(new Int32Array(this.dt.length));
    }
    const i = this.n;
    if (i === this.dt.length) this.grow();
    let nulls = 0;
    for (let c = 0; c < counts.length; c++) {
      const value = counts[c]!;
      if (value === null) nulls |= 1 << c;
      this.counts[c]![i] = value ?? 0;
    }
    this.dt[i] = dt;
    this.seq[i] = frame.seq;
    this.tick[i] = frame.tick;
    this.status[i] = frame.status;
    this.nulls[i] = nulls;
    this.n = i + 1;
    return true;
  }

  /** Columns one after another from `at`; the caller made room. Little-endian whatever the machine. */
  write(page: Uint8Array, at: number): number {
    const view = new DataView(page.buffer, page.byteOffset, page.byteLength);
    const { n } = this;
    let p = at;
    for (const column of [this.dt, this.seq, this.tick])
      for (let i = 0; i < n; i++, p += 4) view.setUint32(p, column[i]!, true);
    for (let c = 0; c < this.channels; c++) {
      const column = this.counts[c]!;
      for (let i = 0; i < n; i++, p += 4) view.setInt32(p, column[i]!, true);
    }
    for (let i = 0; i < n; i++, p += 2) view.setUint16(p, this.status[i]!, true);
    for (let i = 0; i < n; i++, p++) page[p] = this.nulls[i]!;
    return p;
  }
}

const utf8 = new TextEncoder();
const lines = (list: readonly string[]): Uint8Array =>
  list.length === 0 ? new Uint8Array(0) : utf8.encode(`${list.join('\n')}\n`);

class Writer implements PageWriter {
  private readonly columns = new Columns();
  private readonly runId: Uint8Array;
  private head: Uint8Array | null;
  private entries: string[] = [];
  private events: string[] = [];
  private textBytes = 0;
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
    return (
      this.textBytes + n * (15 + 4 * Math.max(0, channels)) + this.done.reduce((s, d) => s + d.length, 0)
    );
  }

  get next(): { index: number; previous: Uint8Array } {
    return { index: this.index, previous: this.previous.slice() };
  }

  addEntry(entry: LogEntry): void {
    this.mayAdd();
    const { tUs } = entry;
    if (!Number.isSafeInteger(tUs) || tUs < this.lastUs)
      throw new RangeError(`tUs ${tUs} is not a whole number of µs at or after ${this.lastUs}`);
    if (this.full) this.seal(null, 0);
    const fits =
      entry.l === 'frame' &&
      entry.frame.t === 'S' &&
      this.columns.push(tUs - (this.firstUs ?? tUs), entry.frame);
    if (!fits) this.entries.push(this.line(entryLine(this.columns.n, entry)));
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
    if (done.length <= 1) return done[0] ?? null;
    const all = new Uint8Array(done.reduce((s, d) => s + d.length, 0));
    let at = 0;
    for (const d of done) {
      all.set(d, at);
      at += d.length;
    }
    return all;
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
