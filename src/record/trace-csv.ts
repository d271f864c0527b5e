/** trace.csv (docs/record.md 7): no field of it is text, so that nothing has to be quoted. */
import type { SecondPressure } from '../job/codes.ts';
import { csvRow } from './csv.ts';
import { type Decimals, MOST_DIGITS, putDecimal, putWhole } from './decimal-text.ts';
import { DECIMALS, type RowBatch, type RowShape } from './trace-rows.ts';

/** Columns of a second pressure: the value, and its expanded uncertainty. */
export const SECOND_NAMES: { readonly [S in SecondPressure]: { readonly bar: string; readonly u: string } } =
  {
    'outlet-pressure': { bar: 'pressure_outlet_bar', u: 'pressure_outlet_u_bar' },
    'check-pressure': { bar: 'pressure_check_bar', u: 'pressure_check_u_bar' },
  };

/** Names of the columns, of trace.parquet as well. */
export const columnNames = (shape: RowShape): readonly string[] => [
  'time_s',
  'pressure_bar',
  ...shape.seconds.map((s) => SECOND_NAMES[s].bar),
  ...shape.temperatures.map((t) => t.name),
  'pressure_u_bar',
  ...shape.seconds.map((s) => SECOND_NAMES[s].u),
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

/**
 * Writes rows into one piece of memory, over and over. Most columns stand still from one row to the next: such a field
 * is copied from the row above.
 */
export class CsvWriter {
  private readonly rowMost: number;
  private readonly bytes: Uint8Array;
  /** Of each column in the row above, where this piece has one: its number, and where its text with the comma lies. */
  private readonly last: Float64Array;
  private readonly from: Int32Array;
  private readonly size: Int32Array;

  constructor(private readonly shape: RowShape) {
    const columns = columnNames(shape).length;
    this.rowMost = (columns + 1) * (MOST_DIGITS + 1);
    this.bytes = new Uint8Array(PIECE + this.rowMost);
    this.last = new Float64Array(columns);
    this.from = new Int32Array(columns);
    this.size = new Int32Array(columns);
  }

  header(): Uint8Array {
    return new TextEncoder().encode(csvRow([...columnNames(this.shape)]));
  }

  /** The rows as text in pieces; each is good until the next one is asked for. */
  *rows(batch: RowBatch): Generator<Uint8Array, void, undefined> {
    let at = 0;
    for (let i = 0; i < batch.n; i++) {
      if (at === 0) this.last.fill(Number.NaN);
      at = this.row(batch, i, at);
      if (at < PIECE) continue;
      yield this.bytes.subarray(0, at);
      at = 0;
    }
    if (at > 0) yield this.bytes.subarray(0, at);
  }

  private row(b: RowBatch, i: number, start: number): number {
    let at = this.field(0, start, b.sinceUs[i]!, DECIMALS.seconds);
    at = this.field(1, at, b.bar[i]!, DECIMALS.bar);
    let c = 2;
    for (const s of b.seconds) at = this.field(c++, at, s.bar[i]!, DECIMALS.bar);
    for (const t of b.temperatures) at = this.field(c++, at, t[i]!, DECIMALS.celsius);
    at = this.field(c++, at, b.uBar[i]!, DECIMALS.bar);
    for (const s of b.seconds) at = this.field(c++, at, s.uBar[i]!, DECIMALS.bar);
    const flags = b.flags[i]!;
    at = this.field(c++, at, flags < 0 ? Number.NaN : flags, 0);
    at = this.field(c++, at, b.arrivalUs[i]!, 0);
    at = this.field(c++, at, b.seq[i]!, 0);
    at = this.field(c++, at, b.tick[i]!, 0);
    at = this.field(c++, at, b.status[i]!, 0);
    const missing = b.missing[i]!;
    for (let k = 0; k < b.raw.length; k++)
      at = this.field(c++, at, (missing & (1 << k)) === 0 ? b.raw[k]![i]! : Number.NaN, 0);
    // In place of the last comma.
    this.bytes[at - 1] = CR;
    this.bytes[at] = LF;
    return at + 1;
  }

  /** A number and a comma; a comma alone for none. */
  private field(c: number, at: number, n: number, digits: Decimals | 0): number {
    const { bytes, last, from, size } = this;
    if (Number.isNaN(n)) {
      bytes[at] = COMMA;
      return at + 1;
    }
    let end: number;
    if (n === last[c]) {
      end = at + size[c]!;
      for (let p = from[c]!, q = at; q < end; ) bytes[q++] = bytes[p++]!;
    } else {
      end = digits === 0 ? putWhole(bytes, at, n) : putDecimal(bytes, at, n, digits);
      bytes[end++] = COMMA;
      last[c] = n;
      size[c] = end - at;
    }
    from[c] = at;
    return end;
  }
}
