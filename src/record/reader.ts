/**
 * A run's file, page after page. Damage is named and stepped over; what stands between is read. Nothing here
 * throws on garbage, and no length is believed before it is bounded.
 */
import { sha256 } from '@noble/hashes/sha2.js';
import type { WatchEvent } from '../watch/events.ts';
import { HASH_BYTES, hasMagic, PAGE_FLAG, type PageHeader } from './layout.ts';
import type { LogEntry, LogHead } from './log.ts';
import { type Page, pageEntries, readPage } from './page.ts';
import type { PageHashes } from './page-hashes.ts';
import type { PageDamage, PageFault, RunEnd } from './types.ts';

export type Scanned =
  | { readonly kind: 'page'; readonly page: Page /** SHA-256 of the page. */; readonly hash: Uint8Array }
  | { readonly kind: 'damage'; readonly damage: PageDamage };

export interface ScanOptions {
  /**
   * Compute and compare the chain of hashes (default). Without it a scan takes about half the time and `hash` is
   * empty: enough for showing a trace, not for trusting it.
   */
  readonly chain?: boolean;
  /** Hashes that are known already; what they lack is computed. */
  readonly hashes?: PageHashes;
}

const same = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((v, i) => v === b[i]);

/** Where the next page begins at or after `from`: pages lie on multiples of 8. */
function nextMagic(file: Uint8Array, from: number): number | null {
  for (let at = (from + 7) & ~7; at + 8 <= file.length; at += 8) if (hasMagic(file, at)) return at;
  return null;
}

/** Pages and damage, in the order of the file. */
export function* scanPages(file: Uint8Array, options: ScanOptions = {}): Generator<Scanned, void, undefined> {
  const chain = options.chain ?? true;
  let at = 0;
  let expected = 0;
  /** Hash of the page before, null where it isn't known (damage between). */
  let previous: Uint8Array | null = new Uint8Array(HASH_BYTES);
  let lastUs: number | null = null;
  let runId: string | null = null;
  /** A page that failed, waiting for the next good one to bound it in time. */
  let held: { what: PageFault; page: number; offset: number } | null = null;

  const damage = (
    what: PageFault,
    page: number,
    pages: number,
    offset: number,
    toUs: number | null,
  ): Scanned => ({ kind: 'damage', damage: { what, page, pages, offset, fromUs: lastUs, toUs } });

  while (at < file.length) {
    const result = readPage(file, at);
    if (!result.ok) {
      // A tear is the end of the file; when a whole page follows, it was a lying length field instead.
      const end = result.header !== null ? at + result.header.pageBytes : null;
      const follows = end !== null && (end === file.length || hasMagic(file, end));
      const next = follows ? end : nextMagic(file, at + 8);
      // Noise in which no page begins any more is a tear, whatever it looks like at its start.
      const what = next === null && result.header === null ? 'torn' : result.what;
      if (held === null) {
        held = { what: result.what === 'torn' && next !== null ? 'form' : what, page: expected, offset: at };
        if (follows) expected++;
      } else if (follows) {
        yield damage(held.what, held.page, 1, held.offset, null);
        held = { what, page: expected, offset: at };
        expected++;
      }
      previous = null;
      if (next === null) break;
      at = next;
      continue;
    }
    const { page } = result;
    const h: PageHeader = page.header;
    if (held !== null) {
      // Garbage between pages need not have replaced one.
      yield damage(held.what, held.page, 1, held.offset, h.firstUs);
      if (h.index > held.page && expected <= held.page) expected = held.page + 1;
      held = null;
    }
    const offset = at;
    at += h.pageBytes;
    if (runId !== null && h.runId !== runId) {
      yield damage('run', h.index, 1, offset, null);
      previous = null;
      continue;
    }
    if (h.index < expected) {
      if (previous === null && h.index === expected - 1) {
        // The damaged stretch before this page was no page of its own.
        expected = h.index;
      } else {
        yield damage('order', h.index, 1, offset, null);
        previous = null;
        continue;
      }
    }
    if (lastUs !== null && h.firstUs < lastUs) {
      // Time on the run clock never descends; a page that does is not of this place.
      yield damage('order', h.index, 1, offset, null);
      previous = null;
      continue;
    }
    if (h.index > expected) {
      yield damage('missing', expected, h.index - expected, offset, h.firstUs);
      previous = null;
    }
    if (chain && previous !== null && !same(previous, h.previous))
      yield damage('chain', h.index, 1, offset, h.lastUs);
    const hash = chain
      ? (options.hashes?.(offset, page.bytes.length) ?? sha256(page.bytes))
      : new Uint8Array(0);
    yield { kind: 'page', page, hash };
    previous = hash;
    runId = h.runId;
    expected = h.index + 1;
    lastUs = h.lastUs;
  }
  if (held !== null) yield damage(held.what, held.page, 1, held.offset, null);
}

/** A whole run in one look: what stands, what is damaged, where a torn tail would be cut. */
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

const isSample = (entry: LogEntry): boolean => entry.l === 'frame' && entry.frame.t === 'S';

/** Reads a run's file from end to end, hands out what it holds and says how it stands. */
export function scanRun(file: Uint8Array, visitor: RunVisitor = {}, options: ScanOptions = {}): RunScan {
  const damage: PageDamage[] = [];
  let head: LogHead | null = null;
  let runId: string | null = null;
  let pages = 0;
  let samples = 0;
  let end: RunEnd | null = null;
  let resumed = false;
  let firstUs: number | null = null;
  let firstSampleUs: number | null = null;
  let lastUs = 0;
  let lastUtcMs: number | null = null;
  let nextIndex = 0;
  let chainHead: Uint8Array = new Uint8Array(HASH_BYTES);
  let goodBytes = 0;
  for (const item of scanPages(file, options)) {
    if (item.kind === 'damage') {
      damage.push(item.damage);
      continue;
    }
    const { page, hash } = item;
    const h = page.header;
    if (end !== null) {
      // Nothing may follow the end mark.
      damage.push({
        what: 'order',
        page: h.index,
        pages: 1,
        offset: page.offset,
        fromUs: lastUs,
        toUs: null,
      });
      continue;
    }
    visitor.page?.(page, hash);
    if (visitor.entry) for (const entry of pageEntries(page)) visitor.entry(entry);
    if (visitor.event) for (const event of page.events) visitor.event(event);
    head ??= page.head;
    runId ??= h.runId;
    pages++;
    samples += h.samples;
    for (const { entry } of page.placed) if (isSample(entry)) samples++;
    if (firstSampleUs === null)
      for (const entry of pageEntries(page))
        if (isSample(entry)) {
          firstSampleUs = entry.tUs;
          break;
        }
    if ((h.flags & PAGE_FLAG.end) !== 0)
      end = (h.flags & PAGE_FLAG.interrupted) !== 0 ? 'interrupted' : 'ended';
    if ((h.flags & PAGE_FLAG.resumed) !== 0) resumed = true;
    if (firstUs === null && (h.samples > 0 || h.entries > 0)) firstUs = h.firstUs;
    lastUs = h.lastUs;
    lastUtcMs = h.utcMs ?? lastUtcMs;
    nextIndex = h.index + 1;
    chainHead = hash;
    goodBytes = page.offset + h.pageBytes;
  }
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
    bytes: file.length,
  };
}
