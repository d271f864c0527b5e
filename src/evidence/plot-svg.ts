/** A trace as a vector picture: for the certificate, for overlays and to be saved. Ground filled, so it prints. */

import type { TraceWindow } from '../engine/messages.ts';
import type { SeriesName } from '../record/types.ts';
import { scaleOf } from '../units/display.ts';
import type { DisplayUnits, Format } from '../words/create-format.ts';
import { escapeXml } from './escape.ts';
import type { PictureInk } from './messages.ts';

export interface PlotLine {
  readonly label: string;
  /** A second pressure lies in the first's lane; over its scale, which it does not move, it goes along the end. */
  readonly kind: SeriesName;
  readonly window: TraceWindow;
  /** Index of the series in the window. */
  readonly series: number;
  /** Added to the window's seconds. */
  readonly shiftS: number;
  readonly dash: string;
  readonly width: number;
  /** Where the sensor’s span ends, bar: past it a reading is no number, and the line goes along it. null: not known. */
  readonly endBar: number | null;
  /** Spans in which nothing was heard, in the window's seconds. */
  readonly gaps: readonly { readonly fromS: number; readonly toS: number }[];
}

export interface PlotRule {
  readonly label: string;
  readonly bar: number;
  readonly fromS: number;
  readonly toS: number;
  readonly dash: string;
  readonly width: number;
}

export interface Plot {
  readonly width: number;
  readonly height: number;
  readonly fromS: number;
  readonly toS: number;
  /** Read aloud for the picture. */
  readonly title: string;
  readonly units: DisplayUnits;
  readonly format: Format;
  readonly ink: PictureInk;
  readonly lines: readonly PlotLine[];
  readonly rules: readonly PlotRule[];
  readonly bands: readonly {
    readonly fromS: number;
    readonly toS: number;
    readonly low: number;
    readonly high: number;
  }[];
  readonly stages: readonly { readonly label: string; readonly fromS: number; readonly toS: number }[];
  /** What the times of the axis are, and in which form. */
  readonly timeName: string;
  readonly marks: readonly { readonly atS: number; readonly priority: 'urgent' | 'high' | 'low' }[];
}

const LEFT = 46;
const RIGHT = 14;
/** Between the lanes of pressure and temperature, and the lower one's share of the height. */
const LANE_GAP = 14;
const LANE_SHARE = 0.22;
const LANE_LEAST = 44;
/** Names of the limits stand right of the plot, where no line runs: px a letter, and from one to the next. */
const LETTER = 6.1;
const ROW = 13;
/** In a narrower picture they would take half of it: there they stand in the plot, over their lines, px. */
const NAMES_BESIDE = 420;
const OVER_LINE = 5;
const TOP_STAGES = 22;
const TOP = 18;
const AXIS = 26;
const LEGEND = 22;
/** A sample of a line beside its name, what stands between two names, a letter, and from row to row, px. */
const SAMPLE = 29;
const BETWEEN = 18;
const LEGEND_LETTER = 6.2;
const LEGEND_ROW = 15;

/** Steps that people count in: 1, 2, 5 times a power of ten. */
export function niceStep(span: number, most: number): number {
  const raw = span / Math.max(1, most);
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].find((m) => m * power >= raw) ?? 10;
  return step * power;
}

/** Steps of a clock, s. */
function timeStep(span: number, most: number): number {
  const steps = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400, 21_600, 43_200];
  return steps.find((s) => span / s <= most) ?? 86_400;
}

const n1 = (v: number): string => {
  const r = Math.round(v * 10) / 10;
  return Object.is(r, -0) ? '0' : String(r);
};

/** Points of one line: lowest and highest of each bucket, broken where values are missing. */
export function linePath(
  line: PlotLine,
  x: (s: number) => number,
  y: (v: number) => number,
  fromS: number,
  toS: number,
): string {
  const { window, shiftS, gaps, endBar } = line;
  const seen = (v: number) => (endBar === null ? v : Math.min(v, endBar));
  const series = window.series[line.series];
  if (series === undefined) return '';
  const out: string[] = [];
  let open = false;
  let before = Number.NEGATIVE_INFINITY;
  // A channel that converts seldom leaves holes between its values: they are joined up to a few of its periods.
  const join = Math.max(3, ((window.toS - window.fromS) / Math.max(1, window.s.length)) * 3);
  for (let i = 0; i < window.s.length; i++) {
    const s = window.s[i]!;
    const [lo, hi] = [seen(series.min[i]!), seen(series.max[i]!)];
    if (!Number.isFinite(lo) || !Number.isFinite(hi)) continue;
    const at = s + shiftS;
    if (at < fromS || at > toS) {
      open = false;
      continue;
    }
    if (s - before > join || gaps.some((g) => g.fromS < s && g.toS > before)) open = false;
    before = s;
    out.push(`${open ? 'L' : 'M'}${n1(x(at))} ${n1(y(lo))}`);
    if (hi !== lo) out.push(`V${n1(y(hi))}`);
    open = true;
  }
  return out.join('');
}

