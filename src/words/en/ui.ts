/** Words of the screens and controls that stand for themselves. */
export const UI = {
  app: 'Steadybar',
  /** Between a name and its value. */
  colon: ':',
  skip: 'Skip to the page',
  jobs: 'Jobs',
  live: 'Live',
  archive: 'Archive',
  settings: 'Settings',
  about: 'About',
  mainNav: 'Pages',
  menu: 'Menu',
  /** The sheet of paper, and the way to it. */
  card: 'Tailgate card',
  /** Of the '?' beside what it is about. */
  helpOn: (what: string) => `Help: ${what}`,
  standingMarks: 'Standing marks',

  // values
  pressure: 'Pressure',
  temperature: 'Temperature',
  rated: 'Rated',
  ceiling: 'Ceiling',
  working: 'Working',
  floor: 'Hold floor',
  lines: 'Curves of the trace',
  notKnown: 'not known',
  oldReading: 'Old reading',
  oldReadingOf: (age: string) => `Old reading, ${age}`,
  lostReading: 'Reading lost.',
  noReading: 'No reading',
  overRange: (end: string) => `OVER ${end}`,
  ladder: (now: string, ceiling: string, rated: string) =>
    `Pressure ${now}. Ceiling ${ceiling}. Rated ${rated}.`,
  ladderNoLimit: (now: string) => `Pressure ${now}. No limit: no over-pressure warning`,

  // alarms
  /** @param detail what the program says of it, for whoever mends it; often empty */
  failed: (title: string, todo: string, detail: string) =>
    detail === '' ? `${title}. ${todo}` : `${title}. ${todo} (${detail})`,
  noAlarms: 'No alarms.',
  notLive: 'Not connected: no alarms.',
  acknowledge: 'Acknowledge',
  shelve: 'Put aside',
  shelveText:
    'It stays silent for ten minutes and is then raised again if it still holds. The reason is recorded.',
  engineSilent: 'The watch has stopped answering',
  engineSilentVerb: ['WATCH', 'THE GAUGE'],
  engineSilentTodo:
    'Nothing on this screen is live. Watch the dial gauge, keep clear, then reload this page.',
  reload: 'Reload this page',
  pageFailed: 'This page failed',
  pageFailedTodo:
    'The watch goes on and alarms still sound, but watch the dial gauge. Try again, or reload: an open run is offered again.',

  pageFault: 'Part of this page could not be drawn',
  pageFaultTodo:
    'The watch goes on and alarms still sound, but numbers here may be old. Watch the dial gauge, then reload.',
  pageFaultSeen: 'Seen',

  // buttons
  cancel: 'Cancel',
  save: 'Save',
  saved: 'Saved',
  remove: 'Remove',
  back: 'Back',
  undo: 'Undo',
  close: 'Close',
  retry: 'Try again',

  // data on their way
  update: 'A new version is ready.',
  updateNow: 'Restart with the new version',
  loading: 'Loading',
  noAnswer:
    'The stored data do not answer. The live page is not touched by this. Try again; if it stays like this, reload.',

  // stages
  stages: 'Stages',

  // second screen
  far: {
    title: 'Pressure, second screen',
    noData: 'NO DATA',
    twoPages: 'TWO PAGES: CLOSE ONE',
    note: 'Told by the page that watches. No alarm is shown here.',
    units: { bar: 'bar', kPa: 'kPa', psi: 'psi' },
  },

  // practice
  practiceWord: 'PRACTICE',
  practiceBanner: 'PRACTICE. Nothing here is a real line.',
};
