import type { PackerDocument } from '../job/packer-document.ts';
import type { SensorDocument } from '../job/sensor-document.ts';
import type { DayRun, DaySheet } from './day.ts';
import { overRatedUninspected, reviewPacker } from './packer-history.ts';
import { reviewCalibration } from './sensor-review.ts';

/** What is due, in one list: the weightiest first. */
export type Due =
  /** Damage in its log, over its rating, or nobody has looked at it since it was used. */
  | {
      readonly due: 'damaged' | 'over-rated' | 'not-inspected';
      readonly packerId: string;
      readonly name: string;
    }
  /** Days left; negative: overdue by so many. */
  | {
      readonly due: 'calibration';
      readonly sensorId: string;
      readonly name: string;
      readonly daysLeft: number;
    }
  | {
      readonly due: 'not-sealed' | 'not-sent';
      readonly runId: string;
      readonly title: string;
      readonly openedUtcMs: number;
    };

/** A calibration is told of so many days before it is due (common practice, no source). */
const SOON_DAYS = 14;

const ORDER: readonly Due['due'][] = [
  'damaged',
  'over-rated',
  'not-inspected',
  'calibration',
  'not-sealed',
  'not-sent',
];

interface Named<T> {
  readonly id: string;
  readonly document: T;
}

/** What must be done to a packer before it goes in again; null: nothing is known against it. */
function packerDue(
  packer: PackerDocument,
  last: DayRun | undefined,
): 'damaged' | 'over-rated' | 'not-inspected' | null {
  if (packer.retired) return null;
  const state = packer.conditions.findLast(
    (c) => c.what === 'damage' || c.what === 'inspected' || c.what === 'repaired',
  );
  if (state?.what === 'damage') return 'damaged';
  if (overRatedUninspected(packer) !== null) return 'over-rated';
  const logged =
    last === undefined || packer.conditions.some((c) => c.runId === last.runId && c.what !== 'over-rated');
  // A packer whose last run is not in its log was not put away: unless somebody looked at it on a later day.
  const later = last !== undefined && state !== undefined && Date.parse(state.date) > last.openedUtcMs;
  return reviewPacker(packer).unseen || !(logged || later) ? 'not-inspected' : null;
}

/** @param today ISO date */
export function overdue(
  given: {
    readonly sheets: readonly DaySheet[];
    readonly runs: readonly DayRun[];
    readonly packers: readonly Named<PackerDocument>[];
    readonly sensors: readonly Named<SensorDocument>[];
  },
  today: string,
): readonly Due[] {
  const real = given.runs.filter((r) => !r.practice && r.state !== 'open');
  const packerOf = new Map(given.sheets.map(({ id, document: job }) => [id, job.packerId]));
  const found: Due[] = [];
  for (const { id, document: packer } of given.packers) {
    const last = real
      .filter((r) => r.jobId !== null && packerOf.get(r.jobId) === id)
      .toSorted((a, b) => b.openedUtcMs - a.openedUtcMs)[0];
    const due = packerDue(packer, last);
    if (due !== null) found.push({ due, packerId: id, name: packer.name });
  }
  for (const { id, document: sensor } of given.sensors) {
    const daysLeft = sensor.retired ? null : (reviewCalibration(sensor, today)?.daysLeft ?? null);
    if (daysLeft !== null && daysLeft <= SOON_DAYS)
      found.push({ due: 'calibration', sensorId: id, name: sensor.name, daysLeft });
  }
  for (const { runId, title, openedUtcMs, sealedUtcMs, sentUtcMs } of real)
    if (sealedUtcMs === undefined) found.push({ due: 'not-sealed', runId, title, openedUtcMs });
    else if (sentUtcMs === undefined) found.push({ due: 'not-sent', runId, title, openedUtcMs });
  const days = (d: Due): number => (d.due === 'calibration' ? d.daysLeft : 0);
  const age = (d: Due): number => ('openedUtcMs' in d ? -d.openedUtcMs : 0);
  return found.sort(
    (a, b) => ORDER.indexOf(a.due) - ORDER.indexOf(b.due) || days(a) - days(b) || age(a) - age(b),
  );
}
