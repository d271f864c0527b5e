/**
 * After a crash: which runs were left open, what stands of them, and how they are closed or taken up again. Works
 * on bytes and on a store's files; the clock is an argument.
 */

import { sha256 } from '@noble/hashes/sha2.js';
import type { Setup } from '../job/setup.ts';
import type { WatchEvent } from '../watch/events.ts';
import { type ByteSource, fileSource } from './byte-source.ts';
import { toHex } from './hex.ts';
import { hasMagic, MAX_PAGE_BYTES } from './layout.ts';
import type { LogHead } from './log.ts';
import { type Page, readPage } from './page.ts';
import { type RunScan, readRun } from './reader.ts';
import { checksOf, isCheck } from './sensor-checks.ts';
import type { RunFile, RunSummary } from './types.ts';
import { createPageWriter, type PageWriter, type WriterStart } from './writer.ts';

/** The names of a run's files in a store. */
export const runFileNames = (runId: string): { pages: string; buckets: string; rows: string } => ({
  pages: `${runId}.run`,
  buckets: `${runId}.pyr`,
  rows: `${runId}.val`,
});

/** The run of a page file's name; null for any other file. */
export function runOfFile(name: string): string | null {
  return name.endsWith('.run') && name.length > 4 ? name.slice(0, -4) : null;
}

/** A page is mostly far smaller than it may be: the short tail is tried first. */
const TAILS = [64 << 10, MAX_PAGE_BYTES] as const;

/** The page that ends with the tail of a run's file; null when none does. @param tail from a multiple of 8 on */
function lastPage(tail: Uint8Array): Page | null {
  for (let at = (tail.length - 8) & ~7; at >= 0; at -= 8) {
    if (!hasMagic(tail, at)) continue;
    const result = readPage(tail, at);
    // A text may hold the magic too.
    if (result.ok && at + result.page.header.pageBytes === tail.length) return result.page;
  }
  return null;
}

/**
 * The end of a run's chain: SHA-256 of its last page, hex, which names the page before it and so all of them. Only
 * the tail is read. null: the file does not end with a sound page.
 */
export async function chainEnd(pages: ByteSource): Promise<string | null> {
  for (const span of TAILS) {
    // Pages are multiples of 8 bytes from the file's start on; a torn file ends with no page.
    const from = Math.max(0, pages.size - span) & ~7;
    const page = lastPage(await pages.read(from, pages.size - from));
    if (page !== null) return toHex(sha256(page.bytes));
    if (from === 0) break;
  }
  return null;
}

/** Where a writer goes on behind what stands; null for a file of no whole page. */
export function startAfter(scan: RunScan): WriterStart | null {
  const { nextIndex, chainHead, lastUs, samples } = scan;
  return scan.pages === 0 ? null : { index: nextIndex, previous: chainHead, lastUs, samples };
}

export interface Recovered {
  readonly scan: RunScan;
  /** Bytes of the torn tail that were cut off; the tail held no whole page. */
  readonly cutBytes: number;
}

/**
 * Looks a run's file over and cuts the torn tail off; damage in the middle stays as it is, named by the scan.
 * @param source of the same file, where it is to be read otherwise
 */
export async function recoverFile(file: RunFile, source = fileSource(file)): Promise<Recovered> {
  const scan = await readRun(source, {});
  const cutBytes = file.size - scan.goodBytes;
  if (cutBytes > 0) {
    file.truncate(scan.goodBytes);
    file.flush();
  }
  return { scan, cutBytes };
}

/** A run lies no longer than this, ms. A wall clock that says more was wrong before or is wrong now. */
const MOST_AWAY_MS = 48 * 3_600_000;

/**
 * The run clock now, for a run taken up again: the wall clock tells how long it lay, as far as it can be
 * believed. One that went back, or on by years, counts as no time at all: cure must not be credited with it.
 */
export function clockAtResume(scan: RunScan, utcMs: number): number {
  return wallClockAtResume(scan, utcMs) ?? scan.lastUs;
}

/** The same; null where the wall clock says what cannot be. */
export function wallClockAtResume(scan: RunScan, utcMs: number): number | null {
  const away = scan.lastUtcMs === null ? 0 : utcMs - scan.lastUtcMs;
  return away > 0 && away <= MOST_AWAY_MS ? scan.lastUs + Math.round(away) * 1000 : null;
}

/**
 * Closes a run that was found open: one page more, with the end mark 'interrupted'.
 * @returns the number that another page would have, and the SHA-256 of the last one
 * @throws RangeError when the run has its end mark already or no head
 */
export function closeInterrupted(file: RunFile, scan: RunScan, utcMs: number): PageWriter['next'] {
  const writer = writerBehind(scan);
  file.append(writer.finish(utcMs, 'interrupted'));
  file.flush();
  return writer.next;
}

/**
 * Takes a run up again: the writer goes on in the chain, its first entry the notice of the gap.
 * @returns the writer and the run clock of the notice, where the run goes on
 * @throws RangeError when the run has its end mark already or no head
 */
export function resumeRun(scan: RunScan, utcMs: number): { writer: PageWriter; tUs: number; head: LogHead } {
  const writer = writerBehind(scan);
  const tUs = clockAtResume(scan, utcMs);
  const notice = { n: 'gap', reason: 'resumed', fromUs: scan.lastUs, toUs: tUs, lost: 0 } as const;
  writer.addEntry({ l: 'notice', tUs, notice });
  return { writer, tUs, head: scan.head! };
}

function writerBehind(scan: RunScan): PageWriter {
  const start = startAfter(scan);
  if (scan.head === null || start === null) throw new RangeError('the run has no head: nothing of it stands');
  if (scan.end !== null) throw new RangeError('the run has its end mark');
  return createPageWriter(scan.head, start);
}

export interface SummaryExtras {
  readonly title: string;
  /** From the trace cache; null when it is not known. */
  readonly peakBar: number | null;
}

/** What the list of runs shows of a run's file. null: nothing of it stands. */
export async function summarise(source: ByteSource, extras: SummaryExtras): Promise<RunSummary | null> {
  let gaps = 0;
  let alarms = 0;
  const checks: WatchEvent[] = [];
  const setups: { tUs: number; setup: Setup }[] = [];
  const event = (e: WatchEvent): void => {
    if (isCheck(e)) checks.push(e);
    if (e.e === 'gap') gaps++;
    if (e.e === 'alarm' && e.to === 'unacknowledged' && e.why === 'condition') alarms++;
  };
  let sampleEndUs: number | null = null;
  const page = (p: Page): void => {
    if (p.header.samples > 0) sampleEndUs = p.header.lastUs;
    for (const { entry } of p.placed) if (entry.l === 'setup') setups.push(entry);
  };
  const scan = await readRun(source, { event, page }, { chain: false });
  if (scan.head === null) return null;
  const { head } = scan;
  return {
    runId: head.runId,
    jobId: head.jobId,
    title: extras.title,
    practice: head.practice,
    openedUtcMs: head.utcMs ?? 0,
    endedUtcMs: scan.end === null ? null : scan.lastUtcMs,
    state: scan.end ?? 'open',
    seconds:
      scan.firstSampleUs === null || sampleEndUs === null ? 0 : (sampleEndUs - scan.firstSampleUs) / 1e6,
    readings: scan.samples,
    peakBar: extras.peakBar,
    gaps,
    alarms,
    bytes: source.size,
    sensorChecks: checksOf(setups, checks),
  };
}
