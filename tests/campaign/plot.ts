/**
 * A small plotter that writes SVG text: panels with axes, lines, steps, bands and marks, on a filled background so
 * that it prints. Colours are told apart by dash and label as well.
 */

export interface Series {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly colour: string;
  readonly label?: string;
  readonly dash?: string;
  readonly width?: number;
  /** Dots instead of a line. */
  readonly dots?: boolean;
}

export interface Rule {
  readonly at: number;
  readonly axis: 'x' | 'y';
  readonly colour: string;
  readonly label?: string;
  readonly dash?: string;
}

/** Vertical bar from y0 to y1 at x: an interval. */
export interface Whisker {
  readonly x: number;
  readonly y0: number;
  readonly y1: number;
  readonly colour: string;
}

export interface Panel {
  readonly title: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly series: readonly Series[];
  readonly rules?: readonly Rule[];
  readonly whiskers?: readonly Whisker[];
  readonly xRange?: readonly [number, number];
  readonly yRange?: readonly [number, number];
}

const W = 420;
const H = 260;
const PAD = { left: 52, right: 14, top: 28, bottom: 40 };

export const INK = '#1d2433';
export const BLUE = '#1f5fa8';
export const RED = '#b3261e';
export const GREEN = '#2d7a46';
export const AMBER = '#a86a00';
export const GREY = '#7a8394';

const xml = (s: string): string => s.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
const round = (v: number): string => (Math.round(v * 10) / 10).toString();

/** Round tick values, about `count` of them. */
export function ticks(lo: number, hi: number, count = 5): number[] {
  const raw = (hi - lo) / count;
  if (!(raw > 0)) return [lo];
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((m) => m * power).find((s) => s >= raw) ?? raw;
  const out: number[] = [];
  for (let v = Math.ceil(lo / step - 1e-9) * step; v <= hi + 1e-9 * step; v += step)
    out.push(Number(v.toPrecision(12)));
  return out;
}

function extent(values: readonly number[]): [number, number] {
  let lo = Number.POSITIVE_INFINITY;
  let hi = Number.NEGATIVE_INFINITY;
  for (const v of values) {
    if (!Number.isFinite(v)) continue;
    lo = Math.min(lo, v);
    hi = Math.max(hi, v);
  }
  if (!(hi > lo)) return [lo - 0.5, lo + 0.5];
  return [lo, hi + 0.05 * (hi - lo)];
}

/** Keeps at most `most` points, with the extremes of every stretch, so that a spike is not lost. */
export function thin(x: readonly number[], y: readonly number[], most = 400): { x: number[]; y: number[] } {
  if (x.length <= most) return { x: [...x], y: [...y] };
  const size = Math.ceil((2 * x.length) / most);
  const out = { x: [] as number[], y: [] as number[] };
  for (let i = 0; i < x.length; i += size) {
    const end = Math.min(x.length, i + size);
    let lo = i;
    let hi = i;
    for (let j = i; j < end; j++) {
      if (y[j]! < y[lo]!) lo = j;
      if (y[j]! > y[hi]!) hi = j;
    }
    for (const j of lo < hi ? [lo, hi] : [hi, lo]) {
      out.x.push(x[j]!);
      out.y.push(y[j]!);
    }
  }
  return out;
}

