import type { Comparison } from '../../record/witness/compare.ts';
import type { SeenOutcome, TakeOutcome } from '../../record/witness/exchange.ts';

/** Words of the witness log: what is noted, who has seen it, and how a code is compared with a file. */
export const WITNESS = {
  title: 'Witness log',
  lead: 'This computer notes each run when it opens, every five minutes and when it ends, each sealing and each addition, in a log that only grows. Its newest checkpoint stands for all of it: whoever has seen one can tell later whether anything was left out or exchanged.',
  link: 'Witness log',
  code: 'Checkpoint',
  codeLead:
    'Let the client photograph this code at the start and at the end of the run. The photograph is a witness: its date bounds when the log was written.',
  line: (entries: string, short: string) => `Checkpoint of the witness log: ${entries}, ${short}`,
  lineDay:
    'The first of the day, before a run is opened: let the client photograph this code. What was noted up to here can’t be exchanged any more without its showing against the photograph.',
  lineEnded:
    'The run has ended and is noted: let the client photograph this code. Against the photograph it shows later whether this run, as it stands now, was exchanged or left out.',
  lineSealed:
    'The record is sealed and noted: let the client photograph this code. It was sealed before the photograph was taken, and against the photograph it shows whether another one was sealed in its place.',
  codeLabel: 'QR code with the signed checkpoint of the witness log',
  asText: 'The same as text',
  leaves: (n: number) => (n === 1 ? '1 entry' : `${n} entries`),
  refresh: 'Newest checkpoint',
  save: 'Save the log',
  saveNote:
    'The log holds times and hashes, no names. Whoever has it and two checkpoints can check every entry between them.',
  unsealed: 'Opened and not sealed',
  unsealedNone: 'Every run that was opened is sealed.',
  opened: (when: string) => `opened ${when}`,
  ended: (when: string) => `ended ${when}`,
  notEnded: 'not ended',
  gone: 'A run that is not on this computer any more',
  practice: (n: number) =>
    n === 1
      ? '1 practice run is noted too; it is no work.'
      : `${n} practice runs are noted too; they are no work.`,
  twice: (n: number) =>
    n === 1 ? '1 run was sealed more than once.' : `${n} runs were sealed more than once.`,
  witnesses: 'Who has seen it',
  witnessesNone:
    'Nobody but this computer has seen it yet. A photograph counts too, but only who took it has it.',
  seenBy: (name: string, size: string, when: string) => `${name}: ${size}, ${when}`,
  stampBy: 'A time stamp',
  unknownWitness: 'A witness that is not known here',
  self: 'This browser itself',
  office: 'Through the shared folder',
  officeLead:
    'The checkpoint is laid into the shared folder, and what the office signed there is taken in. The next run then carries it, so that its time is bounded on both sides.',
  exchange: 'Lay the checkpoint there',
  countersign: 'Countersign the others’ checkpoints',
  countersignLead:
    'As the office: signs with the time what continues that which was seen before, and refuses a shorter or another history.',
  asWitness: 'Fingerprint of the key by which this browser countersigns',
  working: 'Looking into the folder',
  report: (published: number | null, taken: number, cosigned: number) =>
    [
      published === null ? 'No new checkpoint to lay there.' : 'The checkpoint was laid there.',
      taken === 0 ? 'Nothing new from witnesses.' : `${taken} new from witnesses.`,
      cosigned === 0 ? '' : `${cosigned} countersigned.`,
    ]
      .filter((t) => t !== '')
      .join(' '),
  refused: 'Refused',
  others: 'Logs that this browser has seen',
  otherLine: (origin: string, size: string, when: string) => `${origin}: ${size}, ${when}`,
  otherRefused: (why: string, when: string) => `Last refused ${when}: ${why}`,
  stamp: 'Time stamp',
  stampLead:
    'npm run stamp makes a request for a checkpoint, which an authority of RFC 3161 answers. Paste the checkpoint and choose the answer (.tsr). Its signature is checked with openssl ts -verify, not here.',
  stampText: 'Checkpoint that was stamped',
  stampFile: 'Choose the answer',
  compare: 'Compare a checkpoint',
  compareLead: 'Paste the text of a photographed code, or of any checkpoint of this log.',
  compareFileLead:
    'Paste the text that a phone reads from a photographed code. It is compared with the witness log that this file carries.',
  compareText: 'Text of the code',
  compareDo: 'Compare',
};

/** What comparing two checkpoints tells. */
export function comparisonText(c: Comparison | null): string {
  if (c === null) return 'The file carries nothing of a witness log, so nothing can be compared with it.';
  switch (c.c) {
    case 'no-checkpoint':
      return 'This is no signed checkpoint. Copy the whole text of the code, from “log.” to its last sign.';
    case 'other-log':
      return `Another computer’s checkpoint: ${c.origin}.`;
    case 'unsigned':
      return 'DIFFERENT: the log never signed this checkpoint. It was changed, or made by somebody else.';
    case 'same-history':
      return SAME[c.holds ?? 'log'];
    case 'another-history':
      return `DIFFERENT: the log signed two histories of ${c.size} entries. Something was exchanged or left out since this checkpoint was made.`;
    case 'shorter':
      return `DIFFERENT: the log now has ${c.now} entries, and this checkpoint was of ${c.size}. What came after was taken away.`;
    case 'not-told':
      return `Not told: nothing here proves how the tree of ${c.size} entries belongs to the other. Save the log on the computer that keeps it and compare with it.`;
  }
}

const SAME: Readonly<Record<'nothing' | 'part' | 'sealed' | 'log', string>> = {
  nothing: 'The same history: the checkpoint is from before the run, and the run was opened after it.',
  part: 'The same history: the checkpoint holds the opening of this run, and what was noted of it until then.',
  sealed: 'The same history: the checkpoint holds this record as it was sealed.',
  log: 'The same history: the log goes on from this checkpoint, and nothing before it was changed.',
};

export const SEEN: Readonly<Record<SeenOutcome, string>> = {
  cosigned: 'countersigned',
  own: 'this browser’s own',
  known: 'seen before',
  form: 'no checkpoint, or not signed by its log',
  shorter: 'SHORTER than what was seen before, and never seen',
  different: 'ANOTHER HISTORY than the one that was seen before',
  'no-proof': 'longer, and nothing proves that it continues what was seen',
};

export const TAKEN: Readonly<Record<TakeOutcome, string>> = {
  taken: 'The time stamp was taken in. Record files that are built from now on carry it.',
  form: 'That is no checkpoint, or no answer for a time stamp.',
  'other-log': 'The checkpoint is another log’s.',
  'another-history': 'The checkpoint is of another history than this log’s.',
  unsigned: 'The checkpoint is not signed.',
  refused: 'The authority granted no stamp.',
  'no-stamp-of': 'The stamp is of something else than this checkpoint.',
};
