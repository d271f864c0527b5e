import type { Finding, Remark, Verdict } from '../../record/findings.ts';
import type { ApartFrom, Reservations } from '../../record/reservations.ts';
import type { Format } from '../create-format.ts';
import {
  ADDITION,
  BESIDE_BY_MAP,
  CLOCK_APART,
  CLOCK_BACK,
  CONTAINER,
  ENTRIES,
  MANIFEST,
  NOT_JUDGED,
  PAGE,
  PAPERS_APART,
  PROOF,
  READ_BY_MAP,
  TERM,
} from './finding-parts.ts';

/** Words of sealing, verifying and keys. */
const THIS_BROWSER = 'this browser';
const UNKNOWN_KEY = 'a key that is not known here';

const EVIDENCE = {
  // seal
  sealTitle: 'Seal',
  sealWhat:
    'Sealing signs this record with the computer’s key. From then on nothing in it can be changed without being found. Check the job sheet first: packer, resin, batches and sensors are sealed as they are now.',
  seal: 'Seal this record',
  sealAsk: 'Seal this record?',
  sealAskText:
    'Trace, events and the job sheet as it is now are signed. Nothing is rewritten afterwards; corrections are signed additions.',
  sealing: 'Sealing',
  practiceWhat:
    'Sealing makes a practice record with a practice certificate. It verifies as a practice record and never as a job.',
  practiceSeal: 'Seal as practice record',
  practiceFile: 'Save the practice record',
  practiceCertificate: 'Practice certificate',
  practiceFileWhat: 'Goes to no client and into no shared folder.',
  openFirst: 'The run has no end yet. End it, or close it as interrupted, before it is sealed.',
  sealedAt: 'Sealed',
  sealedBy: (date: string, who: string) => `Sealed ${date} by ${who}`,
  key: 'Key',
  keyOf: (who: string) => `Key (${who})`,
  file: 'Save the record file',
  fileWhat:
    'One file for the client: trace, events, certificate, and how to check them by hand with openssl and sha256sum.',
  building: 'Building the file',
  certificate: 'Certificate',
  newFirst:
    'A signing key was made on this computer. Give its fingerprint to the firm: by it others tell that records are yours.',
  newAfterLoss:
    'The earlier signing key of this computer is gone, so a new one was made. Others see a new signer: tell the firm its fingerprint.',

  // additions
  additions: 'Signed additions',
  additionsSay: 'What was added to it',
  noAdditions: 'None. What must be corrected is added here, with initials; the sealed record stays as it is.',
  addTitle: 'Add to the sealed record',
  addKind: 'What it is',
  kinds: { correction: 'Correction', note: 'Note' },
  addText: 'Text',
  addBy: 'Initials',
  add: 'Sign and add',
  status: 'Status',

  // review status
  reviewTitle: 'Decision',
  statuses: { open: 'No decision', released: 'Accepted', rejected: 'Rejected' },
  statusNote: 'The decision stays in this browser, beside the record. It changes nothing in it.',
  release: 'Accept',
  reject: 'Reject',
  reopen: 'Open again',
  reason: 'Reason',
  reasonNeeded: 'A rejection needs its reason.',
  acceptReasonNeeded: 'This record has exceptions: write why it is accepted all the same.',
  reviewer: 'Name',
  nameNeeded: 'Whoever decides gives a name.',
  history: 'Earlier',

  // judge again
  judge: 'Judge again with today’s engine',
  judging: 'Judging …',
  judgedSame: (n: number) => `All ${n} events are the same.`,
  judgedWhat: 'The sealed record stands. This shows what today’s engine says otherwise of the same input.',
  judgedRecorded: 'This shows what today’s engine says otherwise of the same input.',
  gone: 'Only in the record',
  fresh: 'Only found now',
  engines: (then: number, now: number) => `Recorded by engine ${then}, judged again by engine ${now}.`,

  // exports
  exportTitle: 'Export',
  savePicture: 'Picture (SVG)',
  savePng: 'Picture (PNG)',
  saveData: 'Visible data (CSV)',

  // keys
  keyTitle: 'Signing key of this computer',
  keyNone: 'No key yet. One is made when the first record is sealed.',
  keyLost:
    'The key that signed here is gone (storage cleared, or another computer’s backup). The next sealing makes a new one, and others see a new signer. Records signed before stay as good as they were.',
  keyReady: 'Give this fingerprint to the firm. The key itself never leaves the computer.',
  fingerprintSince: (date: string) => `Fingerprint, since ${date}`,
  knownSince: (name: string, date: string) => `${name}, since ${date}`,
  keyChange: 'Change the key',
  keyChangeAsk: 'Change the signing key?',
  keyChangeText:
    'A new key signs from now on, and the present one vouches for it. Others see a new signer: tell the firm the new fingerprint.',
  keyBefore: 'Earlier keys',
  lost: 'lost; nothing but the firm vouches for the next',
  changed: 'changed; it vouches for the next',
  knownTitle: 'Known keys',
  knownText:
    'Records signed by these keys are valid here. A key is only as good as the way its fingerprint came.',
  knownNone: 'None yet.',
  fingerprint: 'Fingerprint',
  owner: 'Whose it is',
  know: 'Add to the known keys',
  term: {
    open: 'When it counts',
    title: (name: string) => `When the key of ${name} counts`,
    from: 'Counts from the day',
    until: 'Counts to the end of the day',
    revoked: 'Revoked from the day on: in other hands',
    what: 'What it signed while it counted stays valid. To forget a key is another thing: then nothing that it signed counts. Who holds a key can sign with any date, so compare late records with a witness.',
    save: 'Save',
    wrong: 'The last day is before the first.',
    replace: 'Another key takes its place now',
    replaceBy: 'Fingerprint of the new key',
    fromThe: (date: string) => `Counts from ${date}.`,
    untilThe: (date: string) => `Counts until ${date}.`,
    revokedThe: (date: string) => `Revoked from ${date} on.`,
    replaced: 'Another key signs in its place.',
  },
  forget: 'Remove',
  badFingerprint: 'A fingerprint has 64 letters a to f and digits.',

  // verify
  verifyTitle: 'Verify a file',
  verifyLead:
    'A record file, or the packet that it came in, is verified byte by byte in this browser. Nothing is sent.',
  choose: 'Choose a file',
  drop: 'or drop it here',
  inPacket: (packet: string, record: string) =>
    `This is about the record file ${record} in the packet ${packet}. Of the copies beside it, certificate and photographs, it says nothing.`,
  checking: 'Verifying',
  FIRST: {
    valid: 'So far: signed by a known key; trace, chain and witness log hold.',
    'unknown-signer': 'So far: trace, chain and witness log hold, signed by a key that is not known here.',
    'not-derived': 'So far: signed by a known key; trace, chain and witness log hold.',
    changed: 'CHANGED: signature, trace, chain or witness log do not hold.',
    incomplete: 'So far: a part of the record is missing.',
    refused: 'This is no record that can be verified here.',
    practice: 'PRACTICE RECORD: recorded on the practice rig, no record of a job.',
  },
  firstRest: 'The other files are being made again.',
  cancelled:
    'Cancelled. Nothing is said of this file, and nothing of it was kept. Choose it again to check it.',
  expected: 'Fingerprint that the certificate has',
  expectedHint:
    'The 64 signs at the foot of its first page, or filled in by its code. Without one, any sealed record is taken for itself.',
  expectedNone: 'A fingerprint has 64 signs, 0 to 9 and a to f.',
  expectedSame: 'The same fingerprint: this is the record of that certificate.',
  expectedOther:
    'ANOTHER FINGERPRINT: this file is not the record of that certificate, whatever else is said of it here.',
  findings: 'What was found',
  remarks: 'Good to know',
  openRecord: 'Open',
  keep: 'Keep in the archive',
  kept: 'Kept in the archive.',
  alreadyKept: 'It is in the archive already.',
  others: (n: number) => `${n === 1 ? 'Another file' : `${n} other files`} of the same run stay beside it.`,
  recorded: 'Recorded',
  samples: 'Readings',
  readOnly: 'File from elsewhere: nothing in it can be changed here.',
  changedNote: 'This file is not the record that was signed. What it shows proves nothing.',
  unknownNote: 'Signed by a key that is not known here. Ask the firm whose key this is.',

  // certificate
  print: 'Print or save as PDF',
  saveHtml: 'Save as a page (HTML)',
  certificateLanguage: 'Language of the certificate',
  /** @param language of the one that was sealed, its name in itself */
  certificateCopy: (language: string) => `A copy for reading. The sealed certificate: ${language}.`,
};

