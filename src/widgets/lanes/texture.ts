import type { Texture, Tone } from './shape.ts';

/** The patterns of grounds that say something: one square tile each, which fits to itself on all four sides. */
export interface Tile {
  /** Side, px. */
  readonly side: number;
  /** Ground under the marks; null: what lies below shows through. */
  readonly ground: Tone | null;
  readonly tone: Tone;
  readonly alpha: number;
  /** Diagonals are this wide, px; dots have this radius, px. */
  readonly size: number;
  readonly kind: 'diagonal' | 'dots';
}

export const TILES: Record<Texture, Tile> = {
  hatch: { side: 12, ground: 'well', tone: 'hatch', alpha: 1, size: 3.5, kind: 'diagonal' },
  'hatch-pale': { side: 12, ground: null, tone: 'hatch', alpha: 0.45, size: 1.5, kind: 'diagonal' },
  dots: { side: 11, ground: 'well', tone: 'ink', alpha: 1, size: 2.3, kind: 'dots' },
};

/** Diagonals of a tile, from lower left to upper right: the middle one and the corners' halves. */
export const diagonals = (side: number): readonly (readonly [number, number, number, number])[] => [
  [-side / 2, side / 2, side / 2, -side / 2],
  [-1, side + 1, side + 1, -1],
  [side / 2, side * 1.5, side * 1.5, side / 2],
];

/** Middles of a tile's dots. */
export const dots = (side: number): readonly (readonly [number, number])[] => [
  [side * 0.27, side * 0.27],
  [side * 0.77, side * 0.77],
];
