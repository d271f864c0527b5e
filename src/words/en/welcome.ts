/** Words of the start page: what this is, its doors, and how the ladder is read. */
export const WELCOME = {
  what: 'Steadybar watches the air in the packer until the resin has had its time.',
  lead: 'It reads the pressure on the line, warns before the packer’s rated pressure, counts the cure at the coldest likely spot, and keeps the record.',
  doors: {
    live: 'Connect, packer, zero: three presses',
    back: 'It is being recorded',
    practice: 'Practice rig: the whole job, no device',
    drills: 'Something goes wrong; a goal each, and a debrief',
    sheet: 'Plan the pressure before mixing',
    file: 'A job sheet, or a record to verify',
  },
  practise: 'Practise',
  drills: 'Drills',
  openFile: 'Open a file',
  lastRuns: 'Last runs',
  allRuns: 'All in the archive',
  never:
    'It watches and warns. It is no safety device and no replacement for a relief valve. No warning does not mean safe.',
  empty: 'Nothing recorded yet. Practise once before the first job.',
  /** Read aloud for the two small pictures of a run. */
  picture: (peak: string, rated: string) => `Peak ${peak}, rated ${rated}.`,
  pictureNoLimit: (peak: string) => `Peak ${peak}. No limit was set.`,
  sealed: 'Sealed',
  notSealed: 'Not sealed yet',
  practice: 'Practice',
  overRated: 'Over rated',

  guide: 'How to read the ladder',
  guideLead: 'The same on every live screen, in every stage.',
  guidePicture:
    'A ladder of pressure from zero up to beyond the rated pressure, with its marks named beside it.',
  over: { name: 'Over rated', means: 'a burst can kill' },
  rated: { name: 'Rated', means: 'the packer’s hard stop' },
  ceiling: { name: 'Ceiling', means: 'rated less the doubt of the reading' },
  settles: { name: 'Settles here', means: 'once the valve is shut as told' },
  working: { name: 'Working', means: 'the stage’s aim stands on a solid plate' },
  now: { name: 'Pressure now', means: 'in large digits beside it' },
  floor: { name: 'Hold floor', means: 'under it the sleeve may come off' },
  seat: { name: 'Seat', means: 'first stop: compare the dial gauge' },
};
