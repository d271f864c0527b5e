/**
 * The derived files of a record: trace as CSV and Parquet, input log and events as lines of JSON, and how to check it
 * by hand. Whoever builds a job's file and whoever verifies one makes them by this.
 */
import type { WatchEvent } from '../watch/events.ts';
import type { ByteSource } from './byte-source.ts';
import { canonicalText } from './canonical.ts';
import { type CheckWordsOf, checkText } from './check-text.ts';
import { entryLine, eventLine } from './entry-text.ts';
import type { LogEntry, LogHead } from './log.ts';
import type { Manifest } from './manifest.ts';
import { FILE } from './members.ts';
import type { Page } from './page.ts';
import { CsvWriter } from './trace-csv.ts';
import { type RowGroup, TraceParquet } from './trace-parquet.ts';
import { type RowShape, type SenseRun, Shaper, traceRows } from './trace-rows.ts';

/** Told the share done, 0…1. May wait, so that others get their turn, and may throw to give up. */
export type Progress = (share: number) => void | Promise<void>;

/** Takes a file piece by piece, each file's in order, files mixed. A piece is good until the promise settles. */
export type TakePiece = (file: string, piece: Uint8Array) => void | Promise<void>;

const utf8 = new TextEncoder();
const lines = (list: readonly string[]): Uint8Array => utf8.encode(list.map((l) => `${l}\n`).join(''));

export type Played = Extract<LogEntry, { readonly l: 'command' | 'notice' }>;

/** What has to be known of all pages before a row can be made; is handed them in order. */
export class Inventory {
  readonly events: WatchEvent[] = [];
  /** What the crew said, and the practice rig where it was one. */
  readonly played: Played[] = [];
  private readonly shaper = new Shaper();
  private readonly log: string[] = [];
  private head: LogHead | null = null;
  private samples = 0;
  /** No damage was found: the pages need not be checked a second time. */
  sound = false;

  page(page: Page): void {
    this.shaper.page(page);
    this.head ??= page.head;
    // A sample that did not fit the columns counts as one, and is one of the trace's.
    let texts = 0;
    for (const { samplesBefore, entry } of page.placed) {
      if (entry.l === 'command' || (entry.l === 'notice' && entry.notice.n === 'rig'))
        this.played.push(entry);
      if (entry.l === 'frame' && entry.frame.t === 'S') texts++;
      // What the engine made of the log is no part of it.
      else if (entry.l !== 'state') this.log.push(entryLine(this.samples + samplesBefore + texts, entry));
    }
    this.samples += page.header.samples + texts;
    for (const event of page.events) this.events.push(event);
  }

  shape(): RowShape {
    return this.shaper.shape();
  }

  /**
   * The input log without its samples, which stand in the trace, and without states: the head, then a line an entry with the number of
   * samples before it, its time and its kind.
   */
  logFile(): Uint8Array {
    return lines([JSON.stringify(this.head), ...this.log]);
  }

  /** The events, one a line. */
  eventsFile(): Uint8Array {
    return lines(this.events.map(eventLine));
  }
}

/** Facts that stand in the Parquet file itself. */
const factsOf = (manifest: Manifest): Readonly<Record<string, string>> => ({
  'steadybar.schema': manifest.schema,
  'steadybar.run': manifest.runId,
  'steadybar.job': manifest.jobId ?? '',
  'steadybar.chain': manifest.pages.chainHead,
  'steadybar.papers': canonicalText(manifest.job),
});

/** The trace as CSV and Parquet in one pass. @param about facts for the Parquet file's own metadata */
export async function deriveTrace(
  pages: ByteSource,
  inventory: Inventory,
  sense: SenseRun,
  about: Readonly<Record<string, string>>,
  take: TakePiece,
  progress: Progress = () => undefined,
): Promise<void> {
  const shape = inventory.shape();
  const csv = new CsvWriter(shape);
  const parquet = new TraceParquet(shape, about);
  await take(FILE.csv, csv.header());
  let rows = 0;
  for await (const batch of traceRows(pages, shape, sense, inventory.events, {
    sound: inventory.sound,
  })) {
    for (const piece of csv.rows(batch)) await take(FILE.csv, piece);
    await take(FILE.parquet, parquet.rows(batch));
    rows += batch.n;
    await progress(shape.samples === 0 ? 1 : rows / shape.samples);
  }
  await take(FILE.parquet, parquet.finish());
}

/** What a Parquet file of these rows would be that others made groups of. */
export async function deriveParquet(
  shape: RowShape,
  groups: readonly RowGroup[],
  manifest: Manifest,
  take: TakePiece,
): Promise<void> {
  const parquet = new TraceParquet(shape, factsOf(manifest));
  for (const group of groups) await take(FILE.parquet, parquet.adopt(group));
  await take(FILE.parquet, parquet.finish());
}

/** The derived files of data. @param inventory of all the pages */
export async function deriveFiles(
  pages: ByteSource,
  inventory: Inventory,
  manifest: Manifest,
  sense: SenseRun,
  take: TakePiece,
  progress: Progress,
): Promise<void> {
  await take(FILE.events, inventory.eventsFile());
  await take(FILE.log, inventory.logFile());
  await deriveTrace(pages, inventory, sense, factsOf(manifest), take, progress);
}

/** CHECK.txt. @throws what `words` rejects with */
export async function deriveCheck(manifest: Manifest, words: CheckWordsOf): Promise<Uint8Array> {
  return utf8.encode(checkText(manifest, await words(manifest.wording)));
}
