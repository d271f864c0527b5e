/** trace.parquet (docs/record.md 7): the columns of trace.csv, a row group a batch. */
import {
  ByteWriter,
  type ColumnSource,
  type KeyValue,
  ParquetWriter,
  type SchemaElement,
} from 'hyparquet-writer';
import { columnNames } from './trace-csv.ts';
import { BATCH_ROWS, DECIMALS, type RowBatch, type RowShape } from './trace-rows.ts';

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

type Way = Pick<ColumnSource, 'encoding' | 'statistics'>;

/**
 * How a column is written: counters and counts by their differences, which is half the bytes and half the work of
 * plain numbers. Bounds of each row group only where rows are looked for by them: in time.
 */
const wayOf = ({ name, type }: SchemaElement): Way => ({
  statistics: name === 'time_s',
  ...(type === 'DOUBLE' ? {} : { encoding: 'DELTA_BINARY_PACKED' }),
});

const I32_MAX = 0x7fff_ffff;

type Values = Float64Array | Int32Array | BigInt64Array | (number | null)[];

/** Decimals as numbers, null for none; a column where nothing is missing spares an object a value. */
function decimals(whole: Float64Array, n: number, digits: number, room: Float64Array): Values {
  const unit = 10 ** digits;
  const out = room.subarray(0, n);
  let holes = false;
  for (let i = 0; i < n; i++) {
    // Adding zero takes its sign away.
    const v = whole[i]! / unit + 0;
    out[i] = v;
    holes ||= Number.isNaN(v);
  }
  return holes ? Array.from(out, (v) => (Number.isNaN(v) ? null : v)) : out;
}

function counts({ n, missing, raw }: RowBatch, c: number): Values {
  const column = raw[c]!;
  const bit = 1 << c;
  let holes = false;
  for (let i = 0; i < n && !holes; i++) holes = (missing[i]! & bit) !== 0;
  if (!holes) return column.subarray(0, n);
  const out = new Array<number | null>(n);
  for (let i = 0; i < n; i++) out[i] = (missing[i]! & bit) === 0 ? column[i]! : null;
  return out;
}

function flagsOf({ flags, n }: RowBatch): Values {
  const out = flags.subarray(0, n);
  return out.includes(-1) ? Array.from(out, (v) => (v < 0 ? null : v)) : out;
}

/** Whole numbers of 64 bits: as small ones where they all are, which spares an object a value, several times over. */
function wide(a: Float64Array | Uint32Array, n: number, room: Float64Array): Values {
  const small = new Int32Array(room.buffer, 0, n);
  let i = 0;
  for (; i < n && a[i]! <= I32_MAX; i++) small[i] = a[i]!;
  if (i === n) return small;
  const words = new Int32Array(room.buffer);
  for (i = 0; i < n; i++) {
    const v = a[i]!;
    const high = Math.floor(v / 2 ** 32);
    words[2 * i] = v - high * 2 ** 32;
    words[2 * i + 1] = high;
  }
  return new BigInt64Array(room.buffer, 0, n);
}

/** Collects what the library writes until it is taken. */
class Pieces extends ByteWriter {
  take(): Uint8Array {
    const bytes = new Uint8Array(this.buffer, 0, this.index);
    this.index = 0;
    return bytes;
  }
}

/** Writes batch after batch; what a call gives is good until the next one. */
export class TraceParquet {
  private readonly pieces = new Pieces(1 << 20);
  private readonly writer: ParquetWriter;
  private readonly names: readonly string[];
  private readonly ways: readonly Way[];
  /** Where columns of eight bytes a value are made, batch after batch: the library copies what it is given. */
  private readonly rooms: Float64Array[] = [];

  /** @param about facts for the file's own metadata */
  constructor(shape: RowShape, about: Readonly<Record<string, string>>) {
    this.names = columnNames(shape);
    this.ways = parquetSchema(shape).slice(1).map(wayOf);
    this.writer = new ParquetWriter({
      writer: this.pieces,
      schema: parquetSchema(shape),
      kvMetadata: Object.entries(about).map(([key, value]): KeyValue => ({ key, value })),
      createdBy: 'steadybar',
    });
  }

  rows(b: RowBatch): Uint8Array {
    const { n } = b;
    let used = 0;
    const room = (): Float64Array => {
      this.rooms[used] ??= new Float64Array(BATCH_ROWS);
      return this.rooms[used++]!;
    };
    const data = [
      decimals(b.sinceUs, n, DECIMALS.seconds, room()),
      decimals(b.bar, n, DECIMALS.bar, room()),
      ...b.temperatures.map((t) => decimals(t, n, DECIMALS.celsius, room())),
      decimals(b.uBar, n, DECIMALS.bar, room()),
      flagsOf(b),
      wide(b.arrivalUs, n, room()),
      wide(b.seq, n, room()),
      wide(b.tick, n, room()),
      b.status.subarray(0, n),
      ...b.raw.map((_, c) => counts(b, c)),
    ];
    const columnData = data.map((d, i) => ({ name: this.names[i]!, data: d, ...this.ways[i]! }));
    // A row group is one page a column: it has no more than an eighth of a megabyte.
    this.writer.write({ columnData, rowGroupSize: n, pageSize: 0 });
    return this.pieces.take();
  }

  finish(): Uint8Array {
    this.writer.finish();
    return this.pieces.take();
  }
}
