import type { Carried, SignedAs } from '../../job/enclosed.ts';
import { OCCASIONS } from './occasions.ts';

/** Photos and signatures by hand beside a job or a run. */
const CARRIED: Record<Carried, string> = {
  place: 'the place',
  person: 'a person’s name',
  time: 'the time',
  device: 'the camera',
  other: 'further notes',
};

export const PHOTOS = {
  title: 'Photos and signatures',
  lead: 'Sealed with the record, on its certificate and in its file. A photo is made smaller here, and what the camera noted beside it (place, name, time) is not kept.',
  leadSealed: 'As they were sealed with the record.',
  none: 'None yet.',
  present: (names: string) => `Crew that day: ${names}`,
  noneSealed: 'None were there when the record was sealed.',
  occasion: 'What it shows',
  occasions: OCCASIONS,
  by: 'Initials',
  note: 'Remark',
  take: 'Take a photo',
  choose: 'Choose photos',
  original: 'Keep the original file too',
  originalText:
    'The original may say where, when and by whom it was taken. Whoever gets the record gets that too.',
  reducing: (n: number, of: number) =>
    of === 1 ? 'Making it smaller' : `Making photo ${n} of ${of} smaller`,
  kept: (n: number) => (n === 1 ? 'Kept.' : `${n} photos kept.`),
  taken: {
    camera: (when: string) => `taken ${when}`,
    file: (when: string) => `file of ${when}`,
  },
  withOriginal: (bytes: string, says: string) =>
    says === '' ? `with its original, ${bytes}` : `with its original, ${bytes}, which says: ${says}`,
  carries: (list: readonly Carried[]) => list.map((c) => CARRIED[c]).join(', '),
  open: (what: string) => `${what}: look at it large`,
  remove: 'Remove',
  removeAsk: 'Remove this photo?',
  removeText: 'It is removed from this browser. There is no way back.',
  gone: 'The photo is not there any more.',
  compare: 'Before and after, side by side',
  left: 'Left',
  right: 'Right',
  close: 'Close',
  addText:
    'A photo or a signature by hand that comes after the sealing is an addition too: signed by itself, small. A photo needs initials.',
  signTitle: 'Sign by hand',
  signLead:
    'With a finger, a pen or the mouse. It shows who stood there; the record itself is sealed by the computer’s key.',
  as: 'For',
  asWhom: { crew: 'the crew', client: 'the client' } satisfies Record<SignedAs, string>,
  signed: { crew: 'For the crew', client: 'Seen by the client' } satisfies Record<SignedAs, string>,
  name: 'Name',
  nameNeeded: 'A signature needs its name.',
  pad: 'Pad to sign on',
  undo: 'Undo the last stroke',
  clear: 'Clear',
  keep: 'Keep this signature',
  blank: 'The pad is empty: sign across it, then keep it.',
  full: 'No room for more strokes. Keep it, or clear the pad.',
  removeSigned: 'Remove this signature',
};

/** The firm's mark and its people. */
export const FIRM = {
  mark: 'Mark of the firm',
  markText:
    'Stands on certificates, beside the firm’s name. SVG, PNG or JPEG, up to 2 MB; it is drawn anew here, small, and nothing else of the file is kept.',
  markChoose: 'Choose the mark',
  markRemove: 'Remove the mark',
  markRemoved: 'Mark removed.',
  refused: {
    large:
      'The file is too large for a mark: up to 2 MB and 8000 pixels a side. Save it smaller, then choose it.',
    unread: 'This is no picture that can be drawn here. Choose an SVG, PNG or JPEG file.',
  },
  far: 'Second screen',
  farText:
    'The pressure and nothing else, in a window of its own for a large display on this computer. It says NO DATA when the page that watches is closed or stops; it shows no alarm.',
  farOpen: 'Open the second screen',
  people: 'People',
  peopleText:
    'Whoever is ticked is here today. It is chosen once a day; their names are sealed with the day’s runs and stand on the certificate, and their initials are offered where something is signed for.',
  nobody: 'Nobody is entered yet.',
  hereToday: 'Who is here today',
  hereText: 'The list stays on this computer. Tomorrow nobody is ticked.',
  initials: 'Initials',
  initialsKnown: 'These initials are taken.',
  name: 'Name',
  addPerson: 'Add this person',
  personRemoved: (initials: string) => `${initials} removed.`,
};
