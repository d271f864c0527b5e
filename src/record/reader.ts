/** A whole run's file: what stands, what is damaged, where a torn tail would be cut. */
import type { WatchEvent } from '../watch/events.ts';
import type { ByteSource } from './byte-source.ts';
import type { TextEntry } from './entry-text.ts';
import { HASH_BYTES, PAGE_FLAG } from './layout.ts';
import type { LogEntry, LogHead } from './log.ts';
import { EntryCursor, type Page, pageEntries } from './page.ts';
import { type Scanned, type ScanOptions, scanChunks, scanPages } from './page-scanner.ts';
import type { PageDamage, RunEnd } from './types.ts';

export interface RunScan {
  readonly runId: string | null;
  readonly head: LogHead | null;
  readonly damage: readonly PageDamage[];
  /** Pages that stand. */
  readonly pages: number;
  /** Sample frames in the pages that stand, columns and texts alike. */
  readonly samples: number;
  readonly end: RunEnd | null;
  /** The run was taken up again at least once. */
  readonly resumed: boolean;
  /** Arrival of the first entry, and of the first sample, µs on the run clock. */
  readonly firstUs: number | null;
  readonly firstSampleUs: number | null;
  readonly lastUs: number;
  readonly lastUtcMs: number | null;
  readonly nextIndex: number;
  /** SHA-256 of the last page that stands; zeros without one. */
  readonly chainHead: Uint8Array;
  /** End of the last page that stands, bytes. */
  readonly goodBytes: number;
  readonly bytes: number;
}

/** What a consumer of a run is handed, in order. */
export interface RunVisitor {
  entry?(entry: LogEntry): void;
  event?(event: WatchEvent): void;
  page?(page: Page, hash: Uint8Array): void;
}

const isSample = (entry: TextEntry): boolean => entry.l === 'frame' && entry.frame.t === 'S';

/** Adds up what a scan finds. */
class RunReader {
  private readonly damage: PageDamage[] = [];
  private head: LogHead | null = null;
  private runId: string | null = null;
  private pages = 0;
  private samples = 0;
  private end: RunEnd | null = null;
  private resumed = false;
  private firstUs: number | null = null;
  private firstSampleUs: number | null = null;
  private lastUs = 0;
  private lastUtcMs: number | null = null;
  private nextIndex = 0;
  private chainHead: Uint8Array = new Uint8Array(HASH_BYTES);
  private goodBytes = 0;

  constructor(private readonly visitor: RunVisitor) {}

  take(item: Scanned): void {
    if (item.kind === 'damage') {
      this.damage.push(item.damage);
      return;
    }
    const { page, hash } = item;
    const h = page.header;
    if (this.end !== null) {
      // Nothing may follow the end mark.
      const { offset } = page;
      const after = {
        what: 'order',
        page: h.index,
        pages: 1,
        offset,
        fromUs: this.lastUs,
        toUs: null,
      } as const;
      this.damage.push(after);
      return;
    }
    this.visit(page, hash);
    this.head ??= page.head;
    this.runId ??= h.runId;
    this.pages++;
    this.samples += h.samples;
    for (const { entry } of page.placed) if (isSample(entry)) this.samples++;
    this.firstSampleUs ??= firstSampleOf(page);
    if ((h.flags & PAGE_FLAG.end) !== 0)
      this.end = (h.flags & PAGE_FLAG.interrupted) !== 0 ? 'interrupted' : 'ended';
    if ((h.flags & PAGE_FLAG.resumed) !== 0) this.resumed = true;
    if (this.firstUs === null && (h.samples > 0 || h.entries > 0)) this.firstUs = h.firstUs;
    this.lastUs = h.lastUs;
    this.lastUtcMs = h.utcMs ?? this.lastUtcMs;
    this.nextIndex = h.index + 1;
    this.chainHead = hash;
    this.goodBytes = page.offset + h.pageBytes;
  }

  private visit(page: Page, hash: Uint8Array): void {
    const { visitor } = this;
    visitor.page?.(page, hash);
    if (visitor.entry) for (const entry of pageEntries(page)) visitor.entry(entry);
    if (visitor.event) for (const event of page.events) visitor.event(event);
  }

  result(bytes: number): RunScan {
    const { damage, head, runId, pages, samples, end, resumed, firstUs, firstSampleUs } = this;
    const { lastUs, lastUtcMs, nextIndex, chainHead, goodBytes } = this;
    return {
      runId,
      head,
      damage,
      pages,
      samples,
      end,
      resumed,
      firstUs,
      firstSampleUs,
      lastUs,
      lastUtcMs,
      nextIndex,
      chainHead,
      goodBytes,
      bytes,
    };
  }
}

/** Arrival of the page's first sample, wherever it stands; null without one. */
export function firstSampleOf(page: Page): number | null {
  const cursor = new EntryCursor(page);
  for (let entry = cursor.next(); entry !== null; entry = cursor.next())
    if (isSample(entry)) return entry.tUs;
  return null;
}

/** Reads a run's file from end to end, hands out what it holds and says how it stands. */
export function scanRun(file: Uint8Array, visitor: RunVisitor = {}, options: ScanOptions = {}): RunScan {
  const reader = new RunReader(visitor);
  for (const item of scanPages(file, options)) reader.take(item);
  return reader.result(file.length);
}

/** The same for a file that does not stand in memory. @param tap is given every chunk as it was read */
export async function readRun(
  source: ByteSource,
  visitor: RunVisitor,
  options: ScanOptions = {},
  tap?: (chunk: Uint8Array) => void,
): Promise<RunScan> {
  const reader = new RunReader(visitor);
  for await (const items of scanChunks(source, options, tap)) for (const item of items) reader.take(item);
  return reader.result(source.size);
}
