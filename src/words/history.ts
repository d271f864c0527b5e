import type { Drift } from '../sensing/opinion.ts';

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
} as const;

/** The drift of a check in a sentence or two. @param text shows a difference in the user's units */
export function driftText(drift: Drift | null, text: (off: number) => string): string {
  if (drift === null) return 'Not checked since the calibration.';
  const { jobs, now, since, perDay, moving, daysToLimit, jumped } = drift;
  const said = [
    jobs === 1 ? `${text(now)} in one job.` : `${text(now)} now, moved by ${text(since)} over ${jobs} jobs.`,
  ];
  if (jumped) said.push('The last step stands out against the jobs before.');
  else if (moving && perDay !== null) {
    said.push(`It moves by ${text(perDay * 30)} in 30 days.`);
    if (daysToLimit === 0) said.push('The limit is met.');
    else if (daysToLimit !== null)
      said.push(`At this pace the limit is met in about ${Math.max(1, Math.round(daysToLimit))} days.`);
  } else said.push(jobs >= 4 ? 'It stands still within its scatter.' : 'A pace is told from four jobs on.');
  return said.join(' ');
}
