/** Words of the list of jobs and of opening a sheet file. */
export const JOBS = {
  title: 'Jobs',
  back: 'Back',
  start: 'Start a live run',
  backToLive: 'Back to the live run',
  newJob: 'New job sheet',
  same: 'Same as the last one',
  sheets: 'Job sheets',
  noSheets:
    'No job sheets yet. A run can be started without one and the job sheet filled in during the cure.',
  openTitle: 'A run was not closed',
  maybeFull: 'A packer may be full.',
  maybeFullAt: (pressure: string, when: string) =>
    `The packer may be full: last seen at ${pressure} at ${when}.`,
  notSeenEmpty: (pressure: string, when: string) =>
    `The packer was not seen empty: its line was last at ${pressure} at ${when}.`,
  leftTodo:
    'Keep clear of the pipe, look at the dial gauge, let it down and see it empty before anything is coupled or opened.',
  saidEmpty: 'I have seen it empty',
  /** The word stands against what is read. */
  lineReads: (pressure: string) =>
    `The line reads ${pressure}. Look at the dial gauge again: is the packer empty all the same?`,
  emptyAllTheSame: 'Seen empty, the reading is wrong',
  notSure: 'Back, it may be full',
  /** Under a key that is to be held. */
  hold: 'press and hold',
  seeLeft: 'See',
  maybeFullTodo:
    'Shut the supply valve, keep clear of the pipe, watch the dial gauge, and resume the run that was not closed.',
  connectResume: 'Connect and resume',
  openText:
    'The program or the computer stopped while this run was recording. Everything up to the last half second is kept.',
  reconnecting: {
    trying: 'Connecting by itself to the port that it was read from. The run goes on only when you press.',
    failed: 'Connecting by itself did not work. Nothing is read: see the cable, then press.',
  },
  resume: 'Resume',
  resumeRun: (title: string, date: string) => `Resume: ${title}, ${date}`,
  resumeText: 'Connect the same device; the missing time is marked as a gap.',
  closeInterrupted: 'Close as interrupted',
  closeTitle: 'Close this run as interrupted?',
  closeText: 'The trace is kept and marked as interrupted. It cannot be resumed afterwards.',
  storageKept: 'The browser keeps the records of this page.',
  storageNotKept:
    'The browser may clear the records of this page when the disk runs full. Make a backup (Settings).',
  filesFault: 'Nothing can be recorded.',
  documentsFault:
    'Jobs, packers, resins and sensors that were saved here are not seen, and what is entered now is lost when this page closes. The watch works.',
  storageRoom: (free: string) => `${free} free.`,
  /** @param why a sentence of the first fault; null: nothing is known of it */
  fileRefused: (field: string, why: string | null) =>
    [
      'This file is no sheet file that can be read.',
      ...(why === null ? [] : [field === '' ? why : `${field}: ${why}`]),
    ].join(' '),
  fileKept: 'Added. Entries already here are unchanged.',
  newTitle: 'New job',
  stateOpen: 'open',
  stateInterrupted: 'interrupted',
  practiceTag: 'practice',
  peak: (pressure: string) => `peak ${pressure}`,
  gaps: (n: number) => (n === 1 ? '1 gap' : `${n} gaps`),
  alarms: (n: number) => (n === 1 ? '1 alarm' : `${n} alarms`),
  refused: (n: number) =>
    n === 1
      ? 'One document could not be read and is left untouched.'
      : `${n} documents could not be read and are left untouched.`,
  removeTitle: 'Remove this job sheet?',
  removeText: 'Runs recorded with it are kept.',
  removed: 'Removed.',
};
