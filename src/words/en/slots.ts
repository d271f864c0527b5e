import type { Stage } from '../../watch/codes.ts';
import { STAGE_ACTION } from './terms.ts';

/** Names of the two large values of the live page, and of its key. What stands in capitals is read as an alarm is. */

/** Over the pressure, which is the largest number of the page. */
export const PRESSURE_SLOT = {
  line: 'Line pressure',
  ceiling: 'AT THE CEILING',
  'over-rated': 'OVER RATED',
  'over-range': 'SENSOR AT ITS END',
  stale: 'Old reading',
  lost: 'No reading',
};

/** Over the time, by what it counts. A name ends where the time begins: 'at' stands before a clock time. */
export const TIME_SLOT = {
  stage: 'In this stage for',
  'pot-life': 'Pot life left',
  settle: 'Leave the valve shut for',
  cue: 'Ready at the valve',
  'cue-stopped': 'No count: go by the pressure',
  'cure-left': 'Left of the cure time',
  'cure-still': 'Cure time stands still',
  'cure-unknown': 'Cure time not known',
  'check-sample': 'CHECK SAMPLE',
  'cure-reached': 'Data-sheet cure time reached (cautious count)',
  held: 'Holding for',
  'empties-in': 'Line empties in about',
  vent: 'Vent shut for',
  'vent-failed': 'FAILED AT',
  'vent-stayed': 'Stayed at zero for',
  'ceiling-in': 'Ceiling in',
  'rated-in': 'Rated in',
  'over-ceiling': 'Over the ceiling for',
  'over-rated': 'Over rated for',
  'no-reading': 'No reading for',
  supply: 'Supply watched for another',
  tripped: 'Tripped for',
  falling: 'Falling for',
  'floor-in': 'Hold floor in',
  'air-stabilise': 'Air settles for another',
  'air-settle': 'Time begins in',
  'air-timing': 'Left of the test',
  'air-verdict': 'Air test',
};

/** Over a limit that is reached within the second: no seconds are left to be counted. */
export const TIME_NOW = {
  'ceiling-in': 'At the ceiling',
  'rated-in': 'At rated',
  'floor-in': 'At the hold floor',
};

/** On the stage key: the stages that it leads to, and the one thing to do before. */
export const STAGE_KEY: Record<
  | Stage
  | 'connect'
  | 'zero'
  | 'mixed'
  | 'compare'
  | 'hard'
  | 'not-hard'
  | 'vent-open'
  | 'test'
  | 'supply-shut'
  | 'supply-stop'
  | 'end'
  | 'air-begin'
  | 'air-begin-probed'
  | 'air-again'
  | 'air-again-probed'
  | 'air-not-held'
  | 'air-stop'
  | 'demoted',
  string
> = {
  ...STAGE_ACTION,
  connect: 'Connect the device',
  zero: 'Zero now',
  mixed: 'Resin is mixed',
  compare: 'Compare the dial gauge',
  hard: 'Hard',
  'not-hard': 'Not hard',
  'vent-open': 'Vent was opened',
  test: 'Vent is shut: test',
  'supply-shut': 'Valve is shut',
  'supply-stop': 'Stop the proof',
  end: 'End the run',
  'air-begin': 'Begin the air test',
  'air-begin-probed': 'Begin, probe in pipe',
  'air-again': 'Test again',
  'air-again-probed': 'Again, probe in pipe',
  'air-not-held': 'It does not hold',
  'air-stop': 'Stop the test',
  demoted: 'Change stage: press and hold',
};
