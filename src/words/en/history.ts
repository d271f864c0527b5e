import type { Drift } from '../../sensing/opinion.ts';

/** What a sensor showed in its jobs. */
export const HISTORY = {
  title: 'Over its jobs',
  none: 'No job has checked this sensor yet. Zeros, comparisons with the dial gauge and warmings in the hand are gathered here.',
  job: 'Job',
  zero: 'Zero taken',
  gauge: 'Reading less dial gauge',
  warm: 'Reading less thermometer',
  refused: 'too far, refused',
  differed: 'did not agree',
  before: '(before the calibration in force)',
  more: (n: number) => `${n} earlier jobs are not shown.`,
  plot: (title: string) => `${title}, job by job`,
};

/** Putting the packer away after a run. */
export const PUT_AWAY = {
  title: 'Put the packer away',
  note: (packer: string) =>
    `Clean it and look at it: a cut is where it will burst. The cycle goes into the log of ${packer}.`,
  peak: 'Peak',
  leak: 'Leak of the last hold',
  inflated: 'Under pressure',
  found: 'Inspection found',
  notYet: 'Not looked at yet',
  well: 'No cut, abrasion or wear',
  damage: 'Damage: do not use it',
  foundNeeded: 'Say what the inspection found.',
  by: 'Initials',
  byNeeded: 'Whoever looked at it gives initials.',
  what: 'What was found',
  log: 'Log this cycle',
  done: 'The cycle is in the packer’s log.',
  logged: (date: string, by: string) => `Logged with the packer, ${date}, ${by}.`,
  toPacker: 'Look at its log',
};

/** What a run’s witness cup has shown, to be kept with its resin. */
export const CUP_KEPT = {
  title: 'Keep the cup’s mark with the resin',
  note: (resin: string) =>
    `By what the cups of usual batches have shown, the next batch of ${resin} is told from a slow one. Keep it only of a batch that was accepted and weighed well.`,
  mark: 'This batch',
  mass: 'In the cup',
  known: 'Known so far',
  batches: (n: number, scatter: string) =>
    n === 1 ? `1 batch, the next within ±${scatter} %` : `${n} batches, the next within ±${scatter} %`,
  none: 'No batch yet',
  keep: 'Keep it with the resin',
  done: 'The cup’s mark is with the resin.',
  kept: 'Kept with the resin.',
  toResin: 'Look at the resin',
  slow: 'This batch was slow by its cup: it is no mark of a usual one, and is not kept.',
  soft: 'The witness sample was not hard: what the cup showed is not kept.',
  full: (most: number) => `The resin has ${most} marks: take one off it first.`,
};

/** A packer over its cycles. */
export const CYCLES = {
  title: 'Cycles',
  count: (n: number) => (n === 1 ? '1 cycle in all.' : `${n} cycles in all.`),
  unseen: 'No inspection is logged since the last one.',
  none: 'None logged yet. A run’s review has ‘Log this cycle’ when the packer is put away.',
  leak: 'Leak, cycle by cycle',
  noLeak: 'No leak was measured since the last repair.',
  noneSeen: 'none seen',
  plot: 'Leak over the cycles',
  day: 'Day',
};

/**
 * A drift in a sentence or two.
 * @param text shows a figure in the user's units
 * @param none what is said where nothing was measured
 * @param level shows where it stands, where that is read otherwise than a step of it
 */
export function driftText(
  drift: Drift | null,
  text: (off: number) => string,
  none = 'Not checked since the calibration.',
  level = text,
): string {
  if (drift === null) return none;
  const { jobs, now, since, perDay, moving, daysToLimit, jumped } = drift;
  const said = [
    jobs === 1
      ? `${level(now)} in one job.`
      : `${level(now)} now, moved by ${text(since)} over ${jobs} jobs.`,
  ];
  if (jumped) said.push('The last step stands out against the jobs before.');
  else if (moving && perDay !== null) {
    said.push(`It moves by ${text(perDay * 30)} in 30 days.`);
    if (daysToLimit === 0) said.push('The tolerance is used up.');
    else if (daysToLimit !== null)
      said.push(
        `At this pace the tolerance is used up in about ${Math.max(1, Math.round(daysToLimit))} days.`,
      );
  } else said.push(jobs >= 4 ? 'It stands still within its scatter.' : 'A pace is told from four jobs on.');
  return said.join(' ');
}
