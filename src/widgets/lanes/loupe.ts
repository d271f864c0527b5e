import type { PressureUnit } from './numerals.ts';
import { CAP, line, type Measure, type Point, type Rect, type Shape } from './shape.ts';

/** The foot of the scale, enlarged over the trace: whether a line that was let down stays at zero. */

/** What the loupe shows, bar and s: 0 to this over the last seconds. */
export const LOUPE_BAR = 0.1;
export const LOUPE_S = 30;

export interface Loupe {
  /** Readings of the last 30 s, ascending; s before now is negative. */
  readonly points: readonly { readonly s: number; readonly bar: number }[];
  /** Readings up to this count as zero: the uncertainty and what a test allows, bar; null: no line. */
  readonly allowedBar: number | null;
  readonly bar: number | null;
}

export interface LoupeWords {
  readonly title: string;
  /** Beside the line of what counts as zero. */
  allowed(value: string): string;
}

/** Where the loupe stands in the pressure lane; null where there is no room for it. */
export function loupeBox(lane: Rect): Rect | null {
  const box = {
    x: lane.x + lane.w * 0.22,
    y: lane.y + lane.h * 0.12,
    w: lane.w * 0.74,
    h: lane.h * 0.6,
  };
  return box.w < 90 || box.h < 60 ? null : box;
}

export function loupeScene(
  box: Rect,
  loupe: Loupe,
  unit: PressureUnit,
  words: LoupeWords,
  small: boolean,
  measure: Measure,
): Shape[] {
  const size = small ? 11 : 14;
  const pad = small ? 7 : 12;
  const value = loupe.bar === null ? '' : unit.text(loupe.bar);
  const valueSize = small ? 13 : 18;
  const allowed = loupe.allowedBar === null ? '' : words.allowed(unit.text(loupe.allowedBar));
  const side = Math.max(measure(value, valueSize, true), measure(unit.text(LOUPE_BAR), size, false)) + pad;
  const head = size * (loupe.allowedBar === null ? 1.6 : 3);
  const plot: Rect = {
    x: box.x + pad,
    y: box.y + pad + head,
    w: box.w - 2 * pad - side,
    h: box.h - 2 * pad - head,
  };
  const y = (bar: number) => plot.y + plot.h * (1 - Math.min(1, Math.max(0, bar / LOUPE_BAR)));
  const x = (s: number) => plot.x + plot.w * (1 + s / LOUPE_S);
  const title = words.title;
  const room = box.w - 2 * pad;
  const titleWide = measure(title, size, true);
  const out: Shape[] = [
    { k: 'rect', ...box, fill: 'plate', pen: { tone: 'ink', wide: 2 }, round: 6 },
    {
      k: 'text',
      x: box.x + pad,
      y: box.y + pad + size * CAP,
      text: title,
      size: titleWide > room ? (size * room) / titleWide : size,
      bold: true,
      tone: 'ink',
    },
    line(plot.x, y(0), plot.x + plot.w, y(0), { tone: 'ink', wide: 1 }),
    line(plot.x, y(LOUPE_BAR), plot.x + plot.w, y(LOUPE_BAR), { tone: 'grid', wide: 1 }),
  ];
  const right = box.x + box.w - pad;
  const text = (at: number, words: string, px: number, bold: boolean) =>
    out.push({
      k: 'text',
      x: right,
      y: at + px * CAP * 0.5,
      text: words,
      size: px,
      bold,
      anchor: 'end',
      tone: 'ink',
    });
  if (loupe.allowedBar !== null) {
    const at = y(loupe.allowedBar);
    out.push(line(plot.x, at, plot.x + plot.w, at, { tone: 'ink', wide: 1.5, dash: [6, 4] }));
    // Its meaning stands over the plot, where no line runs through it.
    const base = box.y + pad + size * (CAP + 1.35);
    const sample = small ? 16 : 24;
    out.push(
      line(plot.x, base - size * CAP * 0.5, plot.x + sample, base - size * CAP * 0.5, {
        tone: 'ink',
        wide: 1.5,
        dash: [6, 4],
      }),
    );
    const space = room - sample - 6;
    const wide = measure(allowed, size, false);
    out.push({
      k: 'text',
      x: plot.x + sample + 6,
      y: base,
      text: allowed,
      size: wide > space ? (size * space) / wide : size,
      tone: 'ink',
    });
  }
  const points: Point[] = loupe.points.filter((p) => p.s >= -LOUPE_S).map((p) => [x(p.s), y(p.bar)]);
  if (points.length > 1) out.push({ k: 'path', points, pen: { tone: 'ink', wide: small ? 3 : 4 } });
  if (loupe.bar !== null) {
    const at = Math.min(plot.y + plot.h - valueSize * 0.3, Math.max(plot.y, y(loupe.bar)));
    text(at, loupe.bar > LOUPE_BAR ? `>${unit.text(LOUPE_BAR)}` : value, valueSize, true);
  }
  return out;
}
