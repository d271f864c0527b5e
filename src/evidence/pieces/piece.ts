/** A piece of a run judged again, and the rows of its trace made again and compared, on the way. */
import { createRun, type Run, type RunSink, stepRun } from '../../engine/core.ts';
import { StateCheck, stateHash, takeUp } from '../../engine/kept-state.ts';
import { createTally, tallyReading } from '../../engine/tally.ts';
import type { Tell } from '../../engine/worker/answers.ts';
import { type ByteSource, partOf } from '../../record/byte-source.ts';
import { Comparison } from '../../record/comparison.ts';
import { isTooLong } from '../../record/judgement.ts';
import { PAGE_FLAG } from '../../record/layout.ts';
import type { LogEntry } from '../../record/log.ts';
import { EntryCursor, type Page } from '../../record/page.ts';
import { scanChunks } from '../../record/page-scanner.ts';
import { CsvWriter } from '../../record/trace-csv.ts';
import { type RowGroup, TraceParquet } from '../../record/trace-parquet.ts';
import { BATCH_ROWS, Batch } from '../../record/trace-rows.ts';
import { ENGINE } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { ReadingPacker } from './columns.ts';
import { placeOf } from './csv-place.ts';
import type { PieceMade, PieceOrder, TracePiece } from './order.ts';

/** Where the next piece begins. */
type End = NonNullable<PieceMade['end']>;

/**
 * The pages may be anybody's: each is checked before it is gone through, and no more time than a run may take.
 * @param file all of it
 * @throws RangeError where a page is damaged, no engine of ours judged it, or the state to begin with is none
 */
export async function makePiece(file: ByteSource, order: PieceOrder, tell: Tell): Promise<PieceMade> {
  const { from, pages } = order;
  const piece = new Piece(file, order);
  const source = partOf(file, pages.start + from, pages.size - from);
  let bytes = 0;
  for await (const items of scanChunks(source, { chain: false, inside: from > 0 })) {
    for (const item of items) {
      if (item.kind !== 'page') throw new RangeError('a damaged page');
      const end = await piece.page(item.page);
      if (end !== null) return piece.made(end);
      bytes += item.page.header.pageBytes;
    }
    await tell(Math.min(1, bytes / Math.max(1, order.to - from)));
  }
  return piece.made(null);
}

class Piece {
  private readonly events: WatchEvent[] = [];
  private readonly rows: Rows | null;
  private readonly sink: RunSink;
  private states = new StateCheck(0);
  private run: Run | null = null;
  private began: string | null = null;
  private fromUs: number | null = null;
  private samples = 0;
  private ended = false;

  constructor(
    file: ByteSource,
    private readonly order: PieceOrder,
  ) {
    const rows = order.trace === null ? null : new Rows(file, order.trace, order.from === 0);
    this.rows = rows;
    this.sink = {
      event: (event) => void this.events.push(event),
      // Nothing counts behind the end mark.
      reading: (reading, frame, gap) => {
        if (!this.ended) rows?.push(reading.tUs, frame, reading, gap);
      },
      unjudged: (tUs, frame, gap) => {
        if (!this.ended) rows?.push(tUs, frame, null, gap);
      },
    };
  }

  /** @returns where the piece ends; null: it goes on */
  async page(page: Page): Promise<End | null> {
    const { head, header } = page;
    if (head !== null && head.engine !== ENGINE) throw new RangeError('of another engine');
    this.fromUs ??= header.firstUs;
    this.samples += header.samples;
    if (isTooLong(header.lastUs - this.fromUs, this.samples)) throw new RangeError('longer than any run');
    if (head !== null && this.order.from === 0) this.run ??= createRun(head);
    const entries = new EntryCursor(page);
    for (let entry = entries.next(); entry !== null; entry = entries.next()) {
      if (this.run === null) {
        this.begin(entry, header.runId);
        continue;
      }
      stepRun(this.run, entry, this.sink);
      const end = this.stateIn(this.run, entry, page);
      if (end !== null) return end;
      if (this.rows?.isFull) await this.rows.flush();
      else if (entry.l === 'notice' && entry.notice.n === 'gap') this.rows?.gap();
    }
    if ((header.flags & PAGE_FLAG.end) !== 0) this.ended = true;
    return null;
  }

