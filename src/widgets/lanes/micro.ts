import type { MarkedLimits } from './marks.ts';
import { scaleEnd } from './scale.ts';
import { block, ground, type Rect, type Shape, type Tone } from './shape.ts';

/** The ladder in small: a peak or the pressure now beside rated and the hold band. */

/** What may be believed of a value: dots stand for what is not known. */
export type MicroState = 'known' | 'lost' | 'none';

export interface MicroLadder {
  /** Peak of the run, or the pressure now, bar. */
  readonly bar: number | null;
  readonly state: MicroState;
  readonly limits: Pick<MarkedLimits, 'ratedBar' | 'ceilingBar' | 'floorBar'> | null;
  /** Where the line is going to settle, bar; drawn hollow. */
  readonly settleBar?: number | null;
}

/** Tones of a small ladder: on paper, or on the ground of an alarm. */
export interface MicroTones {
  readonly well: Tone;
  readonly ink: Tone;
  readonly band: Tone;
  /** What stands over rated. */
  readonly over: Tone;
}
export const ON_PAPER: MicroTones = { well: 'well', ink: 'ink', band: 'band2', over: 'urgent' };
/** One colour is left on an alarm's ground: what is over rated stands wide. */
export const ON_ALARM: MicroTones = { well: 'urgent', ink: 'on-urgent', band: 'urgent', over: 'on-urgent' };

/** Turns a drawing made along the length of the column into one that stands or lies in `box`. */
function frame(box: Rect, lying: boolean) {
  const [length, across] = lying ? [box.w, box.h] : [box.h, box.w];
  return {
    length,
    across,
    /** A rectangle from `a` to `b` along the column, `c` to `d` across it. */
    rect: (a: number, b: number, c: number, d: number): Rect =>
      lying
        ? { x: box.x + a, y: box.y + c, w: b - a, h: d - c }
        : { x: box.x + c, y: box.y + box.h - b, w: d - c, h: b - a },
  };
}

/**
 * @param box where the drawing stands, px
 * @param lying from left to right, for the strip; else upright
 */
export function microScene(
  ladder: MicroLadder,
  box: Rect,
  lying = false,
  tones: MicroTones = ON_PAPER,
): Shape[] {
  const { length, across, rect } = frame(box, lying);
  const { limits, bar } = ladder;
  const rated = limits?.ratedBar ?? null;
  const end = scaleEnd(rated, bar ?? 0);
  // The frame's own line lies within the box.
  const at = (value: number) => 1 + (length - 2) * Math.min(1, Math.max(0, value / end));
  const stop = Math.max(3, Math.round(across * 0.16));
  const inset = Math.max(2, Math.round(across * 0.2));
  const [c0, c1] = [inset, across - inset];
  const out: Shape[] = [];
  const fill = (a: number, b: number, c: number, d: number, tone: Tone) => {
    const r = rect(a, b, c, d);
    out.push(...block(r.x, r.y, r.w, r.h, tone));
  };
  fill(0, length, c0, c1, tones.well);
  if (limits !== null && limits.floorBar !== null)
    fill(at(limits.floorBar), at(limits.ceilingBar), c0, c1, tones.band);
  const body = Math.max(1.5, (c1 - c0) * 0.2);
  if (ladder.state === 'lost') {
    const r = rect(0, length, c0, c1);
    out.push(...ground(r.x, r.y, r.w, r.h, 'dots'));
  } else if (ladder.state === 'known' && bar !== null) {
    const settle = ladder.settleBar ?? null;
    if (settle !== null && settle > bar) {
      const r = rect(at(bar), at(settle), c0 + body, c1 - body);
      out.push({ k: 'rect', ...r, pen: { tone: tones.ink, wide: 1.5, dash: [3, 2] } });
    }
    fill(1, at(rated === null ? bar : Math.min(bar, rated)), c0 + body, c1 - body, tones.ink);
  }
  const f = rect(0.75, length - 0.75, c0 + 0.75, c1 - 0.75);
  out.push({ k: 'rect', ...f, pen: { tone: tones.ink, wide: 1.5 } });
  if (rated !== null) {
    fill(at(rated), at(rated) + stop, 0, across, tones.ink);
    // Through the stop, at full width.
    if (ladder.state === 'known' && bar !== null && bar > rated)
      fill(at(rated), Math.max(at(bar), at(rated) + stop + 2), c0 + 1, c1 - 1, tones.over);
  }
  return out;
}
