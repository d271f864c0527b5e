import type { Advice } from './link.ts';

/** What happened and what to do, for refusals that only the evidence worker has. */
export const EVIDENCE_ERROR: Record<
  | 'practice'
  | 'open'
  | 'unreadable'
  | 'sealed'
  | 'not-sealed'
  | 'key-missing'
  | 'too-large'
  | 'language-future'
  | 'not-a-backup'
  | 'backup-damaged'
  | 'backup-future'
  | 'reason-needed'
  | 'cancelled',
  Advice
> = {
  practice: { title: 'Practice run', todo: 'A practice run is never sealed as a job.' },
  open: { title: 'The run has no end', todo: 'End it, or close it as interrupted, then seal it.' },
  unreadable: {
    title: 'The record is not readable',
    todo: 'Its first block is damaged: it cannot be sealed.',
  },
  sealed: { title: 'Sealed already', todo: 'What must be corrected is added, signed.' },
  'not-sealed': { title: 'Not sealed', todo: 'Seal the record first.' },
  'key-missing': {
    title: 'This browser has no Ed25519',
    todo: 'Use a newer browser, or check the file by hand as its CHECK.txt says.',
  },
  'too-large': { title: 'The file is too large', todo: 'No file of this program is that large.' },
  'language-future': {
    title: 'The record’s papers are in a language that is not here',
    todo: 'Update this program to see them. The record itself is not touched by this.',
  },
  'not-a-backup': { title: 'Not a backup', todo: 'Choose a file that this page made. Nothing was changed.' },
  'backup-damaged': {
    title: 'The backup is damaged',
    todo: 'It was cut short or changed. Fetch it again, or use an older one. Nothing was changed.',
  },
  'backup-future': {
    title: 'The backup is of a later version',
    todo: 'Update this program, then restore. Nothing was changed.',
  },
  'reason-needed': {
    title: 'A reason is needed',
    todo: 'This record has exceptions: write why it is accepted all the same. Nothing was decided yet.',
  },
  cancelled: { title: 'Cancelled', todo: 'Nothing was changed.' },
};
