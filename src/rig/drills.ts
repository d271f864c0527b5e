/**
 * What is drilled on the practice rig: a site, and what goes wrong on it once the work has come so far. Where exactly lies in
 * the seed, so that nobody learns it by heart. Nothing of it is shown before; goals and judging are practice/'s.
 */
import { CUP, PAIR, PRACTICE, type PracticeSite } from './practice-site.ts';
import { createRandom } from './random.ts';
import type { Planned } from './triggers.ts';

/** In the order in which they are offered, the plainest first. A code is kept in records: add, never rename. */
export const DRILLS = [
  'drill-stuck-open', // the regulator passes everything during the fill
  'drill-creep', // its set point wanders up during the fill
  'drill-unplug', // the cable comes out during the fill
  'drill-blown-hose', // the hose flies off its coupling during the fill
  'drill-burst', // the packer bursts near the working pressure
  'drill-relief', // the relief valve lifts far under what it is set to
  'drill-leak', // a leak begins in the hold
  'drill-kink', // the hose kinks while the packer is let down
  'drill-moved', // the regulator is turned up at the seat pause, after it was seen to stand
  'drill-differ', // a second sensor reads off from the seat pause on
  'drill-open-probe', // the sleeve's probe breaks in the hold
  'drill-slow-batch', // the batch is slow, and only its cup shows it
] as const;
export type DrillCode = (typeof DRILLS)[number];

export const isDrill = (code: string): code is DrillCode => (DRILLS as readonly string[]).includes(code);

/** The site of a drill, its faults at the places of that seed. */
export function drillSite(code: DrillCode, seed: number): PracticeSite {
  const random = createRandom(seed).fork('drill');
  const filling = (lo: number, hi: number): Planned['at'] => ({
    when: 'filling',
    overBar: random.range(lo, hi),
  });
  const shut = (overBar: number, lo: number, hi: number): Planned['at'] => ({
    when: 'shut',
    overBar,
    forS: random.range(lo, hi),
  });
  const planned = (...all: Planned[]): PracticeSite => ({ ...PRACTICE, planned: all });
  switch (code) {
    case 'drill-stuck-open':
      // A valve through which it takes some seconds: a hand must have the time that it has at a big packer.
      return {
        ...PRACTICE,
        site: { ...PRACTICE.site, valve: { conductance: 8e-9 } },
        planned: [{ at: filling(0.75, 0.95), fault: { fault: 'stuck-open' } }],
      };
    case 'drill-creep':
      return planned({
        at: filling(0.75, 0.95),
        fault: { fault: 'creep', barPerMin: random.range(0.5, 0.8) },
      });
    case 'drill-unplug': {
      const at = filling(0.7, 1);
      return planned(
        { at, fault: { fault: 'unplug' } },
        // Somebody finds the plug and puts it back.
        { at, afterS: 60, fault: { fault: 'replug' } },
      );
    }
    case 'drill-blown-hose':
      return planned({ at: filling(0.75, 1.1), fault: { fault: 'blown-hose' } });
    case 'drill-burst':
      return planned({ at: filling(1.2, 1.4), fault: { fault: 'burst' } });
    case 'drill-relief':
      return planned({ at: filling(0.9, 1), fault: { fault: 'relief', bar: random.range(1.1, 1.2) } });
    case 'drill-leak':
      return planned({
        at: shut(1.2, 60, 150),
        fault: { fault: 'leak', mbarPerMin: random.range(22, 30) },
      });
    case 'drill-kink':
      return planned({ at: { when: 'venting', underBar: 0.65 }, fault: { fault: 'kink', open: 0.004 } });
    case 'drill-moved':
      return {
        ...PAIR,
        planned: [{ at: shut(0.2, 7, 11), fault: { fault: 'regulator', bar: random.range(2.4, 2.8) } }],
      };
    case 'drill-differ':
      return {
        ...PAIR,
        planned: [{ at: shut(0.2, 2, 5), fault: { fault: 'second-off', bar: -random.range(0.4, 0.6) } }],
      };
    case 'drill-open-probe':
      return planned({ at: shut(1.2, 200, 400), fault: { fault: 'open-probe' } });
    case 'drill-slow-batch':
      return CUP;
    default:
      return code satisfies never;
  }
}