/** The highest value of a line as it came; minus infinity: it has none. */
export function highestOf({ window, series }: Pick<PlotLine, 'window' | 'series'>): number {
  let highest = Number.NEGATIVE_INFINITY;
  for (const v of window.series[series]?.max ?? []) if (v > highest) highest = v;
  return highest;
}

function axisTop(lines: readonly PlotLine[], rules: readonly PlotRule[]): number {
  let top = 0.5;
  for (const rule of rules) top = Math.max(top, rule.bar);
  for (const l of lines) {
    if (l.kind !== 'bar') continue;
    top = Math.max(top, Math.min(highestOf(l), l.endBar ?? Number.POSITIVE_INFINITY));
  }
  return top * 1.08;
}

function temperatureRange(lines: readonly PlotLine[]): { lo: number; hi: number } | null {
  let lo = Number.POSITIVE_INFINITY;
  let hi = Number.NEGATIVE_INFINITY;
  for (const l of lines) {
    if (l.kind !== 'temperature') continue;
    const series = l.window.series[l.series];
    for (const v of series?.min ?? []) if (v < lo) lo = v;
    for (const v of series?.max ?? []) if (v > hi) hi = v;
  }
  return lo <= hi ? { lo: Math.floor(lo - 2), hi: Math.ceil(hi + 2) } : null;
}

const SHAPE = {
  urgent: 'M-2-5h4l3 3v4l-3 3h-4l-3-3v-4z',
  high: 'M0-5l5 10h-10z',
  low: 'M-4 0a4 4 0 1 0 8 0a4 4 0 1 0-8 0z',
} as const;

/** Names in their order, pushed apart so that none covers another, as little as needed. */
function spread(ys: readonly number[], top: number, bottom: number): number[] {
  const out = [...ys];
  for (let i = 1; i < out.length; i++) out[i] = Math.max(out[i]!, out[i - 1]! + ROW);
  let limit = bottom;
  for (let i = out.length - 1; i >= 0; i--) {
    out[i] = Math.max(top, Math.min(out[i]!, limit));
    limit = out[i]! - ROW;
  }
  return out;
}

interface LegendEntry {
  readonly x: number;
  readonly row: number;
  readonly text: string;
  /** Draws the sample; null: the rest of a name that took more than one row. */
  readonly line: PlotLine | null;
}

/** Words of a name in lines of so many letters at most; one word is never broken. */
function folded(name: string, letters: number): string[] {
  const out: string[] = [];
  for (const word of name.split(' ')) {
    const last = out.at(-1);
    if (last === undefined || last.length + 1 + word.length > letters) out.push(word);
    else out[out.length - 1] = `${last} ${word}`;
  }
  return out;
}

/**
 * Names under the plot, in as many rows as they need; what the times are stands at the right of the last one, in a row of its
 * own where a name reaches there.
 */
function legendOf(
  lines: readonly PlotLine[],
  left: number,
  width: number,
  timeName: string,
): { readonly entries: readonly LegendEntry[]; readonly rows: number } {
  const end = width - 4;
  const wide = (text: string) => SAMPLE + text.length * LEGEND_LETTER;
  const entries: LegendEntry[] = [];
  let row = 0;
  let at = left;
  for (const line of lines) {
    if (at > left && at + wide(line.label) > end) {
      row++;
      at = left;
    }
    const letters = Math.floor((end - at - SAMPLE) / LEGEND_LETTER);
    for (const [i, text] of folded(line.label, letters).entries()) {
      if (i > 0) row++;
      entries.push({ x: at, row, text, line: i === 0 ? line : null });
    }
    at += wide(entries.at(-1)?.text ?? '') + BETWEEN;
  }
  const isTaken = at - BETWEEN > end - timeName.length * LEGEND_LETTER - BETWEEN;
  return { entries, rows: row + 1 + (isTaken ? 1 : 0) };
}

