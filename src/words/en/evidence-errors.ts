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
  | 'cancelled'
  | 'picture-not-a-picture'
  | 'picture-heic'
  | 'picture-drawing'
  | 'picture-broken'
  | 'picture-large'
  | 'picture-twice'
  | 'picture-sealed'
  | 'picture-unread'
  | 'pictures-full'
  | 'signature-blank',
  Advice
> = {
  practice: { title: 'Practice', todo: 'A practice record goes to no client. Save it as a file.' },
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
  'picture-not-a-picture': {
    title: 'Not a photo',
    todo: 'Choose a JPEG, PNG or WebP file. Nothing was kept.',
  },
  'picture-heic': {
    title: 'A camera’s own format (HEIC)',
    todo: 'Set the camera to JPEG (“most compatible”), or save the photo as JPEG, then choose it. Nothing was kept.',
  },
  'picture-drawing': {
    title: 'A drawing, not a photo',
    todo: 'Choose a JPEG, PNG or WebP file. Nothing was kept.',
  },
  'picture-broken': {
    title: 'The photo cannot be opened',
    todo: 'It is damaged or cut short. Take it again, or copy it from the camera once more. Nothing was kept.',
  },
  'picture-large': {
    title: 'The photo is too large',
    todo: 'Up to 64 MB and 110 megapixels can be taken in. Save it smaller, then choose it. Nothing was kept.',
  },
  'picture-twice': { title: 'This photo is here already', todo: 'It was not taken in twice.' },
  'picture-sealed': {
    title: 'It stands in a sealed record',
    todo: 'It stays as it was sealed. What must be corrected is added, signed.',
  },
  'picture-unread': {
    title: 'This browser cannot reduce photos',
    todo: 'Use a newer version of it. Nothing was kept.',
  },
  'pictures-full': {
    title: 'No more photos for this run',
    todo: 'A record takes 40. Remove one that says the same as another.',
  },
  'signature-blank': {
    title: 'The pad is empty',
    todo: 'Sign with a finger or a pen across the pad, then keep it.',
  },
};
