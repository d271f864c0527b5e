/** How fast a line fills: times at shares of the level that it comes to. The volume behind a valve shows in them. */
export interface Rise {
  /** Points of the rise, s and bar, ascending in both. */
  t: number[];
  p: number[];
}

/** Points are kept at least this far apart, bar. */
const STEP_BAR = 0.01;

export const createRise = (): Rise => ({ t: [], p: [] });

export function riseAdd(r: Rise, tS: number, bar: number): void {
  const last = r.p[r.p.length - 1];
  if (last !== undefined && bar < last + STEP_BAR) return;
  r.t.push(tS);
  r.p.push(bar);
}

/** When the rise passed a level, s, between its points; null: it did not. */
function passedS(r: Rise, bar: number): number | null {
  const i = r.p.findIndex((p) => p >= bar);
  if (i < 0) return null;
  if (i === 0) return r.t[0]!;
  const share = (bar - r.p[i - 1]!) / (r.p[i]! - r.p[i - 1]!);
  return r.t[i - 1]! + share * (r.t[i]! - r.t[i - 1]!);
}

/** Seconds from one level to another; null: it did not pass both. */
export function riseTimeS(r: Rise, fromBar: number, toBar: number): number | null {
  const a = passedS(r, fromBar);
  const b = passedS(r, toBar);
  return a === null || b === null ? null : b - a;
}
