import type { Advice } from './link.ts';

/** What happened and what to do, for refusals that only the evidence worker has. */
export const EVIDENCE_ERROR: Record<
  'practice' | 'open' | 'unreadable' | 'sealed' | 'not-sealed' | 'key-missing' | 'too-large',
  Advice
> = {
  practice: { title: 'Practice run', todo: 'A practice run is never sealed as a job.' },
  open: { title: 'The run has no end', todo: 'End it, or close it as interrupted, then seal it.' },
  unreadable: {
    title: 'The record is not readable',
    todo: 'Its first page is damaged: it cannot be sealed.',
  },
  sealed: { title: 'Sealed already', todo: 'What must be corrected is added, signed.' },
  'not-sealed': { title: 'Not sealed', todo: 'Seal the record first.' },
  'key-missing': {
    title: 'This browser has no Ed25519',
    todo: 'Use a newer browser, or check the file by hand as its CHECK.txt says.',
  },
  'too-large': { title: 'The file is too large', todo: 'No job’s file is that large.' },
};
