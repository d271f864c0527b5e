/** When a line counts as at zero. */

/** Up to this or its U, whichever is larger, bar. */
export const ZERO_BAR = 0.02;

/** The level under which a reading of this U counts as zero, bar. */
export const zeroBelow = (uBar: number): number => Math.max(ZERO_BAR, uBar);

export const isAtZero = (bar: number, uBar: number): boolean => Math.abs(bar) <= zeroBelow(uBar);
