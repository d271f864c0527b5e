import type { Priority } from '../../watch/codes.ts';

/** Words of the archive's rows and chips. */
export const RECORDS = {
  waiting: (n: number) => (n === 1 ? '1 waits for a review' : `${n} wait for a review`),
  noneWaiting: 'none waits for a review',
  chips: {
    all: 'All',
    review: 'To review',
    ceiling: 'Ceiling reached',
    alarms: 'With alarms',
    cure: 'Cure time not reached or not known',
    practice: 'Practice',
  },
  chipsLabel: 'Which records are shown',
  peak: 'Peak',
  course: 'Pressure over time',
  job: 'Job',
  inBand: 'In hold band',
  cure: 'Cure time reached',
  alarms: 'Alarms',
  state: 'State',
  noAlarm: 'none',
  alarmCount: {
    urgent: (n: number) => `${n} urgent`,
    high: (n: number) => `${n} high`,
    low: (n: number) => `${n} low`,
  } satisfies Record<Priority, (n: number) => string>,
  cureNot: 'not reached',
  toReview: 'To review',
  accepted: 'Accepted',
  rejected: 'Rejected',
  recording: 'Recording',
  interrupted: 'interrupted',
  sealed: 'sealed',
  notSealed: 'not sealed',
  elsewhere: 'from elsewhere',
  unknownKey: 'unknown key',
  emptyTitle: 'Nothing recorded and nothing kept yet.',
  emptyTodo: 'Each run stands here once it has ended; a record from elsewhere once it was verified and kept.',
  /** The list goes on further down. */
  more: (n: number) => `Show more: ${n} to come`,
  practise: 'Start with a practice run',
};