  async made(end: End | null): Promise<PieceMade> {
    if (this.run === null) throw new RangeError('nothing to begin with');
    const trace = (await this.rows?.finish()) ?? null;
    return { events: this.events, apart: this.states.apart, began: this.began, end, trace };
  }

  private begin(entry: LogEntry, runId: string): void {
    if (entry.l !== 'state') return;
    const { state, tUs } = entry;
    this.began = stateHash(state.run);
    this.states = new StateCheck(state.samples);
    this.run = takeUp(state, tUs, runId);
    if (this.run === null || state.samples % BATCH_ROWS !== 0)
      throw new RangeError('a state of none of ours');
  }

  private stateIn(run: Run, entry: LogEntry, page: Page): End | null {
    const follows = this.states.entry(run, entry, page);
    if (follows === null || entry.l !== 'state' || (!follows && this.order.patient)) return null;
    const hash = follows ? stateHash(entry.state.run) : null;
    return { from: this.order.from + page.offset, follows, hash };
  }
}

/** The rows of the piece, batch after batch. */
class Rows {
  private readonly batch: Batch;
  private readonly csv: CsvWriter;
  private readonly parquet: TraceParquet;
  private readonly packer = new ReadingPacker();
  private readonly tally = createTally();
  private readonly groups: RowGroup[] = [];
  private readonly there: ByteSource | null;
  /** null: not found yet, or given up. */
  private compared: Comparison | null = null;
  private csvFrom: number | null = null;
  private isGiven = false;
  private hasGap = false;

  constructor(
    file: ByteSource,
    private readonly order: NonNullable<PieceOrder['trace']>,
    first: boolean,
  ) {
    const { shape, csv } = order;
    this.batch = new Batch(shape);
    this.csv = new CsvWriter(shape);
    this.parquet = new TraceParquet(shape, {});
    this.there = csv === null ? null : partOf(file, csv.start, csv.size);
    // The first row stands behind the names of the columns.
    if (first) this.csvFrom = this.csv.header().length;
  }

  get isFull(): boolean {
    return this.batch.n === BATCH_ROWS;
  }

  /** Samples are missing before the next reading. */
  gap(): void {
    this.hasGap = true;
  }

  push(
    tUs: number,
    frame: Parameters<Batch['push']>[1],
    reading: Parameters<Batch['push']>[2],
    gap: boolean,
  ): void {
    this.batch.push(tUs, frame, reading);
    this.hasGap ||= gap;
    if (reading === null) {
      this.packer.unjudged(tUs);
      return;
    }
    this.packer.reading(reading, this.hasGap);
    this.hasGap = false;
    tallyReading(this.tally, reading);
  }

  async flush(): Promise<void> {
    const { batch, there } = this;
    if (batch.n === 0) return;
    if (there !== null && !this.isGiven) this.isGiven = !(await this.compare(there));
    this.groups.push(this.parquet.group(batch));
    batch.n = 0;
  }

  async finish(): Promise<TracePiece> {
    await this.flush();
    this.packer.close();
    const { csvFrom, compared, isGiven } = this;
    const isThere = csvFrom !== null && compared !== null && !isGiven;
    return {
      csv: isThere ? { from: csvFrom, to: compared.place } : null,
      groups: this.groups,
      readings: this.packer.done,
      peakBar: this.tally.peakBar,
      hasGap: this.hasGap,
    };
  }

  /** @returns false: these rows are not there */
  private async compare(there: ByteSource): Promise<boolean> {
    for (const piece of this.csv.rows(this.batch)) {
      this.csvFrom ??= await placeOf(there, this.order.shape, piece.slice(0, piece.indexOf(0x0a) + 1));
      if (this.csvFrom === null) return false;
      this.compared ??= new Comparison(there, this.csvFrom);
      await this.compared.take(piece);
      if (!this.compared.isSame) return false;
    }
    return true;
  }
}
