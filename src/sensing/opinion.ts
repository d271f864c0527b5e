import { studentOf } from '../estimate/covariance.ts';
import { Z_95 } from '../estimate/normal.ts';

/** What earlier jobs say of an instrument or a packer: how a figure of it moves. Pure figures. */

export interface Earlier {
  /** Days on any common count. */
  readonly day: number;
  /** Any one unit: bar, K, mbar/min. */
  readonly off: number;
}

export interface Drift {
  readonly jobs: number;
  readonly now: number;
  /** Latest minus earliest. */
  readonly since: number;
  /** A day, by least squares; null with fewer than three jobs or all on one day. */
  readonly perDay: number | null;
  /** The 95 % interval of the pace leaves out standing still; told from four jobs on. */
  readonly moving: boolean;
  /** Days until the limit is reached at this pace; null where it is not moving there. */
  readonly daysToLimit: number | null;
  /** Last step stands out: more than three times the usual scatter of the steps before. */
  readonly jumped: boolean;
}

const LEAST_JOBS = 4;
/** A value is kept to a thousandth, which scatters it by this much at least. */
const ROUNDING = 0.001 / Math.sqrt(12);

/**
 * Drift over the jobs, oldest first.
 * @param limit how far the value may go either way; infinite where nothing says so
 * @param least a step that is never called a jump
 */
export function driftOver(values: readonly Earlier[], limit: number, least: number): Drift | null {
  const first = values[0];
  const last = values[values.length - 1];
  if (first === undefined || last === undefined) return null;
  const n = values.length;
  const md = values.reduce((s, v) => s + v.day, 0) / n;
  const mo = values.reduce((s, v) => s + v.off, 0) / n;
  let sdd = 0;
  let sdo = 0;
  for (const v of values) {
    sdd += (v.day - md) ** 2;
    sdo += (v.day - md) * (v.off - mo);
  }
  const perDay = n >= 3 && sdd > 0 ? sdo / sdd : null;
  let moving = false;
  if (perDay !== null && n >= LEAST_JOBS) {
    const rest = values.reduce((s, v) => s + (v.off - mo - perDay * (v.day - md)) ** 2, 0);
    const sd = Math.sqrt(Math.max(rest / (n - 2), ROUNDING ** 2) / sdd);
    moving = Math.abs(perDay) > studentOf(Z_95, n - 2) * sd;
  }
  const room =
    perDay === null || !moving || !Number.isFinite(limit)
      ? null
      : (Math.sign(perDay) * limit - last.off) / perDay;
  const steps = values.slice(1).map((v, i) => v.off - (values[i] as Earlier).off);
  const lastStep = steps.pop();
  const usual = Math.sqrt(steps.reduce((s, d) => s + d * d, 0) / Math.max(1, steps.length));
  return {
    jobs: n,
    now: last.off,
    since: last.off - first.off,
    perDay,
    moving,
    daysToLimit: room === null ? null : Math.max(0, room),
    jumped: steps.length >= 3 && lastStep !== undefined && Math.abs(lastStep) > Math.max(least, 3 * usual),
  };
}
