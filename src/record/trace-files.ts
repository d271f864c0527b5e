/** The derived files of a record: trace as CSV and Parquet, input log and events as lines of JSON. */
import { ByteWriter, type KeyValue, ParquetWriter, type SchemaElement } from 'hyparquet-writer';
import { csvRow } from './csv.ts';
import { entryLine, eventLine } from './entry-text.ts';
import { scanRun } from './reader.ts';
import { type RowBatch, type RowShape, rowShape, type SenseRun, traceRows } from './trace-rows.ts';

const utf8 = new TextEncoder();

export const csvHeader = (shape: RowShape): readonly string[] => [
  'time_s',
  'pressure_bar',
  ...shape.temperatures.map((t) => t.name),
  'pressure_u_bar',
  'flags',
  'arrival_us',
  'seq',
  'tick',
  'status',
  ...Array.from({ length: shape.channels }, (_, c) => `raw_${c}`),
];

/** Rows of a piece: few enough that their texts are gone again before they count as old. */
const CSV_ROWS = 2048;

function csvRows(b: RowBatch, from: number, to: number): Uint8Array {
  const lines: string[] = [];
  const n = (v: number): string => (Number.isNaN(v) ? '' : String(v));
  for (let i = from; i < to; i++) {
    let s = `${n(b.timeS[i]!)},${n(b.bar[i]!)}`;
    for (const t of b.temperatures) s += `,${n(t[i]!)}`;
    const flags = b.flags[i]!;
    s += `,${n(b.uBar[i]!)},${flags < 0 ? '' : flags},${b.arrivalUs[i]!},${b.seq[i]!},${b.tick[i]!},${b.status[i]!}`;
    for (const r of b.raw) s += `,${n(r[i]!)}`;
    lines.push(s);
  }
  return utf8.encode(`${lines.join('\r\n')}\r\n`);
}

const required = (name: string, type: 'DOUBLE' | 'INT32' | 'INT64'): SchemaElement => ({
  name,
  type,
  repetition_type: 'REQUIRED',
});
const optional = (name: string, type: 'DOUBLE' | 'INT32'): SchemaElement => ({
  name,
  type,
  repetition_type: 'OPTIONAL',
});

function parquetSchema(shape: RowShape): SchemaElement[] {
  const columns = [
    required('time_s', 'DOUBLE'),
    optional('pressure_bar', 'DOUBLE'),
    ...shape.temperatures.map((t) => optional(t.name, 'DOUBLE')),
    optional('pressure_u_bar', 'DOUBLE'),
    optional('flags', 'INT32'),
    required('arrival_us', 'INT64'),
    required('seq', 'INT64'),
    required('tick', 'INT64'),
    required('status', 'INT32'),
    ...Array.from({ length: shape.channels }, (_, c) => optional(`raw_${c}`, 'INT32')),
  ];
  return [{ name: 'root', num_children: columns.length }, ...columns];
}

/** null for what is absent; a column where nothing is stays as it is, which spares an object a value. */
function nullable(
  a: Float64Array | Int32Array,
  n: number,
  absent: (v: number) => boolean,
): Float64Array | Int32Array | (number | null)[] {
  let holes = false;
  for (let i = 0; i < n && !holes; i++) holes = absent(a[i]!);
  if (!holes) return a.slice(0, n);
  const out = new Array<number | null>(n);
  for (let i = 0; i < n; i++) out[i] = absent(a[i]!) ? null : a[i]!;
  return out;
}

/** Safe integers as 64 bits, without a BigInt for each. */
function whole(a: Float64Array, n: number): BigInt64Array {
  const out = new BigInt64Array(n);
  const words = new Int32Array(out.buffer);
  for (let i = 0; i < n; i++) {
    const v = a[i]!;
    const high = Math.floor(v / 2 ** 32);
    words[2 * i] = v - high * 2 ** 32;
    words[2 * i + 1] = high;
  }
  return out;
}

