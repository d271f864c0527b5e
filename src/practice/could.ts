/** What a ready hand would have made of the same: the rig is played again up to the first sign, and then its valve is shut. */
import { createRigDevice } from '../rig/device.ts';
import { type DrillCode, drillSite } from '../rig/drills.ts';
import { type Happening, handOf } from '../rig/faults.ts';
import type { Course } from './course.ts';
import type { Could } from './shapes.ts';

/** A hand at the valve that is not surprised, s (common practice, no source). */
export const READY_S = 3;
/** So long after it the air has come to rest, s. */
const REST_S = 30;
/** Nothing longer is played again: a tablet has to do it while somebody waits, s. */
const MOST_S = 1800;

/** Where the pressure is what the valve decides. */
const BY_VALVE: Readonly<Partial<Record<DrillCode, true>>> = {
  'drill-stuck-open': true,
  'drill-creep': true,
  'drill-unplug': true,
};

/** null: there it is not the valve that decides, or it would take too long. */
export function couldHave(drill: DrillCode, course: Course, signS: number): Could | null {
  const shutS = course.onRig(signS) + READY_S;
  if (BY_VALVE[drill] !== true || shutS > MOST_S) return null;
  const until = course.onRig(signS);
  const hands = course.hands.flatMap((h): Happening[] => {
    const hand = h.atS <= until ? handOf(h) : null;
    return hand === null ? [] : [{ atS: h.atS, ...hand }];
  });
  // What went wrong comes when it came, not when a step of this walk happens to find it due.
  const faults = course.faults.flatMap((f): Happening[] => {
    if (f.atS > until) return [];
    if (f.name === 'stuck-open') return [{ atS: f.atS, fault: 'stuck-open' }];
    if (f.name === 'creep' && f.value !== null) return [{ atS: f.atS, fault: 'creep', barPerMin: f.value }];
    return [];
  });
  const { planned, ...site } = drillSite(drill, course.seed);
  const device = createRigDevice({
    ...site,
    seed: course.seed,
    script: [...hands, ...faults, { atS: shutS, hand: 'valve', open: 0 }],
  });
  device.advance(shutS + REST_S);
  return { shutS: shutS - course.onRig(0), peakBar: device.site.truth.peakBar };
}
