/** Scores records of fills by the true pressure in the packer. */
import type { FillRecord } from './fills.ts';
import type { Verdict } from './fills-judge.ts';
import { quantile } from './stats.ts';

export interface Score {
  readonly fills: number;
  /** True pressure passed rated: an alarm must stand before. */
  readonly over: number;
  readonly missed: number;
  readonly missedCeiling: number;
  readonly missedNinety: number;
  /** True peak stayed under rated − 2U: an urgent alarm is false. */
  readonly under: number;
  readonly falseUrgent: number;
  readonly falseCeiling: number;
  readonly falseNinety: number;
  /** In between: neither missed nor false can be said; how many, and how many with an alarm. */
  readonly between: number;
  readonly betweenAlarmed: number;
  /** Seconds before the true pressure passes rated; 0 where it came after or not at all. */
  readonly lead: readonly number[];
  readonly leadCeiling: readonly number[];
  readonly leadNinety: readonly number[];
  /** Stuck open: share used of the time between leaving the band and rated, where there is any. */
  readonly share: readonly number[];
}

/** Shorter times than this between leaving the band and rated leave nothing to share out, s. */
const LEAST_TIME_S = 0.05;

export function score(
  records: readonly FillRecord[],
  pick: (r: FillRecord) => Verdict | null = (r) => r.verdict,
): Score {
  let over = 0;
  let missed = 0;
  let missedCeiling = 0;
  let missedNinety = 0;
  let under = 0;
  let falseUrgent = 0;
  let falseCeiling = 0;
  let falseNinety = 0;
  let between = 0;
  let betweenAlarmed = 0;
  let fills = 0;
  const lead: number[] = [];
  const leadCeiling: number[] = [];
  const leadNinety: number[] = [];
  const share: number[] = [];
  const before = (at: number, rated: number) => (Number.isNaN(at) ? 0 : Math.max(0, rated - at));
  for (const r of records) {
    const v = pick(r);
    if (v === null) continue;
    fills++;
    const alarmed = !Number.isNaN(v.atS);
    if (!Number.isNaN(v.ratedS)) {
      over++;
      if (!(v.atS < v.ratedS)) missed++;
      if (!(v.ceilingS < v.ratedS)) missedCeiling++;
      if (!(v.ninetyS < v.ratedS)) missedNinety++;
      lead.push(before(v.atS, v.ratedS));
      leadCeiling.push(before(v.ceilingS, v.ratedS));
      leadNinety.push(before(v.ninetyS, v.ratedS));
      const time = v.ratedS - v.leaveS;
      if (time > LEAST_TIME_S) share.push(Math.min(1, before(v.atS, v.ratedS) / time));
    } else if (r.verdict.peakBar < r.ratedBar - 2 * r.uBar) {
      under++;
      if (alarmed) falseUrgent++;
      if (!Number.isNaN(v.ceilingS)) falseCeiling++;
      if (!Number.isNaN(v.ninetyS)) falseNinety++;
    } else {
      between++;
      if (alarmed) betweenAlarmed++;
    }
  }
  return {
    fills,
    over,
    missed,
    missedCeiling,
    missedNinety,
    under,
    falseUrgent,
    falseCeiling,
    falseNinety,
    between,
    betweenAlarmed,
    lead,
    leadCeiling,
    leadNinety,
    share,
  };
}

/** "0.70 / 2.1 / 11.0": minimum, 5th percentile, median, s. */
export function three(values: readonly number[]): string {
  if (values.length === 0) return '-';
  return `${quantile(values, 0).toFixed(2)} / ${quantile(values, 0.05).toFixed(1)} / ${quantile(values, 0.5).toFixed(1)}`;
}

/** Does the interval that the alarm's text names hold the truth? null: it names none (the ceiling alarm). */
export function holds(r: FillRecord): boolean | null {
  const v = r.verdict;
  const a = v.values;
  if (a === null) return null;
  if (a.kind === 'settle') {
    // Where the line settles is known for a regulator that stands still; anything else settles nowhere.
    if (r.kind !== 'high' && r.kind !== 'normal') return false;
    return r.setBar >= a.settleLowBar! && r.setBar <= a.settleHighBar!;
  }
  const truth = v.trueCeilingS - v.atS;
  return truth >= a.inLowS! && truth <= a.inHighS!;
}