function parquetBatch(writer: ParquetWriter, shape: RowShape, b: RowBatch): void {
  const { n } = b;
  const data = [
    b.timeS.slice(0, n),
    nullable(b.bar, n, Number.isNaN),
    ...b.temperatures.map((t) => nullable(t, n, Number.isNaN)),
    nullable(b.uBar, n, Number.isNaN),
    nullable(b.flags, n, (v) => v < 0),
    whole(b.arrivalUs, n),
    whole(b.seq, n),
    whole(b.tick, n),
    b.status.slice(0, n),
    ...b.raw.map((r) => nullable(r, n, Number.isNaN)),
  ];
  const names = csvHeader(shape);
  writer.write({ columnData: data.map((d, i) => ({ name: names[i]!, data: d })), rowGroupSize: n });
}

/** Takes the two files piece by piece, each piece its own bytes. */
export interface TraceSink {
  csv(piece: Uint8Array): void;
  parquet(piece: Uint8Array): void;
}

const PIECE = 1 << 20;

/** Gives away what it has whenever it is a piece: a long file never stands here whole. */
class PieceWriter extends ByteWriter {
  constructor(private readonly piece: (bytes: Uint8Array) => void) {
    super(2 * PIECE);
  }

  override ensure(size: number): void {
    if (this.index >= PIECE) this.give();
    super.ensure(size);
  }

  override finish(): void {
    this.give();
  }

  private give(): void {
    if (this.index > 0) this.piece(new Uint8Array(this.buffer.slice(0, this.index)));
    this.index = 0;
  }
}

/**
 * Trace as CSV and Parquet in one pass. Yields the share done, 0…1, so that a worker can let others in between.
 * @param about facts for the Parquet file's own metadata
 */
export function* traceFiles(
  pages: Uint8Array,
  sense: SenseRun,
  about: Readonly<Record<string, string>>,
  sink: TraceSink,
): Generator<number, void, undefined> {
  const shape = rowShape(pages);
  sink.csv(utf8.encode(csvRow([...csvHeader(shape)])));
  const kvMetadata: KeyValue[] = Object.entries(about).map(([key, value]) => ({ key, value }));
  const writer = new ParquetWriter({
    writer: new PieceWriter((piece) => sink.parquet(piece)),
    schema: parquetSchema(shape),
    kvMetadata,
    createdBy: 'steadybar',
  });
  let rows = 0;
  for (const batch of traceRows(pages, shape, sense)) {
    for (let i = 0; i < batch.n; i += CSV_ROWS) sink.csv(csvRows(batch, i, Math.min(batch.n, i + CSV_ROWS)));
    parquetBatch(writer, shape, batch);
    rows += batch.n;
    yield shape.samples === 0 ? 1 : rows / shape.samples;
  }
  writer.finish();
}

/**
 * The input log without its samples, which stand in the trace: the head, then a line an entry with the number of
 * samples before it, its time and its kind; and the events, one a line.
 */
export function logFiles(pages: Uint8Array): { readonly log: Uint8Array; readonly events: Uint8Array } {
  const log: string[] = [];
  const events: string[] = [];
  let samples = 0;
  const scan = scanRun(
    pages,
    {
      page(page) {
        // A sample that did not fit the columns counts as one, and is one of the trace's.
        let texts = 0;
        for (const { samplesBefore, entry } of page.placed) {
          if (entry.l === 'frame' && entry.frame.t === 'S') texts++;
          else log.push(entryLine(samples + samplesBefore + texts, entry));
        }
        samples += page.header.samples + texts;
        for (const event of page.events) events.push(eventLine(event));
      },
    },
    { chain: false },
  );
  const lines = (list: readonly string[]): Uint8Array => utf8.encode(list.map((l) => `${l}\n`).join(''));
  return { log: lines([JSON.stringify(scan.head), ...log]), events: lines(events) };
}
