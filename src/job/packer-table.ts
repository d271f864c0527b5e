import type { PackerDocument } from './packer-document.ts';

/** Look-up in the packer's tables by diameter: rows ascend. */

interface Row {
  readonly diameterMm: number;
}

/** The rows on either side of a diameter; the same row twice on a row, null beyond an end. */
export function around<T extends Row>(
  rows: readonly T[],
  diameterMm: number,
): { readonly below: T | null; readonly above: T | null } {
  let below: T | null = null;
  let above: T | null = null;
  for (const row of rows) {
    if (row.diameterMm <= diameterMm) below = row;
    if (row.diameterMm >= diameterMm) {
      above ??= row;
    }
  }
  return { below, above };
}

/** Straight between two rows; beyond an end its last row. null for an empty table. */
export function between<T extends Row>(
  rows: readonly T[],
  diameterMm: number,
  value: (row: T) => number,
): number | null {
  const { below, above } = around(rows, diameterMm);
  if (below === null || above === null) {
    const end = below ?? above;
    return end === null ? null : value(end);
  }
  const width = above.diameterMm - below.diameterMm;
  if (width === 0) return value(below);
  return value(below) + ((value(above) - value(below)) * (diameterMm - below.diameterMm)) / width;
}

type Rated = Pick<PackerDocument, 'ratings'>;

/** Rated pressure at a diameter: on a row its value, between two rows the lower; beyond the largest row none. */
export function ratedAt({ ratings }: Rated, diameterMm: number): number | null {
  const { below, above } = around(ratings, diameterMm);
  if (above === null) return null;
  return below === null ? above.ratedBar : Math.min(below.ratedBar, above.ratedBar);
}

/** What the packer is rated at, bar, by what is known of the pipe: without a diameter, or past its table, its lowest row. */
export function ratedFor(packer: Rated, diameterMm: number | null): number | null {
  const lowest = packer.ratings.reduce((m, r) => Math.min(m, r.ratedBar), Number.POSITIVE_INFINITY);
  if (!Number.isFinite(lowest)) return null;
  return (diameterMm === null ? null : ratedAt(packer, diameterMm)) ?? lowest;
}
