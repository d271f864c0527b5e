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
