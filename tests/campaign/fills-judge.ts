/** Runs the guard and the two thresholds over a trace and compares what they said with the truth. */
import type { Limits, Tap } from '../../src/job/setup.ts';
import { PLATE_LIMITS } from '../../src/job/testing/givens.ts';
import { readingOf } from '../../src/sensing/testing/readings.ts';
import type { AlarmValues } from '../../src/watch/events.ts';
import { createGuard, guardReading, guardVerdict } from '../../src/watch/guard/guard.ts';
import { createRecent, recentAdd, recentStats } from '../../src/watch/signal/recent.ts';
import { movedFromBar } from '../../src/watch/supply/moved-from.ts';
import type { ProvedSupply } from '../../src/watch/supply/types.ts';
import type { Scenario } from './fills-scenario.ts';
import type { Trace } from './fills-world.ts';

/** A hand needs this long to shut the valve (the guard's default too), s: the band is left this long after working. */
export const CLOSE_S = 0.6;

export type What = 'none' | 'ceiling' | 'settle' | 'left-band' | 'hand-time' | 'opened';

export interface Range {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface Verdict {
  /** The regulator is told to have moved, s; NaN: it is not, or the supply was not proved. */
  readonly movedS: number;
  /** First urgent alarm, s; NaN if none; and what it was. */
  readonly atS: number;
  readonly what: What;
  readonly values: AlarmValues | null;
  /** First crossing of the ceiling and of 90 % of rated by the median of three, s. */
  readonly ceilingS: number;
  readonly ninetyS: number;
  /** True packer pressure passes working, the ceiling and rated, s. */
  readonly workS: number;
  readonly trueCeilingS: number;
  readonly ratedS: number;
  /** The band is left for good: a hand that began to shut the valve at working would have ended by now. */
  readonly leaveS: number;
  readonly peakBar: number;
  readonly knee: Range | null;
  /** First cue of 5 s or less: when, and what it said. */
  readonly cueAtS: number;
  readonly cueInS: number;
  /** First advice to throttle, s, and by how much a hand would be late, bar; NaN if none. */
  readonly fastAtS: number;
  readonly fastLateBar: number;
}

export function limitsOf(s: Scenario, cue = true): Limits {
  return {
    ...PLATE_LIMITS,
    ratedBar: s.ratedBar,
    uBar: s.uBar,
    ceilingBar: s.ceilingBar,
    workingBar: cue ? s.workingBar : s.ceilingBar,
    seatBar: s.seatBar,
    cue,
  };
}

export function judge(
  trace: Trace,
  cue = true,
  tap: Tap = trace.scenario.tap,
  proved: ProvedSupply | null = null,
): Verdict {
  const s = trace.scenario;
  const guard = createGuard();
  const ctx = {
    limits: limitsOf(s, cue),
    tap,
    line: 'unknown',
    reaction: { handS: 3, closeS: CLOSE_S },
    stage: 'inflate',
    ventOpen: false,
  } as const;
  const stepBar = s.sensor.spanBar / (2 ** s.sensor.bits - 1);
  const recent = createRecent();
  const from = proved === null ? Number.POSITIVE_INFINITY : movedFromBar(proved);
  let movedS = Number.NaN;
  let atS = Number.NaN;
  let what: What = 'none';
  let values: AlarmValues | null = null;
  let ceilingS = Number.NaN;
  let ninetyS = Number.NaN;
  let ratedS = Number.NaN;
  let workS = Number.NaN;
  let trueCeilingS = Number.NaN;
  let knee: Verdict['knee'] = null;
  let cueAtS = Number.NaN;
  let cueInS = Number.NaN;
  let fastAtS = Number.NaN;
  let fastLateBar = Number.NaN;
  let a = 0;
  let b = 0;
  for (let i = 0; i < trace.n; i++) {
    const t = trace.t[i]!;
    const x = trace.x[i]!;
    const reading = readingOf(t, x, { seq: i, uBar: s.uBar, stepBar });
    guardReading(guard, reading, ctx);
    const verdict = guardVerdict(guard, ctx);
    if (verdict.knee !== null && knee === null) knee = verdict.knee;
    if (Number.isNaN(cueAtS) && verdict.cue !== null && verdict.cue.value <= 5) {
      cueAtS = t;
      cueInS = verdict.cue.value;
    }
    const { tooFast } = verdict.view;
    if (Number.isNaN(fastAtS) && tooFast !== null) {
      fastAtS = t;
      fastLateBar = tooFast.lateBar;
    }
    if (Number.isNaN(atS)) {
      if (verdict.ceiling !== null) {
        atS = t;
        what = 'ceiling';
      } else if (verdict.rising !== null) {
        atS = t;
        what = verdict.rising.kind;
        values = verdict.rising.values;
      }
    }
    if (i >= 2) {
      const mid = Math.max(Math.min(a, b), Math.min(Math.max(a, b), x));
      recentAdd(recent, t * 1e6, mid);
      if (Number.isNaN(ceilingS) && mid >= s.ceilingBar) ceilingS = t;
      if (Number.isNaN(ninetyS) && mid >= 0.9 * s.ratedBar) ninetyS = t;
    }
    if (Number.isNaN(movedS) && proved !== null) {
      const stats = recentStats(recent, t * 1e6, (t - 5 / s.sensor.rateHz) * 1e6);
      if (stats !== null && stats.n >= 3 && stats.mean >= from) movedS = t;
    }
    a = b;
    b = x;
    const p = trace.packer[i]!;
    if (Number.isNaN(ratedS) && p >= s.ratedBar) ratedS = t;
    if (Number.isNaN(trueCeilingS) && p >= s.ceilingBar) trueCeilingS = t;
    if (Number.isNaN(workS) && p >= s.workingBar) workS = t;
  }
  return {
    movedS,
    atS,
    what,
    values,
    ceilingS,
    ninetyS,
    workS,
    trueCeilingS,
    ratedS,
    leaveS: workS + CLOSE_S,
    peakBar: trace.peakBar,
    knee,
    cueAtS,
    cueInS,
    fastAtS,
    fastLateBar,
  };
}
