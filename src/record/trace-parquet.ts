/** trace.parquet (docs/record.md 7): the columns of trace.csv, a row group a batch and a page a column. */
import type { ColumnChunk, Encoding, KeyValue, SchemaElement, Statistics } from 'hyparquet';
import { ByteWriter, ParquetWriter } from 'hyparquet-writer';
import { writePageHeader } from 'hyparquet-writer/src/datapage.js';
import { snappyCompress } from 'hyparquet-writer/src/snappy.js';
import { createSheet, Distinct, putDeltas, putDoubles, putRuns, roomFor } from './parquet-encoding.ts';
import { columnNames } from './trace-csv.ts';
import { BATCH_ROWS, DECIMALS, type RowBatch, type RowShape } from './trace-rows.ts';

interface Column {
  readonly name: string;
  readonly type: 'DOUBLE' | 'INT32' | 'INT64';
  /** Some rows may have no value. */
  readonly optional?: boolean;
  /** Decimals of a measured value. */
  readonly digits?: number;
  /** Puts the values that are there into the room, and where they are into `there` (1 or 0 a row). Gives their number. */
  readonly gather: (batch: RowBatch, room: Float64Array, there: Int32Array) => number;
}

const every =
  (of: (batch: RowBatch) => Float64Array | Uint32Array | Int32Array) =>
  (batch: RowBatch, room: Float64Array): number => {
    room.set(of(batch).subarray(0, batch.n));
    return batch.n;
  };

const measured =
  (of: (batch: RowBatch) => Float64Array) =>
  (batch: RowBatch, room: Float64Array, there: Int32Array): number => {
    const values = of(batch);
    let n = 0;
    for (let i = 0; i < batch.n; i++) {
      const v = values[i]!;
      const has = Number.isNaN(v) ? 0 : 1;
      there[i] = has;
      room[n] = v;
      n += has;
    }
    return n;
  };

/** @param has whether row i has a value */
const counted =
  (of: (batch: RowBatch) => Int32Array, has: (batch: RowBatch, i: number) => boolean) =>
  (batch: RowBatch, room: Float64Array, there: Int32Array): number => {
    const values = of(batch);
    let n = 0;
    for (let i = 0; i < batch.n; i++) {
      there[i] = 0;
      if (!has(batch, i)) continue;
      there[i] = 1;
      room[n++] = values[i]!;
    }
    return n;
  };

function columnsOf(shape: RowShape): readonly Column[] {
  const bar = { type: 'DOUBLE', optional: true, digits: DECIMALS.bar } as const;
  const columns: Omit<Column, 'name'>[] = [
    { type: 'DOUBLE', digits: DECIMALS.seconds, gather: every((b) => b.sinceUs) },
    { ...bar, gather: measured((b) => b.bar) },
    ...shape.seconds.map((_, k) => ({ ...bar, gather: measured((b) => b.seconds[k]!.bar) })),
    ...shape.temperatures.map((_, k) => ({
      type: 'DOUBLE' as const,
      optional: true,
      digits: DECIMALS.celsius,
      gather: measured((b) => b.temperatures[k]!),
    })),
    { ...bar, gather: measured((b) => b.uBar) },
    ...shape.seconds.map((_, k) => ({ ...bar, gather: measured((b) => b.seconds[k]!.uBar) })),
    {
      type: 'INT32',
      optional: true,
      gather: counted(
        (b) => b.flags,
        (b, i) => b.flags[i]! >= 0,
      ),
    },
    { type: 'INT64', gather: every((b) => b.arrivalUs) },
    { type: 'INT64', gather: every((b) => b.seq) },
    { type: 'INT64', gather: every((b) => b.tick) },
    { type: 'INT32', gather: every((b) => b.status) },
    ...Array.from({ length: shape.channels }, (_, c) => ({
      type: 'INT32' as const,
      optional: true,
      gather: counted(
        (b) => b.raw[c]!,
        (b, i) => (b.missing[i]! & (1 << c)) === 0,
      ),
    })),
  ];
  const names = columnNames(shape);
  return columns.map((column, i) => ({ ...column, name: names[i]! }));
}

