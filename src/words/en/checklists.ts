import type { Wants } from '../../job/checklist.ts';

/** Words of the editor of checklists. */
export const CHECKLIST = {
  one: 'Checklist',
  none: 'None of your own: job sheets take the built-in list. New makes a copy of it in your words.',
  head: 'The list',
  text: 'Begins as a copy of the built-in list. A job sheet takes the list as it stands that day and keeps it: what you change here changes no job and no record.',
  name: 'Name',
  inUse: 'New job sheets take it',
  items: 'Items',
  itemsText:
    'Each is asked at its moment and not before. A safety item is asked before the key leads on; the crew can go on without it for a reason, which stands on the certificate.',
  itemText: 'What is looked at',
  at: 'Asked',
  safety: 'Safety item',
  wants: 'Answer',
  unit: 'Unit of the number',
  noText: 'No words yet',
  add: (moment: string) => `Add an item: ${moment}`,
  up: (item: string) => `Earlier: ${item}`,
  down: (item: string) => `Later: ${item}`,
  remove: 'Remove this item',
  removed: (item: string) => `Removed: ${item}`,
  empty: 'No item is left. Add one, or begin again with the built-in list.',
  beginAgain: 'Begin again with the built-in list',
  full: (most: number) => `${most} items, which is as many as a list may have.`,
  saveFile: 'Save as a file',
  openFile: 'Open a file',
  fileTooLarge: 'The file is no checklist: it is too large. Nothing here was changed.',
  fileRefused: (why: string) => `The file is no checklist: ${why} Nothing here was changed.`,
  fileTaken: 'Taken over. Look through it, then save.',
  fileTamed: (n: number) =>
    n === 1
      ? 'Taken over; marks of another program were taken out of one text. Look through it, then save.'
      : `Taken over; marks of another program were taken out of ${n} texts. Look through them, then save.`,
};

/** What an answer is, beside the tick. */
export const WANTS: Record<Wants, string> = {
  tick: 'A tick',
  number: 'A tick and a number',
  text: 'A tick and a few words',
};
