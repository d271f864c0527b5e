import { block, CAP, line, type Measure, type Rect, type Shape, type Tone } from './shape.ts';

/** The cure line: how far the data sheet's cure time has been counted. Its geometry is the same in every stage. */

export interface CureSize {
  readonly w: number;
  readonly h: number;
  readonly small: boolean;
}

export interface CureScene {
  /** Cautious and likely upper count, 1 is the end; null: nothing is counted. */
  readonly counts: { readonly low: number; readonly high: number } | null;
  /** Name of the line, and what stands under it. */
  readonly name: string;
  readonly under: string;
  /** At the right, large: a clock time, or why there is none. */
  readonly end: string;
  /** Under it: what was counted. */
  readonly sentence: string;
  /** What the batch's cup says, under the bar; where there is no room for both, one that asks for something stands before `under`. */
  readonly cup: { readonly text: string; readonly asks: boolean } | null;
}

/** The line reaches so far, times the end: what is counted past the end is seen. */
const REACH = 1.12;
const RUNGS = 11;

/** Where the bar stands, px: names at its left, time at its right; room over it for the flag, under it for a cup. */
export function cureBar({ w, h, small }: CureSize): Rect {
  const pad = small ? 8 : 18;
  const left = small ? 0 : Math.min(170, w * 0.16);
  const right = small ? 96 : Math.min(280, w * 0.27);
  const high = small ? Math.max(11, h * 0.32) : Math.max(18, h * 0.34);
  const y = small ? Math.max(6, h * 0.19) : (h - high) / 2;
  return { x: pad + left, y, w: Math.max(40, w - 2 * pad - left - right), h: high };
}

/** From a count to px. */
export const cureX =
  (bar: Rect): ((count: number) => number) =>
  (count) =>
    bar.x + (bar.w * Math.min(REACH, Math.max(0, count))) / REACH;

function flag(x: number, bar: Rect, small: boolean): Shape[] {
  const over = small ? 5 : 9;
  const [wide, high] = small ? [11, 8] : [18, 12];
  const top = bar.y - over;
  return [
    line(x, top, x, bar.y + bar.h + (small ? 3 : 7), { tone: 'ink', wide: small ? 3 : 5 }),
    {
      k: 'path',
      closed: true,
      fill: 'ink',
      points: [
        [x, top - 1],
        [x + wide, top - 1],
        [x + wide * 0.68, top - 1 + high / 2],
        [x + wide, top - 1 + high],
        [x, top - 1 + high],
      ],
    },
  ];
}

export function cureScene(size: CureSize, scene: CureScene, measure: Measure): Shape[] {
  const { w, h, small } = size;
  const bar = cureBar(size);
  const x = cureX(bar);
  const pad = small ? 8 : 18;
  const { counts } = scene;
  const out: Shape[] = [...block(bar.x, bar.y, bar.w, bar.h, 'well')];
  if (counts !== null) {
    const inset = small ? 3 : 5;
    out.push(...block(x(counts.low), bar.y + 1, x(counts.high) - x(counts.low), bar.h - 2, 'band2'));
    // The upper count has an edge of its own: grey on white is not seen by everybody.
    if (counts.high > counts.low)
      out.push(line(x(counts.high), bar.y, x(counts.high), bar.y + bar.h, { tone: 'edge', wide: 2 }));
    out.push(...block(bar.x, bar.y + inset, x(counts.low) - bar.x, bar.h - 2 * inset, 'ink'));
  }
  for (let i = 1; i <= RUNGS; i++) {
    const at = x(i / 10);
    const isCounted = counts !== null && at < x(counts.low);
    out.push(line(at, bar.y, at, bar.y + bar.h, { tone: isCounted ? 'plate' : 'rung', wide: 1 }));
  }
  const rim: Tone = counts === null ? 'edge' : 'ink';
  out.push({ k: 'rect', ...bar, pen: { tone: rim, wide: 2 } }, ...flag(x(1), bar, small));

  const text = (
    at: number,
    base: number,
    words: string,
    px: number,
    room: number,
    more: { bold?: boolean; anchor?: 'end'; tone?: Tone } = {},
  ) => {
    const wide = measure(words, px, more.bold === true);
    const { bold = false, anchor, tone = 'ink' } = more;
    out.push({
      k: 'text',
      x: at,
      y: base,
      text: words,
      size: wide > room ? (px * room) / wide : px,
      bold,
      ...(anchor === undefined ? {} : { anchor }),
      tone,
    });
  };
  const right = w - pad;
  const side = right - bar.x - bar.w - (small ? 8 : 18);
  if (small) {
    const base = Math.min(h - 4, bar.y + bar.h + 4 + 11);
    const middle = bar.y + bar.h / 2;
    text(bar.x, base, scene.sentence, 11, bar.w * 0.62, { tone: 'ink2' });
    const asked = scene.cup?.asks ? scene.cup.text : null;
    text(bar.x + bar.w, base, asked ?? scene.under, 11, bar.w * 0.34, {
      tone: asked === null ? 'ink2' : 'ink',
      bold: asked !== null,
      anchor: 'end',
    });
    text(right, middle + 16 * CAP * 0.5 + 2, scene.end, 17, side, { bold: true, anchor: 'end' });
    return out;
  }
  if (scene.cup !== null) {
    const { asks, text: words } = scene.cup;
    text(bar.x, bar.y + bar.h + 15, words, 14, bar.w * 0.8, { bold: asks, tone: asks ? 'ink' : 'ink2' });
  }
  const left = bar.x - pad - 16;
  text(pad, scene.under === '' ? h / 2 + 6 : h / 2 - 5, scene.name, 17, left, { bold: true });
  text(pad, h / 2 + 16, scene.under, 15, left, { tone: 'ink2' });
  text(right, h / 2 + 1, scene.end, 27, side, { bold: true, anchor: 'end' });
  text(right, h / 2 + 22, scene.sentence, 15, side, { tone: 'ink2', anchor: 'end' });
  return out;
}
