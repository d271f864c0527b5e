/** A run judged and made again in pieces that begin at the states in its pages, by several workers at once. */
import { type ByteSource, readAll } from '../../record/byte-source.ts';
import { isTooLong, type MadeElsewhere, type TraceMade } from '../../record/judgement.ts';
import { MAX_MANIFEST_BYTES, type Manifest, parseManifest } from '../../record/manifest.ts';
import { FILE } from '../../record/members.ts';
import { statePages } from '../../record/state-pages.ts';
import { CsvWriter } from '../../record/trace-csv.ts';
import type { RowGroup } from '../../record/trace-parquet.ts';
import { type RowShape, shapeOf } from '../../record/trace-rows.ts';
import type { StateApart } from '../../record/types.ts';
import { contentOf, readZip, type ZipEntry } from '../../record/zip-reader.ts';
import { ENGINE } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { putGap, type ReadingColumns } from './columns.ts';
import type { PieceContract, PieceMade, PieceOrder, Stretch } from './order.ts';
import type { Pool } from './pool.ts';

export interface PieceSite {
  /** As the workers are given it: a Blob, or in Node the name of a file. */
  readonly file: Blob | string;
  readonly source: ByteSource;
  readonly pool: Pick<Pool<PieceContract>, 'ask'>;
  /** Takes readings in their order. */
  readings(columns: readonly ReadingColumns[], peakBar: number | null): void;
  /** Told when the trace is found to be as it is, and its readings with it. */
  taken(): void;
  /** @param share of the pages, 0…1 */
  progress(share: number): void;
  /** Fewer pieces are not worth a worker. */
  readonly least: number;
  /** @param withTrace the rows are made too, else the run is judged alone */
  begins?(withTrace: boolean): void;
}

const stretchOf = ({ start, size }: ZipEntry): Stretch => ({ start, size });

/**
 * Nothing that is in the file is believed. The first piece begins with nothing; each further one with a state that is only
 * good where the piece before has come to the very same. Where it has not, that one goes on until it meets a state that is what it
 * has come to. And every piece has found its rows where the one before ended.
 * @returns null where that can't be done, or something failed: then it is for whoever asked, who finds and names it
 */
export async function inPieces(site: PieceSite): Promise<MadeElsewhere | null> {
  try {
    const orders = await ordersFor(site);
    return orders === null ? null : await made(site, orders);
  } catch {
    return null;
  }
}

async function manifestIn(source: ByteSource, entries: readonly ZipEntry[]): Promise<Manifest | null> {
  const entry = entries.find((e) => e.name === FILE.manifest);
  if (entry === undefined || entry.size > MAX_MANIFEST_BYTES) return null;
  const read = parseManifest(await readAll(contentOf(source, entry)));
  return read.ok ? read.manifest : null;
}

async function ordersFor({ source, least }: PieceSite): Promise<readonly PieceOrder[] | null> {
  const { entries } = await readZip(source);
  const manifest = await manifestIn(source, entries);
  const entry = entries.find((e) => e.name === FILE.pages);
  if (manifest === null || entry === undefined || manifest.engine !== ENGINE) return null;
  if (isTooLong(manifest.pages.lastUs - (manifest.pages.firstUs ?? 0), manifest.pages.samples)) return null;
  const found = await statePages(contentOf(source, entry));
  if (found === null) return null;
  const { samples, firstSampleUs } = manifest.pages;
  const setups = manifest.setups.map(({ setup }) => setup);
  const csv = entries.find((e) => e.name === FILE.csv);
  const shape = shapeOf(setups, { samples, firstSampleUs, channels: found.channels });
  if (found.offsets.length + 1 < least) return null;
  // One piece is no quicker than the two halves of the work side by side.
  const trace = found.offsets.length === 0 ? null : { shape, csv: csv === undefined ? null : stretchOf(csv) };
  const pages = stretchOf(entry);
  const froms = [0, ...found.offsets];
  return froms.map((from, i) => ({
    pages,
    from,
    to: froms[i + 1] ?? pages.size,
    patient: false,
    trace,
  }));
}

async function made(site: PieceSite, orders: readonly PieceOrder[]): Promise<MadeElsewhere | null> {
  const { file, pool } = site;
  site.begins?.(orders[0]!.trace !== null);
  const shares = orders.map(() => 0);
  const whole = orders[0]!.pages.size;
  const tell = (i: number, share: number): void => {
    shares[i] = share;
    site.progress(orders.reduce((sum, { from, to }, k) => sum + (shares[k]! * (to - from)) / whole, 0));
  };
  const first: (Promise<PieceMade> | null)[] = orders.map((order, i) =>
    pool.ask({ q: 'piece', file, order }, (share) => tell(i, share)).finally(() => tell(i, 1)),
  );
  // One that begins with a state of somebody's making may fail, and nobody may ever look at it.
  for (const piece of first) piece?.catch(() => undefined);
  const chain = new Chain(site, orders[0]!.trace);
  for (let i = 0; ; ) {
    let piece = await first[i]!;
    // Its rows are taken and need not stand in memory any longer.
    first[i] = null;
    if (piece.began !== chain.hash) return null;
    if (piece.end !== null && !piece.end.follows)
      piece = await pool.ask({ q: 'piece', file, order: { ...orders[i]!, patient: true } });
    chain.take(piece);
    if (piece.end === null) return chain.made();
    const { from } = piece.end;
    i = orders.findIndex((order) => order.from === from);
  }
}

/** Puts together what the pieces gave. */
class Chain {
  /** Of the state that the next piece has to begin with. */
  hash: string | null = null;
  private readonly events: WatchEvent[] = [];
  private readonly apart: StateApart[] = [];
  private readonly groups: RowGroup[] = [];
  private readonly shape: RowShape | null;
  /** Samples are missing before the next reading. */
  private hasGap = false;
  /** Up to where rows of trace.csv were found. */
  private csvTo: number | null;

  constructor(
    private readonly site: PieceSite,
    private readonly order: PieceOrder['trace'],
  ) {
    this.shape = order?.shape ?? null;
    this.csvTo = order === null ? null : new CsvWriter(order.shape).header().length;
  }

  take({ events, apart, end, trace }: PieceMade): void {
    this.events.push(...events);
    this.apart.push(...apart);
    this.hash = end?.hash ?? null;
    if (trace === null) return;
    this.groups.push(...trace.groups);
    if (this.hasGap) putGap(trace.readings);
    this.hasGap = trace.hasGap;
    this.csvTo = trace.csv !== null && trace.csv.from === this.csvTo ? trace.csv.to : null;
    this.site.readings(trace.readings, trace.peakBar);
  }

  made(): MadeElsewhere {
    const { events, apart, shape, groups, order, csvTo } = this;
    const isCsvSame = order?.csv === null || csvTo === order?.csv.size;
    const trace: TraceMade | null =
      shape === null ? null : { shape, groups, isCsvSame, taken: () => this.site.taken() };
    return { events, apart, trace };
  }
}
