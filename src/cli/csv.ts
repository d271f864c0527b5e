import { PLACES, type Place } from '../job/codes.ts';
import { fault, shown } from './fault.ts';

/** A trace from a CSV file: gauge pressure and temperatures beside the time. */
export interface CsvTrace {
  /** Seconds from the first row, ascending. */
  readonly s: Float64Array;
  /** bar gauge; NaN where the cell is empty. */
  readonly bar: Float64Array;
  readonly temps: readonly { readonly place: Place | null; readonly c: Float64Array }[];
  /** Smallest step that the pressure is printed in, bar. */
  readonly printedBar: number;
}

const TEMPERATURE = 'temperature_c';
const KNOWN_COLUMNS = ['time_s', 'pressure_bar', TEMPERATURE, ...PLACES.map((p) => `${TEMPERATURE}_${p}`)];
const MOST_TEMPS = 4;
/** Rows closer than the device protocol's own clock can tell apart, s. */
const LEAST_STEP_S = 1e-4;
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;
/** Values outside these are no gauge pressure in bar and no temperature in °C of a pipe repair. */
const BAR = { lo: -1.05, hi: 100 };
const CELSIUS = { lo: -60, hi: 300 };
const SECONDS = { lo: -1e9, hi: 1e11 };

interface Header {
  readonly time: number;
  readonly bar: number;
  readonly temps: readonly { readonly column: number; readonly place: Place | null }[];
  readonly columns: number;
}

/** True when the text begins as a CSV trace would: the header's first name is in its first line. */
export function looksLikeCsv(text: string): boolean {
  const line =
    text
      .slice(0, 2000)
      .replace(/^\uFEFF/, '')
      .split(/\r?\n/, 1)[0] ?? '';
  return /(^|[,;\t])\s*"?(time_s|pressure_bar)\b/i.test(line);
}

function header(line: string): Header {
  const names = line.split(',').map((n) => n.trim().replace(/^"(.*)"$/, '$1'));
  const at = (name: string): number => names.indexOf(name);
  const twice = names.find((n, i) => names.indexOf(n) !== i);
  if (twice !== undefined) throw fault((f) => f.columnTwice(shown(twice)));
  const temps: { column: number; place: Place | null }[] = [];
  names.forEach((name, column) => {
    if (name === 'time_s' || name === 'pressure_bar') return;
    if (name === TEMPERATURE) {
      temps.push({ column, place: null });
      return;
    }
    const place = PLACES.find((p) => name === `${TEMPERATURE}_${p}`);
    if (place === undefined) throw fault((f) => f.unknownColumn(shown(name), KNOWN_COLUMNS.join(', ')));
    temps.push({ column, place });
  });
  if (at('time_s') < 0) throw fault((f) => f.columnMissing('time_s'));
  if (at('pressure_bar') < 0) throw fault((f) => f.columnMissing('pressure_bar'));
  if (temps.length > MOST_TEMPS) throw fault((f) => f.tooManyTemperatures(MOST_TEMPS));
  return { time: at('time_s'), bar: at('pressure_bar'), temps, columns: names.length };
}

/** @param name of the column; null: one of the temperatures */
function cell(text: string, row: number, name: string | null, bounds: { lo: number; hi: number }): number {
  if (text === '') return Number.NaN;
  const value = NUMBER.test(text) ? Number(text) : Number.NaN;
  if (Number.isNaN(value)) throw fault((f) => f.notANumber(row, name ?? f.temperature, shown(text)));
  if (value < bounds.lo || value > bounds.hi)
    throw fault((f) => f.outside(row, name ?? f.temperature, shown(text), bounds.lo, bounds.hi));
  return value;
}

function decimals(text: string): number {
  if (/[eE]/.test(text)) return 9;
  const dot = text.indexOf('.');
  return dot < 0 ? 0 : text.length - dot - 1;
}

/**
 * Reads a CSV trace. Rows are counted as an editor does: the header is row 1.
 * @throws InputFault with the row
 */
export function readCsv(text: string): CsvTrace {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  while (lines.length > 0 && lines.at(-1)!.trim() === '') lines.pop();
  const head = header(lines[0] ?? '');
  const n = lines.length - 1;
  if (n < 1) throw fault((f) => f.noRows);
  const s = new Float64Array(n);
  const bar = new Float64Array(n);
  const temps = head.temps.map((t) => ({ place: t.place, c: new Float64Array(n) }));
  let digits = 0;
  let first = 0;
  let pressures = 0;
  for (let i = 0; i < n; i++) {
    const row = i + 2;
    const cells = lines[i + 1]!.split(',');
    if (cells.length !== head.columns) throw fault((f) => f.columns(row, cells.length, head.columns));
    for (let c = 0; c < cells.length; c++) cells[c] = cells[c]!.trim();
    const time = cell(cells[head.time]!, row, 'time_s', SECONDS);
    if (Number.isNaN(time)) throw fault((f) => f.noTime(row));
    if (i === 0) first = time;
    s[i] = time - first;
    if (i > 0 && !(s[i]! - s[i - 1]! >= LEAST_STEP_S * 0.999))
      throw fault((f) => f.notLater(row, shown(cells[head.time]!)));
    bar[i] = cell(cells[head.bar]!, row, 'pressure_bar', BAR);
    if (!Number.isNaN(bar[i]!)) pressures++;
    digits = Math.max(digits, decimals(cells[head.bar]!));
    head.temps.forEach((t, k) => {
      temps[k]!.c[i] = cell(cells[t.column]!, row, null, CELSIUS);
    });
  }
  if (pressures === 0) throw fault((f) => f.noPressure);
  return { s, bar, temps, printedBar: Number(`1e-${Math.min(6, Math.max(2, digits))}`) };
}

/**
 * The converter's own step, where it shows: every change of pressure is a whole number of smallest changes. Else
 * the printed step. It is the floor of any noise estimate, so a wrong large one would hide nothing but noise.
 */
export function pressureStep(trace: CsvTrace): number {
  const { bar, printedBar } = trace;
  let least = Number.POSITIVE_INFINITY;
  const steps: number[] = [];
  for (let i = 1; i < bar.length; i++) {
    const d = Math.abs(bar[i]! - bar[i - 1]!);
    if (!(d > printedBar / 2)) continue;
    steps.push(d);
    if (d < least) least = d;
  }
  if (!Number.isFinite(least) || least < 5 * printedBar) return printedBar;
  const near = 0.1;
  const whole = steps.filter((d) => Math.abs(d / least - Math.round(d / least)) <= near || d > 10 * least);
  return whole.length >= 0.95 * steps.length ? least : printedBar;
}