const VERDICT: Record<Verdict, { readonly word: string; readonly means: string }> = {
  valid: { word: 'Valid', means: 'Signed by a known key, and every byte is as it was signed.' },
  changed: { word: 'Changed', means: 'This is not the record that was signed. Do not use it as proof.' },
  refused: { word: 'Refused', means: 'This is no record that can be verified here.' },
  'unknown-signer': {
    word: 'Unknown signer',
    means:
      'Whole and unchanged; it, or an addition to it, is signed by a key that is not known here, or not for that time.',
  },
  'not-derived': {
    word: 'Not derived again',
    means:
      'Signed by a known key, and every byte is as it was signed. Whether what it says follows from its readings was not shown here.',
  },
  incomplete: { word: 'Incomplete', means: 'A part of the record is missing.' },
  practice: {
    word: 'Practice record',
    means: 'Recorded on the practice rig. It is no record of a job, whoever signed it.',
  },
};

const witnessOf = (name: string | null): string =>
  name === null
    ? 'a witness that is not known here'
    : name === ''
      ? 'this browser itself'
      : `the witness ${name}`;

/** What a good verdict does not vouch for, a sentence each. */
const APART_FROM: Record<ApartFrom, string> = {
  clock: 'Clocks disagree: see below for which, and by how much.',
  device: 'What the device said of itself disagrees with the Setup: see below.',
  papers: 'The papers are not those that the run was judged by: see below for which.',
};

