import type { JobDocument } from '../job/job-document.ts';
import type { ChannelSetup } from '../job/setup.ts';
import { pressureBudget } from '../sensing/uncertainty.ts';
import { input, type Notes } from './notes.ts';

/**
 * Air test of the finished repair. EN 1610 is written for new pipelines (owners borrow it), ASTM F1417 for installed
 * plastic gravity pipe.
 */

export type En1610Method = 'LA' | 'LB' | 'LC' | 'LD';

/** Test pressure and allowed drop, mbar (EN 1610 Table 3, values from memory). */
const EN1610: { readonly [M in En1610Method]: readonly [p0: number, drop: number] } = {
  LA: [10, 2.5],
  LB: [50, 10],
  LC: [100, 15],
  LD: [200, 15],
};
/** Over 0.058 the table's coefficient does not go. */
const KP_CAP = 0.058;
const MBAR_PER_PSI = 68.947_572_931_7;

/**
 * Test time of EN 1610 in min: t = ln(p0 / (p0 − Δp)) / Kp, Kp = 12/DN (16/DN for dry concrete), rounded as the
 * table is: to half a minute up to five, else to a minute. DN in mm, 50-3000.
 */
export function en1610Minutes(method: En1610Method, dn: number, dryConcrete = false): number {
  const [p0, drop] = EN1610[method];
  const kp = Math.min(KP_CAP, (dryConcrete ? 16 : 12) / dn);
  const t = Math.log(p0 / (p0 - drop)) / kp;
  return t <= 5 ? Math.round(t * 2) / 2 : Math.round(t);
}

/**
 * Test time of ASTM F1417 in s for a drop of 0.5 psi: half of T = 0.085 · D · K / Q with Q = 0.0015 and
 * K = max(1, 0.000419 · D · L). D in inches, L in feet. (Formula from memory; it reproduces the standard's table.)
 */
export function f1417Seconds(diameterIn: number, lengthFt: number): number {
  const k = Math.max(1, 0.000_419 * diameterIn * lengthFt);
  return (0.5 * 0.085 * diameterIn * k) / 0.0015;
}

export interface AirTestPlan {
  readonly method: En1610Method | 'F1417';
  readonly seconds: number;
  readonly startMbar: number;
  readonly dropMbar: number;
  /** Expanded uncertainty of the reading at the test pressure, mbar; null where nothing is known of the sensor. */
  readonly uMbar: number | null;
  /** The sensor is good enough: its uncertainty is at most a tenth of the allowed drop. */
  readonly possible: boolean;
}

/** F1417 starts at 3.5 psi over groundwater and allows a drop of 0.5 psi (values from memory). */
const F1417_START_PSI = 3.5;
const F1417_DROP_PSI = 0.5;

/** The sensor's own warmth may change by so much in the minutes of a test, K (common practice, no source). */
const WARMTH_K = 2;

export function planAirTest(
  job: JobDocument,
  diameterMm: number | null,
  pressure: ChannelSetup | null,
  supplied: boolean,
  headBar: number | null,
  notes: Notes,
): AirTestPlan | null {
  const { method, lengthM } = job.airTest;
  if (method === 'none') return null;
  if (diameterMm === null || (method === 'F1417' && lengthM === null)) {
    notes.warn('air-test-unknown');
    return null;
  }
  let seconds: number;
  let startMbar: number;
  let dropMbar: number;
  const diameter = input('diameter', diameterMm, 'mm');
  if (method === 'F1417') {
    seconds = f1417Seconds(diameterMm / 25.4, (lengthM ?? 0) / 0.3048);
    startMbar = F1417_START_PSI * MBAR_PER_PSI + (headBar ?? 0) * 1000;
    dropMbar = F1417_DROP_PSI * MBAR_PER_PSI;
    notes.derive('air-test-time', seconds, 's', [diameter, input('length', lengthM ?? 0, 'm')]);
  } else {
    // Wet concrete counts as the others do, and whether it is wet is not known: the longer time is taken.
    seconds = en1610Minutes(method, job.pipe.dn ?? diameterMm) * 60;
    [startMbar, dropMbar] = EN1610[method];
    notes.derive('air-test-time', seconds, 's', [
      diameter,
      input('start-pressure', startMbar, 'mbar'),
      input('drop', dropMbar, 'mbar'),
      input('test-coefficient', Math.min(KP_CAP, 12 / (job.pipe.dn ?? diameterMm)), '1'),
    ]);
  }
  notes.derive('air-test-drop', dropMbar, 'mbar', [input('start-pressure', startMbar, 'mbar')]);
  const uMbar =
    pressure === null
      ? null
      : pressureBudget(pressure, startMbar / 1000, supplied, { zeroed: true, warmthK: WARMTH_K }).expanded *
        1000;
  if (uMbar !== null) notes.derive('air-test-u', uMbar, 'mbar', [input('start-pressure', startMbar, 'mbar')]);
  const possible = uMbar !== null && uMbar <= dropMbar / 10;
  if (!possible)
    notes.warn('air-test-refused', [input('u', uMbar ?? 0, 'mbar'), input('drop', dropMbar, 'mbar')]);
  return { method, seconds, startMbar, dropMbar, uMbar, possible };
}
