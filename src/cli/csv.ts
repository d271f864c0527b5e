import { IN_PIPE, type InPipe } from '../job/codes.ts';
import { fault, type InputFault, shown } from './fault.ts';

/** A trace from a CSV file: gauge pressure and temperatures beside the time. */
export interface CsvTrace {
  /** Seconds from the first row, ascending. */
  readonly s: Float64Array;
  /** bar gauge; NaN where the cell is empty, Infinity where it holds an impossible value. */
  readonly bar: Float64Array;
  /** °C, with the same two marks. */
  readonly temps: readonly { readonly place: InPipe | null; readonly c: Float64Array }[];
  readonly unusable: UnusableCells;
  /** Smallest step that the pressure is printed in, bar. */
  readonly printedBar: number;
}

/** Cells with numbers that no gauge and no probe of a pipe repair shows: judged as readings that are none. */
export interface UnusableCells {
  readonly cells: number;
  /** The first of them. */
  readonly listed: readonly UnusableCell[];
}

interface UnusableCell {
  /** As an editor counts: the header is row 1. */
  readonly row: number;
  readonly column: string;
  readonly said: InputFault;
}

const TEMPERATURE = 'temperature_c';
/** A column in another unit would fill the result. */
const MOST_LISTED = 100;
const KNOWN_COLUMNS = ['time_s', 'pressure_bar', TEMPERATURE, ...IN_PIPE.map((p) => `${TEMPERATURE}_${p}`)];
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
  readonly temps: readonly {
    readonly column: number;
    readonly name: string;
    readonly place: InPipe | null;
  }[];
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
  const temps: { column: number; name: string; place: InPipe | null }[] = [];
  names.forEach((name, column) => {
    if (name === 'time_s' || name === 'pressure_bar') return;
    if (name === TEMPERATURE) {
      temps.push({ column, name, place: null });
      return;
    }
    const place = IN_PIPE.find((p) => name === `${TEMPERATURE}_${p}`);
    if (place === undefined) throw fault((f) => f.unknownColumn(shown(name), KNOWN_COLUMNS.join(', ')));
    temps.push({ column, name, place });
  });
  if (at('time_s') < 0) throw fault((f) => f.columnMissing('time_s'));
  if (at('pressure_bar') < 0) throw fault((f) => f.columnMissing('pressure_bar'));
  if (temps.length > MOST_TEMPS) throw fault((f) => f.tooManyTemperatures(MOST_TEMPS));
  return { time: at('time_s'), bar: at('pressure_bar'), temps, columns: names.length };
}

/** The number of a cell; NaN where it is empty. @param name of the column; null: one of the temperatures */
function numberIn(text: string, row: number, name: string | null): number {
  if (text === '') return Number.NaN;
  const value = NUMBER.test(text) ? Number(text) : Number.NaN;
  if (Number.isNaN(value)) throw fault((f) => f.notANumber(row, name ?? f.temperature, shown(text)));
  return value;
}

function outside(
  text: string,
  row: number,
  name: string | null,
  bounds: { lo: number; hi: number },
): InputFault {
  return fault((f) => f.outside(row, name ?? f.temperature, shown(text), bounds.lo, bounds.hi));
}

function decimals(text: string): number {
  if (/[eE]/.test(text)) return 9;
  const dot = text.indexOf('.');
  return dot < 0 ? 0 : text.length - dot - 1;
}

/**
 * Reads a CSV trace. Rows are counted as an editor does: the header is row 1. A number that cannot be is a reading
 * that cannot be used; what is no number, or a row without a time, makes the file another one than it says.
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
  let cells = 0;
  const listed: UnusableCell[] = [];
  let firstBar: InputFault | null = null;
  const reading = (
    text: string,
    row: number,
    column: string,
    name: string | null,
    bounds: typeof BAR,
  ): number => {
    const value = numberIn(text, row, name);
    if (!(value < bounds.lo || value > bounds.hi)) return value;
    cells++;
    if (listed.length < MOST_LISTED) listed.push({ row, column, said: outside(text, row, name, bounds) });
    return Number.POSITIVE_INFINITY;
  };
  for (let i = 0; i < n; i++) {
    const row = i + 2;
    const at = lines[i + 1]!.split(',');
    if (at.length !== head.columns) throw fault((f) => f.columns(row, at.length, head.columns));
    for (let c = 0; c < at.length; c++) at[c] = at[c]!.trim();
    const time = numberIn(at[head.time]!, row, 'time_s');
    if (Number.isNaN(time)) throw fault((f) => f.noTime(row));
    if (time < SECONDS.lo || time > SECONDS.hi) throw outside(at[head.time]!, row, 'time_s', SECONDS);
    if (i === 0) first = time;
    s[i] = time - first;
    if (i > 0 && !(s[i]! - s[i - 1]! >= LEAST_STEP_S * 0.999))
      throw fault((f) => f.notLater(row, shown(at[head.time]!)));
    const pressure = reading(at[head.bar]!, row, 'pressure_bar', 'pressure_bar', BAR);
    bar[i] = pressure;
    if (Number.isFinite(pressure)) {
      pressures++;
      digits = Math.max(digits, decimals(at[head.bar]!));
    } else if (!Number.isNaN(pressure)) firstBar ??= outside(at[head.bar]!, row, 'pressure_bar', BAR);
    head.temps.forEach((t, k) => {
      temps[k]!.c[i] = reading(at[t.column]!, row, t.name, null, CELSIUS);
    });
  }
  // Not one that can be: most likely another unit.
  if (pressures === 0) throw firstBar ?? fault((f) => f.noPressure);
  return {
    s,
    bar,
    temps,
    unusable: { cells, listed },
    printedBar: Number(`1e-${Math.min(6, Math.max(2, digits))}`),
  };
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
    if (!(d > printedBar / 2) || d === Number.POSITIVE_INFINITY) continue;
    steps.push(d);
    if (d < least) least = d;
  }
  if (!Number.isFinite(least) || least < 5 * printedBar) return printedBar;
  const near = 0.1;
  const whole = steps.filter((d) => Math.abs(d / least - Math.round(d / least)) <= near || d > 10 * least);
  return whole.length >= 0.95 * steps.length ? least : printedBar;
}
