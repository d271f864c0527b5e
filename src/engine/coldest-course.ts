import type { Place, Setup } from '../job/setup.ts';
import type { ProbeNow } from '../watch/cure/coldest.ts';
import { coldestNow, createColdest } from '../watch/cure/coldest-now.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { CureView } from '../watch/view.ts';
import type { TraceWindow } from './messages.ts';

/** The coldest likely spot of a stretch, °C to a tenth, and what it was known by. */
export interface ColdestSpot {
  readonly c: number;
  readonly source: CureView['source'];
}

/** When a probe's word began and ceased to count: compared with a thermometer in the hand, µs. */
function checksOf(events: readonly WatchEvent[]) {
  const checks = events.flatMap((e) => (e.e === 'warm-check' ? [e] : []));
  return (place: string | null, tUs: number): boolean =>
    checks.findLast((e) => e.place === place && e.tUs <= tUs)?.agrees === true;
}

/**
 * The lowest that the coldest likely spot was over a window of a recorded trace: the same function of probes and Setup that the
 * cure counted by. A probe's value is the middle of what a step of the window holds; its uncertainty moves no middle.
 * @param firstUs the run's first sample, from which the window counts its seconds
 * @param setup what was known in the end
 */
export function coldestOver(
  window: TraceWindow,
  firstUs: number,
  events: readonly WatchEvent[],
  setup: Setup | null,
): ColdestSpot | null {
  const temps = window.series.filter((s) => s.name === 'temperature' && s.place !== null);
  const isChecked = checksOf(events);
  const state = createColdest(firstUs + window.fromS * 1e6);
  let least: ColdestSpot | null = null;
  let gap = false;
  for (let i = 0; i < window.s.length; i++) {
    const s = window.s[i]!;
    if (s < window.fromS || s > window.toS) continue;
    const tUs = firstUs + s * 1e6;
    if (window.series.every((one) => Number.isNaN(one.min[i]!))) {
      gap = true;
      continue;
    }
    const probes = temps.flatMap((one): ProbeNow[] => {
      const c = (one.min[i]! + one.max[i]!) / 2;
      return Number.isFinite(c)
        ? [{ place: one.place as Place, c, uC: 0, checked: isChecked(one.place, tUs) }]
        : [];
    });
    const now = coldestNow(state, tUs, gap, probes, setup);
    gap = false;
    if (now.c !== null && (least === null || now.c.value < least.c))
      least = { c: now.c.value, source: now.source };
  }
  return least === null ? null : { ...least, c: Math.round(least.c * 10) / 10 };
}