const schemaOf = (columns: readonly Column[]): SchemaElement[] => [
  { name: 'root', num_children: columns.length },
  ...columns.map(
    ({ name, type, optional }): SchemaElement => ({
      name,
      type,
      repetition_type: optional ? 'OPTIONAL' : 'REQUIRED',
    }),
  ),
];

/** Bounds of the seconds: rows are looked for by time. Zero has the sign that widens, as the format wants it. */
function boundsOf(whole: Float64Array, n: number, unit: number): Statistics {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    least = Math.min(least, whole[i]!);
    most = Math.max(most, whole[i]!);
  }
  return { min_value: least === 0 ? -0 : least / unit, max_value: most / unit + 0, null_count: 0n };
}

/** A row group by itself: plain data. */
export interface RowGroup {
  /** Their places count from the group's first byte. */
  readonly columns: readonly ColumnChunk[];
  readonly rows: number;
  /** Bytes. */
  readonly size: number;
  readonly bytes: Uint8Array;
}

/** The same column so many bytes further on. */
function moved(column: ColumnChunk, by: number): ColumnChunk {
  const far = BigInt(by);
  const { dictionary_page_offset: dictionary, ...meta } = column.meta_data!;
  return {
    ...column,
    file_offset: column.file_offset + far,
    meta_data: {
      ...meta,
      data_page_offset: meta.data_page_offset + far,
      ...(dictionary === undefined ? {} : { dictionary_page_offset: dictionary + far }),
    },
  };
}

/** Collects what is written until it is taken. */
class Pieces extends ByteWriter {
  take(): Uint8Array {
    const bytes = new Uint8Array(this.buffer, 0, this.index);
    this.index = 0;
    return bytes;
  }
}

/**
 * Writes batch after batch; what a call gives is good until the next one. Container, headers and compression are the
 * library's; the values are encoded here, since it makes an object of each.
 */
export class TraceParquet {
  private readonly pieces = new Pieces(1 << 20);
  private readonly columns: readonly Column[];
  private readonly writer: ParquetWriter;
  private readonly room = new Float64Array(BATCH_ROWS);
  private readonly there = new Int32Array(BATCH_ROWS);
  private readonly distinct = new Distinct(BATCH_ROWS);
  private readonly levels = createSheet(roomFor(BATCH_ROWS));
  private readonly values = createSheet(roomFor(BATCH_ROWS));

  /** @param about facts for the file's own metadata */
  constructor(shape: RowShape, about: Readonly<Record<string, string>>) {
    this.columns = columnsOf(shape);
    this.writer = new ParquetWriter({
      writer: this.pieces,
      schema: schemaOf(this.columns),
      kvMetadata: Object.entries(about).map(([key, value]): KeyValue => ({ key, value })),
      createdBy: 'steadybar',
    });
  }

  rows(batch: RowBatch): Uint8Array {
    const { pieces } = this;
    const start = pieces.offset;
    const columns = this.columns.map((column) => this.chunk(column, batch));
    this.note({ columns, rows: batch.n, size: pieces.offset - start });
    return pieces.take();
  }

  /** The batch as it would lie at the very beginning, for another writer to take in its place. It is not part of this file. */
  group(batch: RowBatch): RowGroup {
    const { pieces } = this;
    pieces.take();
    const start = pieces.offset;
    const columns = this.columns.map((column) => moved(this.chunk(column, batch), -start));
    return { columns, rows: batch.n, size: pieces.offset - start, bytes: pieces.take().slice() };
  }

  /** What `rows` would give of the batch that a group was made of. */
  adopt({ columns, rows, size, bytes }: RowGroup): Uint8Array {
    const { pieces } = this;
    const start = pieces.offset;
    pieces.appendBytes(bytes);
    this.note({ columns: columns.map((column) => moved(column, start)), rows, size });
    return pieces.take();
  }

