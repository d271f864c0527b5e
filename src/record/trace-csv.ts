/** trace.csv (docs/record.md 7): no field of it is text, so that nothing has to be quoted. */
import { csvRow } from './csv.ts';
import { type Decimals, MOST_DIGITS, putDecimal, putWhole } from './decimal-text.ts';
import { DECIMALS, type RowBatch, type RowShape } from './trace-rows.ts';

/** Names of the columns, of trace.parquet as well. */
export const columnNames = (shape: RowShape): readonly string[] => [
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

const PIECE = 1 << 20;
const COMMA = 0x2c;
const CR = 0x0d;
const LF = 0x0a;

/** Writes rows into one piece of memory, over and over. */
export class CsvWriter {
  private readonly rowMost: number;
  private readonly bytes: Uint8Array;

  constructor(private readonly shape: RowShape) {
    this.rowMost = (columnNames(shape).length + 1) * (MOST_DIGITS + 1);
    this.bytes = new Uint8Array(PIECE + this.rowMost);
  }

  header(): Uint8Array {
    return new TextEncoder().encode(csvRow([...columnNames(this.shape)]));
  }

  /** The rows as text in pieces; each is good until the next one is asked for. */
  *rows(batch: RowBatch): Generator<Uint8Array, void, undefined> {
    let at = 0;
    for (let i = 0; i < batch.n; i++) {
      at = this.row(batch, i, at);
      if (at < PIECE) continue;
      yield this.bytes.subarray(0, at);
      at = 0;
    }
    if (at > 0) yield this.bytes.subarray(0, at);
  }

  private row(b: RowBatch, i: number, start: number): number {
    const { bytes } = this;
    let at = putDecimal(bytes, start, b.sinceUs[i]!, DECIMALS.seconds);
    at = this.measured(at, b.bar[i]!, DECIMALS.bar);
    for (const t of b.temperatures) at = this.measured(at, t[i]!, DECIMALS.celsius);
    at = this.measured(at, b.uBar[i]!, DECIMALS.bar);
    const flags = b.flags[i]!;
    bytes[at++] = COMMA;
    if (flags >= 0) at = putWhole(bytes, at, flags);
    at = this.whole(at, b.arrivalUs[i]!);
    at = this.whole(at, b.seq[i]!);
    at = this.whole(at, b.tick[i]!);
    at = this.whole(at, b.status[i]!);
    const missing = b.missing[i]!;
    for (let c = 0; c < b.raw.length; c++) {
      if ((missing & (1 << c)) === 0) at = this.whole(at, b.raw[c]![i]!);
      else bytes[at++] = COMMA;
    }
    bytes[at] = CR;
    bytes[at + 1] = LF;
    return at + 2;
  }

  private whole(at: number, n: number): number {
    this.bytes[at] = COMMA;
    return putWhole(this.bytes, at + 1, n);
  }

  private measured(at: number, n: number, digits: Decimals): number {
    this.bytes[at] = COMMA;
    return Number.isNaN(n) ? at + 1 : putDecimal(this.bytes, at + 1, n, digits);
  }
}