const reservedText = ({ unjudged, failed, otherwise, notMade, apart }: Reservations): readonly string[] =>
  [
    failed
      ? 'Deriving broke off: either the record holds what can’t be followed, or this program has a fault. Nothing is said either way.'
      : '',
    unjudged ? 'Judgements were not derived again: they are the word of whoever signed.' : '',
    otherwise.length === 0
      ? ''
      : `As it was signed, and not what this version makes of the record: ${otherwise.join(', ')}.`,
    notMade.length === 0
      ? ''
      : `Not made again, so that only the signature stands for it: ${notMade.join(', ')}.`,
    ...apart.map((from) => APART_FROM[from]),
  ].filter((t) => t !== '');

export const evidence = (f: Format) => ({
  reservedText,
  EVIDENCE,
  VERDICT,

  /** Whose key it is: null is not known here, empty this browser's own. */
  signerText: (signer: string | null): string =>
    signer === null ? UNKNOWN_KEY : signer === '' ? THIS_BROWSER : signer,

  /** @param firstUs run clock of the first sample: places are told as in the trace, from it on */
  findingText(finding: Finding, firstUs: number): string {
    const at = (us: number): string => f.stopwatch(Math.max(0, us - firstUs) / 1e6);
    const span = (from: number | null, to: number | null): string => {
      const begins = from !== null && from > firstUs;
      const ends = to !== null && to > firstUs;
      if (begins) return ends ? `, from run time ${at(from)} to ${at(to)}` : `, from run time ${at(from)} on`;
      return ends ? `, up to run time ${at(to)}` : ', at the start of the run';
    };
    switch (finding.f) {
      case 'refused':
        return `Not read: ${CONTAINER[finding.why]} (byte ${finding.offset}).`;
      case 'container':
        return `The file around the record: ${CONTAINER[finding.why]} at byte ${finding.offset}${finding.file === null ? '' : `, ${finding.file}`}.`;
      case 'missing':
        return `Missing: ${finding.file}.`;
      case 'strange':
        return `Does not belong to the record: ${finding.file}.`;
      case 'file':
        return `${finding.file} was changed${finding.offset === null ? '' : ` at byte ${finding.offset}`}.`;
      case 'practice':
        return 'It says itself that it is a practice record.';
      case 'manifest':
        return `manifest.json: ${MANIFEST[finding.why]}.`;
      case 'entries':
        return `Trace: ${ENTRIES[finding.what](finding.count)}; the first in block ${finding.page}, run time ${at(finding.tUs)}.`;
      case 'scale':
        return `The Setup of block ${finding.page} (run time ${at(finding.tUs)}) reads channel ${finding.channel} by another scale than the device gave for it: its pressures or temperatures are not what the sensor said.`;
      case 'translation':
        return `${finding.count} ${finding.count === 1 ? 'reading is' : 'readings are'} not what the reading map makes of what came over the line; the first in block ${finding.page}, run time ${at(finding.tUs)}.`;
      case 'setup':
        if (finding.what === 'uncertainty')
          return `The Setup of block ${finding.page} (run time ${at(finding.tUs)}) takes the reading for surer at the rated pressure than its own sensor and calibration leave it: no plan made it.`;
        return finding.channel === null
          ? `The Setup of block ${finding.page} (run time ${at(finding.tUs)}) has a ceiling over the rated pressure less the uncertainty of the reading, and names no reason for it: no plan made it.`
          : `The Setup of block ${finding.page} (run time ${at(finding.tUs)}) reads channel ${finding.channel} by a gain or an offset that are not those of its own calibration points: no plan made it.`;
      case 'contradiction':
        return `Manifest and trace contradict each other in: ${finding.members.join(', ')}.`;
      case 'pages': {
        const pages =
          finding.pages === 1
            ? finding.page === 0
              ? 'the first block (block 0)'
              : `block ${finding.page}`
            : `blocks ${finding.page} to ${finding.page + finding.pages - 1}`;
        return `Trace: ${pages} ${PAGE[finding.why]}${span(finding.fromUs, finding.toUs)}.`;
      }
      case 'judgement':
        if (finding.moved > 0)
          return `${finding.moved} events of the record stand in another order than they were judged in (${finding.kinds.join(', ')}): of two alike the last one counts.`;
        return `What the record judged does not follow from its readings: ${finding.recorded} of its events are not found again, ${finding.again} others are (${finding.kinds.join(', ')}).`;
      case 'witness':
        return `Witness log: ${PROOF[finding.why]}.`;
      case 'addition':
        return `Addition ${finding.number}: ${ADDITION[finding.why]}.`;
      case 'addition-signer':
        return `Addition ${finding.number} is signed by a key that is ${finding.why === undefined ? 'not among the known ones' : TERM[finding.why]}.`;
      case 'signer':
        return finding.why === undefined
          ? 'The key is not among the known ones.'
          : `The key is ${TERM[finding.why]}.`;
    }
  },

  /** @param firstUs arrival of the first reading on the run clock, µs */
  remarkText(r: Remark, firstUs = 0): string {
    const utc = (ms: number | null): string => (ms === null ? '(not noted)' : f.dateTimeZone(ms));
    const at = (us: number): string => f.stopwatch(Math.max(0, us - firstUs) / 1e6);
    switch (r.r) {
      case 'interrupted':
        return 'The run was interrupted: nobody ended it.';
      case 'resumed':
        return `The run was interrupted and taken up again (${r.times}); the gaps are marked.`;
      case 'damaged-at-sealing':
        return `${r.pages} ${r.pages === 1 ? 'block was' : 'blocks were'} damaged on the computer before the record was sealed.`;
      case 'no-job':
        return 'No job sheet belongs to this run.';
      case 'not-logged':
        return 'It is noted in no witness log: that it was opened when it says rests on the computer’s word alone.';
      case 'logged':
        return `Noted in the computer’s witness log (${r.origin}) by the computer’s clock: opened ${utc(r.openedUtcMs)}, ended ${utc(r.endedUtcMs)}, sealed ${utc(r.sealedUtcMs)}; between them the head of the chain ${r.heads} ${r.heads === 1 ? 'time' : 'times'}.`;
      case 'no-witness':
        return 'Nobody else has seen that log yet: no witness bounds when it was written. A photograph of its code does, or the office.';
      case 'bounded':
        if (r.fingerprint === null)
          return `Sealed before ${utc(r.utcMs)}: a time stamp says so. Its signature is checked with openssl ts -verify, not here.`;
        return r.side === 'not-before'
          ? `Opened after ${utc(r.utcMs)}: a checkpoint that ${witnessOf(r.name)} signed then is in the log before it.`
          : `Sealed before ${utc(r.utcMs)}: ${witnessOf(r.name)} signed the log then, with this record in it.`;
      case 'additions':
        return `${r.count} signed ${r.count === 1 ? 'addition' : 'additions'}.`;
      case 'no-sums':
        return 'No signed sums: the other files were made again and compared.';
      case 'states-apart':
        return r.count === 1
          ? `A state of the program that is kept in block ${r.page} (run time ${at(r.tUs)}) is not what the readings lead to. It was not used: the run was judged on from before it.`
          : `${r.count} states of the program that are kept in the record, the first in block ${r.page} (run time ${at(r.tUs)}), are not what the readings lead to. They were not used: the run was judged on from before them.`;
      case 'derived-otherwise':
        return `${r.file} is as it was signed; this version would make it otherwise.`;
      case 'not-judged':
        return r.page === undefined
          ? `Judgements not derived again: ${NOT_JUDGED[r.why]}.`
          : `Judgements not derived again, from block ${r.page} on: ${NOT_JUDGED[r.why]}.`;
      case 'not-derived':
        return r.failed
          ? `${r.file} is as it was signed; making it again broke off. Either the record holds what can’t be followed, or this program has a fault.`
          : `${r.file} is as it was signed; it was not made again here.`;
      case 'clock-back':
        return `${CLOCK_BACK[r.what](r.at, r.times)}, by ${f.duration(r.seconds)}. The computer’s clock was set, or a time is not true.`;
      case 'clock-apart':
        return `${CLOCK_APART[r.what]}: ${f.duration(r.seconds)} apart${r.tUs === undefined ? '' : `, at run time ${at(r.tUs)}`}. A clock was wrong, or a time is not true.`;
      case 'gaps':
        return `Readings are missing: ${r.count} ${r.count === 1 ? 'gap' : 'gaps'} of a second or more, the longest of ${f.duration(r.seconds)} up to run time ${at(r.tUs)}.`;
      case 'read-by-map':
        return r.beside ? BESIDE_BY_MAP[r.map] : READ_BY_MAP[r.map];
      case 'device-limit':
        return `The device guarded ${f.quantity('pressure', r.deviceBar)}, and the Setup’s ceiling is ${f.quantity('pressure', r.ceilingBar)}: it was told another limit, or took no higher one.`;
      case 'device-counts':
        return `The device guarded ${r.counts} counts as ${f.quantity('pressure', r.mbar / 1000)}, ${r.lines} ${r.lines === 1 ? 'time' : 'times'}; by the Setup these are ${r.expected} counts. It was told its limit by another scale or calibration than the Setup names.`;
      case 'papers-apart':
        return `The papers that were sealed with it are not those that the run was judged by: ${r.what.map((w) => PAPERS_APART[w]).join(', ')}.`;
      case 'key-followed':
        return `The key followed another one that was ${r.reason}; the other ${r.endorsed ? 'vouches' : 'does not vouch'} for it.`;
    }
  },

  progressText: (what: string, share: number): string =>
    share <= 0 ? `${what} …` : `${what} … ${Math.round(share * 100)} %`,

  holdLine: (inBandS: number | null, holdS: number | null, floorKnown: boolean): string =>
    inBandS === null || holdS === null
      ? '–'
      : `${f.duration(inBandS)} of ${f.duration(holdS)}${floorKnown ? '' : ' (hold floor not known)'}`,
});
