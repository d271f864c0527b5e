import type { AirTestVerdict, Priority, Stage } from '../../watch/codes.ts';

/** What the live page says besides its orders: under the two large values, in the drawer, on its keys, in the strip. */
export const FACE = {
  // under and over the pressure
  lineU: (u: string) => `Line pressure ± ${u}`,
  lineLost: 'Line pressure, no reading',
  lineOld: 'Line pressure, old reading',
  oldFor: (age: string) => `Old reading, ${age}`,
  atRated: 'AT RATED',
  overRated: (by: string) => `OVER RATED +${by}`,
  mayHoldAir: 'MAY HOLD AIR',
  spanEnds: (end: string) => `The sensor reads no further than ${end}.`,
  steady: 'steady',
  rising: (slope: string) => `rising ${slope}`,
  risingAtRest: (slope: string, rest: string) => `rising ${slope}, with no flow ${rest}`,
  falling: (slope: string) => `falling ${slope}`,

  // under and over the time
  noRun: 'No run yet',
  runLeftOpen: 'A run was not closed',
  mayBeFull: 'May be full',
  now: 'NOW',
  cueMeans: 'then shut the valve',
  /** Over the NOW that its count ends in, and what comes then. */
  cueNow: 'Shut the valve',
  cueThen: 'then leave it shut',
  cueStopped: {
    still: 'The rise has ended.',
    reading: 'There is no reading to count by.',
    unsure: 'The rise is not steady enough.',
  },
  lastValue: (value: string) => `last ${value}`,
  lastValueAt: (value: string, clock: string) => `last ${value}, at ${clock}`,
  everyoneClear: ['EVERYONE', 'CLEAR'],
  overFor: (time: string) => `Over rated for ${time}`,
  trueUnknown: 'how far is not known',
  peak: (value: string) => `peak ${value}`,
  ifLeftOpen: (value: string) => `if left open: ${value}`,
  stillRising: 'still rising',
  notRising: 'not rising now',
  potLifeOver: 'Pot life is over',
  mixedAgo: (time: string) => `mixed ${time} ago`,
  thenGauge: 'then read the dial gauge',
  inBand: (time: string) => `In the hold band ${time}`,
  leak: (verdict: string) => `Leak: ${verdict}`,
  held: (time: string) => `Holding for ${time}`,
  checkSample: ['CHECK', 'SAMPLE'],
  metAgo: (time: string) => `${time} ago`,
  reached: (when: string) => (when === '' ? 'Cure time reached' : `Cure time reached ${when}`),
  metAt: (clock: string, time: string) => `at ${clock}, ${time} ago`,
  metIn: (low: string, high: string) => (low === high ? `reached in ${low}` : `reached in ${low} to ${high}`),
  metBetween: (from: string, to: string) =>
    from === to ? `reached at ${to}` : `reached at ${from} to ${to}`,
  coldest: (value: string) => `Coldest likely spot ${value}: nothing is counted.`,
  ofSeconds: (time: string) => `of ${time}`,
  cameBack: (value: string, u: string) => `came back to ${value}, beyond the reading’s ±\u00a0${u}`,
  rose: (value: string, u: string) => `rose to ${value}: within the reading’s ±\u00a0${u}, yet no noise`,
  notEmpty: 'a line at zero is not an empty packer',
  // of an air test
  airVerdict: {
    passed: ['PASSED'],
    failed: ['FAILED'],
    'cannot-say': ['CANNOT', 'BE SAID'],
  } satisfies Record<AirTestVerdict, readonly string[]>,
  airDrop: (drop: string, u: string, allowed: string) => `drop ${drop} ± ${u}, allowed ${allowed}`,
  airAllowed: (allowed: string) => `allowed drop ${allowed}`,
  thenTest: 'then shut the vent and test',

  // keys
  more: 'More',
  close: 'Close',
  hold: 'press and hold',
  useSheet: 'Go on with this job sheet',
  choosePacker: 'Choose the packer',
  warm: 'Warm the probes',
  testSound: 'Test the sound',
  ackNext: (title: string) => `Acknowledge the next: ${title}`,
  acknowledged: (time: string) => `Acknowledged ${time} ago`,
  /** Of an alarm that is over: what is left to do, and under it what it was. */
  wasDo: 'Ended: acknowledge it.',
  wasTitle: (title: string) => `Was: ${title}`,
  others: 'Also there',
  orderLabel: 'What to do',
  timeLabel: 'Time',

  // drawer
  spanStage: 'As the stage needs it',
  tabs: {
    start: 'Start',
    numbers: 'Numbers',
    spans: 'Spans',
    stages: 'Other stages',
    checks: 'Checks',
    checklist: 'Checklist',
    note: 'Note',
    alarms: 'Alarms',
    run: 'Job sheet and run',
    rig: 'Practice rig',
    why: 'Why',
  },
  /** The longest of them in the hand. */
  runTabShort: 'Job sheet',
  whyTitle: (action: string) => `${action} all the same?`,
  whyText: 'Press the reason. It is recorded with the step.',
  ownReason: 'Another reason',
  noStages: 'No other stage from here.',
  allAlarms: 'Nothing waits and nothing is put aside.',
  shelfTitle: 'Put aside for ten minutes',
  takeBack: 'Raise it again',
  endHold: 'End the run: press and hold',

  // strip and bars of the other pages
  recording: 'Recording',
  rec: 'Rec',
  lamp: (n: number, priority: string, more: number) =>
    more === 0 ? `${n} ${priority}` : `${n} ${priority}, ${more} more`,
  marks: (n: number) => (n === 1 ? '1 mark' : `${n} marks`),
  shelved: (title: string, left: string) => `Put aside: ${title}, ${left} left`,
  shelvedShort: (left: string) => `Put aside, ${left} left`,
  shelvedMany: (n: number, left: string) => `${n} put aside, next ${left} left`,
  soundOff: 'SOUND OFF',
  goLive: 'Go to live',
  mixedLeft: (time: string) => `pot life ${time}`,
  cureLeft: (time: string) => `cure time ${time} left`,
  cureMet: 'check sample',
};

/** Beside a count of alarms. */
export const LAMP: Record<Priority, string> = { urgent: 'urgent', high: 'high', low: 'low' };

/** Reasons at hand for a step that something speaks against. */
export const REASONS: Record<Stage, readonly string[]> = {
  prepare: ['The attempt starts anew.'],
  seat: ['Cause of the alarm is seen and mended.', 'Zero compared with the dial gauge.'],
  inflate: ['Cause of the alarm is seen and mended.', 'Dial gauge read instead.', 'Air is made up for.'],
  hold: ['Dial gauge read instead.', 'Enough for this sleeve.', 'The attempt goes on as it is.'],
  'let-down': [
    'Sleeve felt hard, sample not at hand.',
    'Pressure must come off now.',
    'Attempt is given up.',
  ],
  done: ['Packer seen empty.', 'Vented by another way.'],
  'air-test': ['Plugs are seen set and braced.', 'Another sensor watches the packer.'],
  abandoned: ['Sleeve is in the wrong place.', 'Pressure must come off now.', 'Resin went off too early.'],
};

/** Which of the reasons for 'done' says that the packer was seen empty. */
export const SEEN_EMPTY = 0;

/** Reasons at hand for an alarm that is put aside. */
export const SHELF_REASONS: readonly string[] = [
  'Known, somebody is at it.',
  'Cause is seen, it does no harm.',
  'Cannot be mended during this run.',
];
