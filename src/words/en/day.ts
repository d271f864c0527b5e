/** Words of the day's list on the start page. */
export const DAY = {
  today: 'Today',
  /** Over the page once it is in use. */
  head: (date: string) => `Today, ${date}`,
  count: (done: number, all: number) => (all === 0 ? 'No repair planned' : `${done} of ${all} done`),
  none: 'Nothing is planned for today. A job sheet dated today stands here, and so does whatever is run today.',
  others: 'Other job sheets',
  moreSheets: (n: number) => `Show all ${n}`,
  states: {
    planned: 'Planned',
    'left-open': 'Not closed',
    running: 'Running',
    'cure-reached': 'Cure time reached',
    ended: 'Ended',
    sealed: 'Sealed',
    sent: 'Sent',
  },
  /** The key that leads on from each state. */
  next: {
    planned: 'Go live',
    'left-open': 'Resume',
    running: 'To the live run',
    'cure-reached': 'To the live run',
    ended: 'Review and seal',
    sealed: 'Send the record file',
    sent: 'Look at the run',
  },
  again: 'Same again',
  more: 'More',
  moreOf: (title: string) => `More for ${title}`,
  up: 'Up',
  down: 'Down',
  notToday: 'Not today',
  toToday: 'To today',
  taken: (title: string) => `${title} is no longer on today’s list.`,
  remove: 'Remove',
  removed: (title: string) => `${title} was removed.`,
};
