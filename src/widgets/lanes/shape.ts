/**
 * What a drawing is made of: shapes in CSS px with tones in place of colours. Scenes make them, painters put them on a canvas
 * (canvas.ts) or into an SVG (Shapes.tsx): the same picture either way.
 */

/** Names of the theme's colours as tokens.css has them, without their dashes. */
export const TONES = [
  'ground',
  'plate',
  'well',
  'ink',
  'ink2',
  'ink3',
  'edge',
  'band',
  'band2',
  'rung',
  'grid',
  'hatch',
  'urgent',
  'urgent-thin',
  'on-urgent',
  'high',
  'on-high',
  'low',
  'on-low',
] as const;
export type Tone = (typeof TONES)[number];

/**
 * Ground that says something by its pattern, never mixed: hatch is beyond rated (pale across the trace), dots are not
 * known. Stripes are practice and belong to the page.
 */
export type Texture = 'hatch' | 'hatch-pale' | 'dots';

export interface Pen {
  readonly tone: Tone;
  /** Width, px. */
  readonly wide: number;
  /** Px drawn, left out, and again; none: in one piece. */
  readonly dash?: readonly number[];
}

export type Point = readonly [x: number, y: number];

export interface RectShape {
  readonly k: 'rect';
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
  readonly fill?: Tone | undefined;
  readonly texture?: Texture;
  readonly pen?: Pen | undefined;
  /** Radius of the corners, px. */
  readonly round?: number;
  /** 0…1 of the fill; 1 where it is left out. */
  readonly alpha?: number;
}

export interface PathShape {
  readonly k: 'path';
  readonly points: readonly Point[];
  readonly closed?: boolean;
  readonly fill?: Tone;
  readonly pen?: Pen;
}

export interface DiscShape {
  readonly k: 'disc';
  readonly x: number;
  readonly y: number;
  readonly r: number;
  readonly fill?: Tone;
  readonly pen?: Pen;
}

export interface TextShape {
  readonly k: 'text';
  readonly x: number;
  /** Base line. */
  readonly y: number;
  readonly text: string;
  /** Font size, px. */
  readonly size: number;
  readonly bold?: boolean;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly tone: Tone;
  /** A rim in this tone keeps the letters readable over lines. */
  readonly halo?: Tone;
  readonly alpha?: number;
}

export type Shape = RectShape | PathShape | DiscShape | TextShape;

/** Width of a text, px. */
export type Measure = (text: string, size: number, bold: boolean) => number;

/** A rectangle, px. */
export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** Height of a digit or capital, share of the font size (B612). */
export const CAP = 0.76;

export const line = (x1: number, y1: number, x2: number, y2: number, pen: Pen): PathShape => ({
  k: 'path',
  points: [
    [x1, y1],
    [x2, y2],
  ],
  pen,
});

/** An upright filled rectangle; none where it would have no height or width. */
export function block(x: number, y: number, w: number, h: number, fill: Tone): RectShape[] {
  return w > 0 && h > 0 ? [{ k: 'rect', x, y, w, h, fill }] : [];
}

/** A ground that says something; none where it would have no height or width. */
export function ground(x: number, y: number, w: number, h: number, texture: Texture, alpha = 1): RectShape[] {
  return w > 0 && h > 0 ? [{ k: 'rect', x, y, w, h, texture, alpha }] : [];
}