export function plotSvg(plot: Plot): string {
  const { width, height, fromS, toS, ink, units } = plot;
  const { fixed, stopwatch } = plot.format;
  const pScale = scaleOf('pressure', units);
  const cScale = scaleOf('temperature', units);
  const temps = temperatureRange(plot.lines);
  const named = plot.rules.filter((r) => r.label !== '').sort((a, b) => b.bar - a.bar);
  const nameOf = (r: PlotRule) => `${r.label} ${fixed(r.bar * pScale.factor, pScale.digits)}`;
  const left = LEFT;
  const areBeside = width >= NAMES_BESIDE;
  const beside = areBeside ? named.map((r) => nameOf(r).length * LETTER + 14) : [];
  const right = width - Math.max(RIGHT, ...beside);
  const top = plot.stages.length > 0 ? TOP_STAGES + TOP : TOP;
  const legend = legendOf(plot.lines, left, width, plot.timeName);
  const foot = height - AXIS - LEGEND - (legend.rows - 1) * LEGEND_ROW;
  const laneHigh = temps === null ? 0 : Math.max(LANE_LEAST, (foot - top) * LANE_SHARE);
  const bottom = temps === null ? foot : foot - laneHigh - LANE_GAP;
  const laneTop = foot - laneHigh;
  const topBar = axisTop(plot.lines, plot.rules);
  const span = Math.max(1e-3, toS - fromS);
  const x = (s: number): number => left + ((s - fromS) / span) * (right - left);
  const y = (bar: number): number => bottom - (bar / topBar) * (bottom - top);
  const yc = (c: number): number =>
    temps === null ? foot : foot - ((c - temps.lo) / (temps.hi - temps.lo)) * (foot - laneTop);
  const clamp = (s: number): number => Math.min(right, Math.max(left, x(s)));
  const out: string[] = [];
  const text = (tx: number, ty: number, words: string, anchor = 'start', fill = ink.ink2): void => {
    out.push(
      `<text x="${n1(tx)}" y="${n1(ty)}" text-anchor="${anchor}" fill="${fill}">${escapeXml(words)}</text>`,
    );
  };

  for (const b of plot.bands) {
    const [x0, x1] = [clamp(b.fromS), clamp(b.toS)];
    if (x1 > x0)
      out.push(
        `<rect x="${n1(x0)}" y="${n1(y(b.high))}" width="${n1(x1 - x0)}" height="${n1(y(b.low) - y(b.high))}" fill="${ink.band}"/>`,
      );
  }
  // Axes: each lane has its scale at its left, time below both.
  const pTop = topBar * pScale.factor;
  const pStep = niceStep(pTop, 5);
  const digits = Math.max(0, -Math.floor(Math.log10(pStep) + 1e-9));
  for (let v = 0; v <= pTop + 1e-9; v += pStep) {
    const at = y(v / pScale.factor);
    out.push(`<path d="M${n1(left)} ${n1(at)}H${n1(right)}" stroke="${ink.line}" stroke-width=".6"/>`);
    text(left - 5, at + 3.5, fixed(v, digits), 'end');
  }
  text(left - 5, top - 6, pScale.unit, 'end');
  if (temps !== null) {
    const [lo, hi] = [temps.lo, temps.hi].map((c) => c * cScale.factor + cScale.shift) as [number, number];
    const step = niceStep(hi - lo, 3);
    text(left - 5, laneTop + 5, cScale.unit, 'end');
    for (let v = Math.ceil(lo / step) * step; v <= hi; v += step) {
      const at = yc((v - cScale.shift) / cScale.factor);
      out.push(`<path d="M${n1(left)} ${n1(at)}H${n1(right)}" stroke="${ink.line}" stroke-width=".6"/>`);
      if (at > laneTop + ROW) text(left - 5, at + 3.5, fixed(v, 0), 'end');
    }
    out.push(`<path d="M${n1(left)} ${n1(bottom)}H${n1(right)}" stroke="${ink.ink2}" stroke-width=".8"/>`);
  }
  const tStep = timeStep(span, Math.max(2, Math.floor((right - left) / 90)));
  for (let s = Math.ceil(fromS / tStep) * tStep; s <= toS; s += tStep) {
    out.push(`<path d="M${n1(x(s))} ${n1(foot)}v4" stroke="${ink.ink2}" stroke-width=".8"/>`);
    text(x(s), foot + 15, `${s < 0 ? '\u2212' : ''}${stopwatch(Math.abs(s))}`, 'middle');
  }
  out.push(`<path d="M${n1(left)} ${n1(foot)}H${n1(right)}" stroke="${ink.ink2}" stroke-width=".8"/>`);
  for (const stage of plot.stages) {
    const [x0, x1] = [clamp(stage.fromS), clamp(stage.toS)];
    if (x1 - x0 < 1) continue;
    out.push(
      `<path d="M${n1(x0)} 3V${n1(TOP_STAGES)}H${n1(x1)}" fill="none" stroke="${ink.ink2}" stroke-width=".8"/>`,
    );
    if (x1 - x0 > stage.label.length * 6 + 8) text(x0 + 5, TOP_STAGES - 7, stage.label, 'start', ink.ink);
  }
  for (const l of plot.lines)
    for (const g of l.gaps) {
      const [x0, x1] = [clamp(g.fromS + l.shiftS), clamp(g.toS + l.shiftS)];
      if (x1 > left && x0 < right && l.kind === 'bar')
        out.push(
          `<rect x="${n1(x0)}" y="${n1(top)}" width="${n1(Math.max(1.5, x1 - x0))}" height="${n1(bottom - top)}" fill="${ink.ink2}" fill-opacity=".22"/>`,
        );
    }
  for (const r of plot.rules) {
    const [x0, x1] = [clamp(r.fromS), clamp(r.toS)];
    if (x1 <= x0) continue;
    const dash = r.dash === '' ? '' : ` stroke-dasharray="${r.dash}"`;
    out.push(
      `<path d="M${n1(x0)} ${n1(y(r.bar))}H${n1(x1)}" stroke="${ink.ink}" stroke-width="${r.width}"${dash}/>`,
    );
  }
  const scaleOfLine = { bar: y, second: (v: number) => y(Math.min(v, topBar)), temperature: yc };
  for (const l of plot.lines) {
    const d = linePath(l, x, scaleOfLine[l.kind], fromS, toS);
    const dash = l.dash === '' ? '' : ` stroke-dasharray="${l.dash}"`;
    const stroke = l.kind === 'bar' ? ink.ink : ink.ink2;
    if (d !== '')
      out.push(
        `<path d="${d}" fill="none" stroke="${stroke}" stroke-width="${l.width}" stroke-linejoin="round"${dash}/>`,
      );
  }
  const rows = spread(
    named.map((r) => y(r.bar) - (areBeside ? 0 : OVER_LINE + 3.5)),
    top,
    bottom,
  );
  for (const [i, r] of named.entries()) {
    const at = rows[i]!;
    if (areBeside) {
      out.push(
        `<path d="M${n1(right + 1)} ${n1(y(r.bar))}L${n1(right + 7)} ${n1(at)}" stroke="${ink.ink2}" stroke-width=".6"/>`,
      );
      text(right + 10, at + 3.5, nameOf(r), 'start', ink.ink);
    } else {
      const letters = nameOf(r).length * LETTER + 6;
      out.push(
        `<rect x="${n1(right - letters)}" y="${n1(at - 6.5)}" width="${n1(letters)}" height="${ROW}" fill="${ink.ground}" fill-opacity=".85"/>`,
      );
      text(right - 3, at + 3.5, nameOf(r), 'end', ink.ink);
    }
  }
  for (const m of plot.marks) {
    if (m.atS < fromS || m.atS > toS) continue;
    out.push(
      `<path d="${SHAPE[m.priority]}" transform="translate(${n1(x(m.atS))} ${n1(top + 6)})" fill="${ink.alarm[m.priority]}"/>`,
    );
  }
  const legendY = height - 8;
  const rowY = (row: number) => legendY - (legend.rows - 1 - row) * LEGEND_ROW;
  for (const { x: at, row, text: name, line } of legend.entries) {
    if (line !== null) {
      const dash = line.dash === '' ? '' : ` stroke-dasharray="${line.dash}"`;
      const stroke = line.kind === 'bar' ? ink.ink : ink.ink2;
      out.push(
        `<path d="M${n1(at)} ${n1(rowY(row) - 4)}h24" stroke="${stroke}" stroke-width="${line.width}"${dash}/>`,
      );
    }
    text(at + SAMPLE, rowY(row), name);
  }
  text(width - 4, legendY, plot.timeName, 'end');
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" font-family="system-ui, 'Noto Sans', 'DejaVu Sans', sans-serif" font-size="11"><title>${escapeXml(plot.title)}</title><rect width="${width}" height="${height}" fill="${ink.ground}"/>${out.join('')}</svg>`;
}
