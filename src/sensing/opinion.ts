/** The zeros of a sensor's earlier jobs as a second opinion on it. Pure figures; the words are elsewhere. */

export interface EarlierZero {
  /** Days on any common count. */
  readonly day: number;
  readonly offsetBar: number;
}

export interface ZeroDrift {
  readonly jobs: number;
  /** bar a day by least squares; null with fewer than three jobs or all on one day. */
  readonly perDay: number | null;
  /** Latest minus earliest, bar. */
  readonly since: number;
  /** Days until the limit is reached at this pace; null where it is not heading there. */
  readonly daysToLimit: number | null;
  /** Last step stands out: more than three times the usual scatter of the steps before. */
  readonly jumped: boolean;
}

/** Drift of a sensor's zero over its jobs, in their order. `limitBar` is how far a zero may be taken. */
export function zeroDrift(zeros: readonly EarlierZero[], limitBar: number): ZeroDrift | null {
  const first = zeros[0];
  const last = zeros[zeros.length - 1];
  if (first === undefined || last === undefined) return null;
  const n = zeros.length;
  const md = zeros.reduce((s, z) => s + z.day, 0) / n;
  const mo = zeros.reduce((s, z) => s + z.offsetBar, 0) / n;
  let sdd = 0;
  let sdo = 0;
  for (const z of zeros) {
    sdd += (z.day - md) ** 2;
    sdo += (z.day - md) * (z.offsetBar - mo);
  }
  const perDay = n >= 3 && sdd > 0 ? sdo / sdd : null;
  const room =
    perDay === null || perDay === 0 ? null : (Math.sign(perDay) * limitBar - last.offsetBar) / perDay;
  const steps = zeros.slice(1).map((z, i) => z.offsetBar - (zeros[i] as EarlierZero).offsetBar);
  const lastStep = steps.pop();
  const usual = Math.sqrt(steps.reduce((s, d) => s + d * d, 0) / Math.max(1, steps.length));
  return {
    jobs: n,
    perDay,
    since: last.offsetBar - first.offsetBar,
    daysToLimit: room === null ? null : Math.max(0, room),
    jumped: steps.length >= 3 && lastStep !== undefined && Math.abs(lastStep) > Math.max(0.002, 3 * usual),
  };
}