  private note({ columns, rows, size }: Omit<RowGroup, 'bytes'>): void {
    const { writer } = this;
    writer.row_groups.push({
      columns: [...columns],
      total_byte_size: columns.reduce((sum, { meta_data }) => sum + meta_data!.total_uncompressed_size, 0n),
      num_rows: BigInt(rows),
      total_compressed_size: BigInt(size),
    });
    writer.num_rows += BigInt(rows);
  }

  finish(): Uint8Array {
    this.writer.finish();
    return this.pieces.take();
  }

  private chunk(column: Column, batch: RowBatch): ColumnChunk {
    const { pieces, room, there, levels, values } = this;
    const start = pieces.offset;
    const n = column.gather(batch, room, there);
    levels.at = 0;
    if (column.optional) putRuns(levels, there, batch.n, 1);
    values.at = 0;
    const unit = column.digits === undefined ? null : 10 ** column.digits;
    const distinct = unit === null ? null : this.distinct.find(room, n);
    let dictionary = 0;
    let encoding: Encoding = 'PLAIN';
    if (unit === null) {
      encoding = 'DELTA_BINARY_PACKED';
      putDeltas(values, room, n, column.type === 'INT64' ? 64 : 32);
    } else if (distinct === null || distinct === 0) putDoubles(values, room, n, unit);
    else {
      encoding = 'RLE_DICTIONARY';
      putDoubles(values, this.distinct.values, distinct, unit);
      dictionary = this.dictionaryPage(distinct);
      const width = 32 - Math.clz32(distinct - 1);
      values.at = 1;
      values.bytes[0] = width;
      putRuns(values, this.distinct.indices, n, width);
    }
    const data = pieces.offset;
    const uncompressed = dictionary + this.dataPage(batch.n, n, encoding);
    return {
      file_offset: BigInt(start),
      meta_data: {
        type: column.type,
        encodings: encoding === 'RLE_DICTIONARY' ? ['PLAIN', encoding] : [encoding],
        path_in_schema: [column.name],
        codec: 'SNAPPY',
        num_values: BigInt(batch.n),
        total_compressed_size: BigInt(pieces.offset - start),
        total_uncompressed_size: BigInt(uncompressed),
        data_page_offset: BigInt(data),
        ...(dictionary === 0 ? {} : { dictionary_page_offset: BigInt(start) }),
        ...(column.name === 'time_s' ? { statistics: boundsOf(room, n, unit!) } : {}),
      },
    };
  }

  /** Bytes before compression, with the header. */
  private dictionaryPage(distinct: number): number {
    const { pieces, values } = this;
    const start = pieces.offset;
    const compressed = snappyCompress(values.bytes.subarray(0, values.at));
    writePageHeader(pieces, {
      type: 'DICTIONARY_PAGE',
      uncompressed_page_size: values.at,
      compressed_page_size: compressed.length,
      dictionary_page_header: { num_values: distinct, encoding: 'PLAIN' },
    });
    const header = pieces.offset - start;
    pieces.appendBytes(compressed);
    return header + values.at;
  }

  private dataPage(rows: number, n: number, encoding: Encoding): number {
    const { pieces, levels, values } = this;
    const start = pieces.offset;
    const plain = values.bytes.subarray(0, values.at);
    const content = snappyCompress(plain);
    writePageHeader(pieces, {
      type: 'DATA_PAGE_V2',
      uncompressed_page_size: levels.at + plain.length,
      compressed_page_size: levels.at + content.length,
      data_page_header_v2: {
        num_values: rows,
        num_nulls: rows - n,
        num_rows: rows,
        encoding,
        definition_levels_byte_length: levels.at,
        repetition_levels_byte_length: 0,
        is_compressed: true,
      },
    });
    const header = pieces.offset - start;
    pieces.appendBytes(levels.bytes.subarray(0, levels.at));
    pieces.appendBytes(content);
    return header + levels.at + plain.length;
  }
}
