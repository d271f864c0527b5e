import type { Format } from '../create-format.ts';
import { type Ends, endsIn, type HoldWords, holdTexts } from '../said/hold.ts';

/** What the hold and the cure show. */

const LEAK_VERDICT: HoldWords['verdict'] = {
  leaking: 'Leaking',
  tight: 'No leak seen',
  'cannot-tell': 'Cannot tell',
  'cannot-be-seen': 'Cannot be seen',
};

const CANNOT_TELL: HoldWords['cannotTell'] = {
  tap: 'the sensor does not read the packer’s pressure',
  line: 'the line is supplied: the regulator makes up for a leak',
  'too-short': 'the line has not been shut and still for long enough',
  'temperature-trend': 'air temperature trend not known well enough',
  'sensor-warmth':
    'the pressure sensor’s own warmth may move its reading as much: keep it out of sun and wind',
  'not-gas': 'with water or steam in the packer the pressure does not go by the gas law',
  settling: 'air still cooling, rubber still stretching',
  'no-pressure': 'there is no usable pressure reading',
};

const CURE_SOURCE: HoldWords['source'] = {
  sleeve: 'from the probe at the sleeve',
  'air-model': 'from the air in the packer and the ground, taken to the cold side',
  pipe: 'from the probe at the pipe wall',
  ground: 'from the planned ground temperature',
  none: 'no temperature to count by',
};

const range: HoldWords['range'] = (low, high) => `${low} to ${high}`;
const ends = endsIn(range);

/**
 * Words about the cure claim what can be known: the data sheet's time at the coldest likely spot, by a cautious
 * count. They never say that the resin is hard or that anything may be opened.
 */
const CURE = {
  name: 'Data-sheet cure time',
  met: 'Data-sheet cure time reached at the coldest likely spot (cautious count)',
  notMet: 'Data-sheet cure time not reached',
  notKnown: 'Cure time not known',
  notJudged: 'Cure is not judged: the resin cures by light',
  noResin: 'No resin on the job sheet: cure time is not followed',
  notStarted: 'Counts from seating on',
  notHeld: 'Counts since seating; when it will be reached is told from the hold on',
  willBeMetAt: (clock: Ends, inTime: string): string =>
    `Reached at about ${clock.value}${ends(clock)}, in ${inTime}`,
  willBeMetIn: (time: Ends): string => `Reached in about ${time.value}${ends(time)}`,
  exothermAt: (clock: Ends, inTime: string, warmest: Ends): string =>
    `Exotherm (forecast from a generic sketch of the resin): warmest at about ${clock.value}${ends(clock)}, in ${inTime}: ${warmest.value}${ends(warmest)}`,
  exothermIn: (time: Ends, warmest: Ends): string =>
    `Exotherm (forecast from a generic sketch of the resin): warmest in about ${time.value}${ends(time)}: ${warmest.value}${ends(warmest)}`,
  progress: ({ value, low, high }: Ends): string => `${value} (cautious count ${low}, at most ${high}).`,
  progressOver: (low: string): string =>
    `Not reached: by the cautious count ${low} of the cure time has passed. Only the likely count is over the end.`,
  between: (low: string, high: string): string => `${low} to ${high}`,
};

const WORDS: HoldWords = {
  verdict: LEAK_VERDICT,
  cannotTell: CANNOT_TELL,
  source: CURE_SOURCE,
  colon: ': ',
  range,
  noLeakAbove: (rate) => `No leak above ${rate}`,
  raisesTo: (pressure) => `Cure heat will raise the pressure to ${pressure}`,
  ceilingIn: (time) => `ceiling in ${time}`,
  letOutTo: (pressure) => `let out to ${pressure}`,
  floorUnknown: 'the hold floor is not known',
  noFurther: 'no further',
  notUnder: (pressure) => `not under ${pressure}`,
  within: (time) => `in ${time}`,
  leavesUpwards: (when) => `Will leave the hold band upwards by cure heat ${when}`,
  leavesByLeak: (when) => `Will leave the hold band downwards by leak ${when}`,
  fallsOut: (when, cools) =>
    `If the pressure goes on falling ${cools ? 'as it cools' : 'like this'}: under the hold floor ${when}`,
  coldest: 'Coldest likely spot',
};

export const hold = (f: Format) => ({ CURE, ...holdTexts(f, WORDS) });