function panel(p: Panel, left: number, top: number): string {
  const xr = p.xRange ?? extent(p.series.flatMap((s) => [...s.x]));
  const yr = p.yRange ?? extent(p.series.flatMap((s) => [...s.y]));
  const x0 = left + PAD.left;
  const x1 = left + W - PAD.right;
  const y0 = top + H - PAD.bottom;
  const y1 = top + PAD.top;
  const X = (v: number) => x0 + ((v - xr[0]) / (xr[1] - xr[0])) * (x1 - x0);
  const Y = (v: number) => y0 + ((v - yr[0]) / (yr[1] - yr[0])) * (y1 - y0);
  const id = `c${left}-${top}`;
  const out: string[] = [];
  out.push(
    `<clipPath id="${id}"><rect x="${x0}" y="${y1}" width="${x1 - x0}" height="${y0 - y1}"/></clipPath>`,
  );
  out.push(`<text x="${x0}" y="${top + 17}" font-weight="600">${xml(p.title)}</text>`);
  for (const v of ticks(xr[0], xr[1])) {
    out.push(`<line x1="${round(X(v))}" y1="${y0}" x2="${round(X(v))}" y2="${y1}" stroke="#e3e6ec"/>`);
    out.push(`<text x="${round(X(v))}" y="${y0 + 14}" text-anchor="middle">${v}</text>`);
  }
  for (const v of ticks(yr[0], yr[1])) {
    out.push(`<line x1="${x0}" y1="${round(Y(v))}" x2="${x1}" y2="${round(Y(v))}" stroke="#e3e6ec"/>`);
    out.push(`<text x="${x0 - 5}" y="${round(Y(v) + 3.5)}" text-anchor="end">${v}</text>`);
  }
  out.push(`<g clip-path="url(#${id})">`);
  for (const w of p.whiskers ?? [])
    out.push(
      `<line x1="${round(X(w.x))}" y1="${round(Y(w.y0))}" x2="${round(X(w.x))}" y2="${round(Y(w.y1))}" stroke="${w.colour}" stroke-opacity="0.45"/>`,
    );
  for (const s of p.series) {
    if (s.dots === true) {
      for (let i = 0; i < s.x.length; i++)
        out.push(`<circle cx="${round(X(s.x[i]!))}" cy="${round(Y(s.y[i]!))}" r="1.6" fill="${s.colour}"/>`);
      continue;
    }
    const points = s.x.map((v, i) => `${round(X(v))},${round(Y(s.y[i]!))}`).join(' ');
    const dash = s.dash === undefined ? '' : ` stroke-dasharray="${s.dash}"`;
    out.push(
      `<polyline points="${points}" fill="none" stroke="${s.colour}" stroke-width="${s.width ?? 1.5}"${dash}/>`,
    );
  }
  for (const r of p.rules ?? []) {
    const dash = r.dash === undefined ? '' : ` stroke-dasharray="${r.dash}"`;
    out.push(
      r.axis === 'y'
        ? `<line x1="${x0}" y1="${round(Y(r.at))}" x2="${x1}" y2="${round(Y(r.at))}" stroke="${r.colour}"${dash}/>`
        : `<line x1="${round(X(r.at))}" y1="${y0}" x2="${round(X(r.at))}" y2="${y1}" stroke="${r.colour}"${dash}/>`,
    );
    if (r.label !== undefined)
      out.push(
        r.axis === 'y'
          ? `<text x="${x0 + 4}" y="${round(Y(r.at) - 3)}" fill="${r.colour}">${xml(r.label)}</text>`
          : `<text x="${round(X(r.at) - 3)}" y="${y0 - 5}" text-anchor="end" fill="${r.colour}">${xml(r.label)}</text>`,
      );
  }
  out.push('</g>');
  out.push(`<rect x="${x0}" y="${y1}" width="${x1 - x0}" height="${y0 - y1}" fill="none" stroke="${INK}"/>`);
  out.push(`<text x="${(x0 + x1) / 2}" y="${y0 + 30}" text-anchor="middle">${xml(p.xLabel)}</text>`);
  out.push(
    `<text transform="translate(${left + 13} ${(y0 + y1) / 2}) rotate(-90)" text-anchor="middle">${xml(p.yLabel)}</text>`,
  );
  const named = p.series.filter((s) => s.label !== undefined).length;
  if (named > 0)
    out.push(
      `<rect x="${x1 - 142}" y="${y1 + 2}" width="140" height="${14 * named + 3}" fill="#ffffff" fill-opacity="0.85"/>`,
    );
  let line = 0;
  for (const s of p.series) {
    if (s.label === undefined) continue;
    const y = y1 + 13 + 14 * line++;
    const dash = s.dash === undefined ? '' : ` stroke-dasharray="${s.dash}"`;
    out.push(
      `<line x1="${x1 - 138}" y1="${y - 4}" x2="${x1 - 116}" y2="${y - 4}" stroke="${s.colour}" stroke-width="2"${dash}/>`,
    );
    out.push(`<text x="${x1 - 111}" y="${y}">${xml(s.label)}</text>`);
  }
  return out.join('\n');
}

/** Panels in a grid of `columns`, as one SVG document. */
export function figure(panels: readonly Panel[], columns = 2): string {
  const rows = Math.ceil(panels.length / columns);
  const w = W * Math.min(columns, panels.length);
  const h = H * rows;
  const body = panels.map((p, i) => panel(p, W * (i % columns), H * Math.floor(i / columns))).join('\n');
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${w} ${h}" width="${w}" height="${h}" font-family="system-ui, sans-serif" font-size="11" fill="${INK}">\n<rect width="${w}" height="${h}" fill="#ffffff"/>\n${body}\n</svg>\n`;
}

/** Steps of the share of values at or under x: the empirical distribution. */
export function distribution(values: readonly number[]): { x: number[]; y: number[] } {
  const sorted = [...values].sort((a, b) => a - b);
  const x: number[] = [];
  const y: number[] = [];
  sorted.forEach((v, i) => {
    x.push(v, v);
    y.push(i / sorted.length, (i + 1) / sorted.length);
  });
  return thin(x, y, 600);
}
