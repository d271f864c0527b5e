/**
 * What the fill and every top-up have left behind: rubber that still creeps, resin that still runs, heat of
 * compression that still fades. Each is a sum of exponentials that began when air was let in, as large as the share
 * of pressure that was let in. The sums are carried along, so that a day of top-ups takes no more room than one fill.
 */
export interface Past {
  atS: number;
  /** Signed amounts (air let out takes back) and their sizes, one for each of FADES_S. */
  amount: number[];
  size: number[];
}

/** Time constants of what fades, s. */
export const FADES_S = [60, 200, 600, 1800] as const;

export function createPast(tS: number): Past {
  return { atS: tS, amount: FADES_S.map(() => 0), size: FADES_S.map(() => 0) };
}

/** Air was let in or out at tS: by that share of the absolute pressure over the air's (the whole fill is 1). */
export function pastAdd(p: Past, tS: number, share: number): void {
  const dt = Math.max(0, tS - p.atS);
  FADES_S.forEach((tau, k) => {
    const keep = Math.exp(-dt / tau);
    p.amount[k] = p.amount[k]! * keep + share;
    // Never more than a fill: what has crept already does not creep again.
    p.size[k] = Math.min(1.2, p.size[k]! * keep + Math.abs(share));
  });
  p.atS = tS;
}

/** What is left at tS of the k-th fade. */
export const fadeAt = (p: Past, k: number, tS: number): number =>
  Math.exp(-Math.max(0, tS - p.atS) / FADES_S[k]!);
