import type { MapKind } from '../../job/reading-map.ts';
import type { Finding, Remark, Verdict } from '../../record/findings.ts';
import type { ApartFrom, Reservations } from '../../record/reservations.ts';
import type { Format } from '../create-format.ts';
import { answerClock } from '../said/figures.ts';

/** Words of the commands: usage, faults of what was given, and what they print. */

/** Bad input: one line each that says what and where. */
export const FAULT = {
  internal: 'a fault of the program itself: nothing was found out. Please send on what follows.',
  // options
  unknownOption: (given: string, usage: string) => `unknown option ${given}; ${usage}`,
  needsValue: (option: string, usage: string) => `${option} needs a value; ${usage}`,
  takesNoValue: (option: string, usage: string) => `${option} takes no value; ${usage}`,
  twice: (option: string) => `${option} is given twice`,
  missing: (option: string, usage: string) => `${option} is missing; ${usage}`,
  oneFile: (usage: string) => `one FILE, please; ${usage}`,
  notAPressure: (option: string, given: string, lo: number, hi: number) =>
    `${option} ${given} is not a pressure of ${lo} to ${hi} bar`,
  notOneOf: (option: string, given: string, choices: string) => `${option} ${given} is not one of ${choices}`,
  needsLimit: (option: string) => `${option} needs --rated or --job`,
  notBelow: (option: string, value: number, rated: number) =>
    `${option} ${value} is not below --rated ${rated}`,
  over: (option: string, value: number, rated: number) => `${option} ${value} lies over --rated ${rated}`,

  // files
  noSuchFile: (name: string) => `${name}: no such file`,
  noSuchFileOrFolder: (name: string) => `${name}: no such file or folder`,
  notAFile: (name: string) => `${name}: not a file`,
  unreadable: (name: string, code: string) => `${name}: cannot be read (${code})`,
  unwritable: (name: string, code: string) => `${name}: cannot be written (${code})`,
  tooLarge: (name: string, bytes: number, most: number) => `${name}: ${bytes} bytes are more than ${most}`,
  emptyFile: 'the file is empty',
  /** @param why another fault */
  inFile: (name: string, why: string) => `${name}: ${why}`,

  // keys
  noFingerprint: (given: string) => `--key ${given}: no fingerprint`,
  noKey: (given: string) => `--key ${given}: neither a fingerprint nor a file with an Ed25519 public key`,
  noFingerprintInRow: (list: string, row: number) => `--keys ${list} row ${row}: no fingerprint`,
  noTermInRow: (list: string, row: number) =>
    `--keys ${list} row ${row}: from=, until= and revoked= take a time of ISO 8601, until after from`,

  // witness log
  oneCheckpoint: (usage: string) => `one checkpoint, and what it is to be compared with; ${usage}`,
  oneStamp: (usage: string) => `request or take, with the file of a checkpoint; ${usage}`,
  needsLogKey: (usage: string) =>
    `--key is missing: the log's key, such as witness/log.pem of a record; ${usage}`,
  noProof: (name: string) => `${name}: it carries no witness log that holds; verify tells why`,
  noLog: (name: string) => `${name}: no saved witness log, which ends with a line`,
  noCheckpoint: (name: string) => `${name}: no checkpoint`,

  // job
  notAJob: (name: string) => `--job ${name}: the file: not a sheet file`,
  job: (name: string, why: string) => `--job ${name}: the file: ${why}`,
  jobEntry: (name: string, entry: string, why: string) => `--job ${name}: ${entry}: ${why}`,
  noRated: 'the job has no rated pressure; give --rated',
  noCeiling: (rated: number, u: number) => `--rated ${rated} leaves no ceiling above zero with U ${u}`,
  workingOver: (working: number, rated: number) => `the working pressure ${working} lies over rated ${rated}`,

  // trace
  damagedLog: (page: number, byte: number, what: string) =>
    `page ${page} (byte ${byte}) of the input log is damaged: ${what}`,
  headlessLog: 'the first page of the input log is not readable',
  noTrace: (why: string) =>
    `neither an input log, nor a CSV with time_s and pressure_bar, nor a capture: ${why}`,
  noHello: 'the capture holds no complete hello, so nothing says what its counts mean; give --job',
  noFrame: 'no frame of the device protocol is in it',
  noSample: 'the capture holds no sample',

  // CSV
  columnTwice: (column: string) => `row 1: column ${column} is there twice`,
  unknownColumn: (column: string, known: string) => `row 1: unknown column ${column}; known are ${known}`,
  columnMissing: (column: string) => `row 1: column ${column} is missing`,
  tooManyTemperatures: (most: number) => `row 1: more than ${most} temperature columns`,
  notANumber: (row: number, what: string, given: string) => `row ${row}: ${what} ${given} is not a number`,
  outside: (row: number, what: string, given: string, lo: number, hi: number) =>
    `row ${row}: ${what} ${given} is outside ${lo} to ${hi}`,
  temperature: 'temperature',
  noRows: 'row 2: no data rows',
  columns: (row: number, n: number, header: number) => `row ${row}: ${n} columns, the header has ${header}`,
  noTime: (row: number) => `row ${row}: time_s is empty`,
  notLater: (row: number, given: string) => `row ${row}: time_s ${given} is not later than the row before`,
  noPressure: 'rows 2 to the end: pressure_bar is empty in every row',
};

export const REPLAY = {
  /** @param what the fault of a cell, with its row */
  unusable: (what: string) => `${what}; judged as a reading that cannot be used`,
  moreUnusable: (cells: number) => `${cells} more cells cannot be used`,
};

export const USAGE = {
  replay:
    'usage: replay --trace FILE [--job JOB.json] [--rated BAR] [--working BAR] [--u BAR] [--line LINE] [--tap TAP] [--out RESULT.json]',
  verify: 'usage: verify FILE [--key FINGERPRINT|KEY.pem[=NAME]]… [--keys LIST] [--quick] [--json]',
  checkpoint:
    'usage: checkpoint CHECKPOINT.txt [RECORD.steadybar.zip|OTHER.txt] [--log LEAVES.txt] [--key LOG.pem]',
  stamp: 'usage: stamp request CHECKPOINT.txt | stamp take CHECKPOINT.txt ANSWER.tsr',
  extract: 'usage: extract --to FOLDER [--key FINGERPRINT=NAME]… FILE|FOLDER…',
};

/** Names of keys that were given without one. */
export const KEYS = { given: 'given key', listed: 'listed key' };

export const EXTRACT = {
  refused: (file: string, why: string) => `refused  ${file}: ${why}`,
  tooLarge: 'too large',
  cannotBeRead: 'what it holds can’t be put into tables',
  badRun: 'the name of its run is no name',
  otherKey: 'another key sealed a record of the same run',
  again: (file: string, run: string) => `again    ${file}: ${run}`,
  taken: (file: string, run: string) => `taken    ${file}: ${run}`,
  takenUnknown: (file: string, run: string) => `taken    ${file}: ${run}, unknown signer`,
  jobs: (n: number, to: string) => `${n} jobs in ${to}`,
  jobsRefused: (n: number, to: string, refused: number) => `${n} jobs in ${to}, ${refused} files refused`,
};

export const LOG = {
  runs: (leaves: number, opened: number, unsealed: number, twice: number) =>
    `the log: ${leaves} leaves, ${opened} runs opened, ${unsealed} of them not sealed, ${twice} sealed more than once`,
  unsealed: (at: string) => `  not sealed: opened ${at}`,
};

export const STAMP = {
  requested: (query: string, text: string) =>
    `${query} is the request: send it to an authority (RFC 3161; curl -H "Content-Type: application/timestamp-query" --data-binary @${query} URL). ${text} is what is stamped.`,
  form: 'no answer of RFC 3161, or not over a SHA-256',
  refused: 'the authority granted no stamp',
  other: 'the stamp is of something else than this checkpoint',
  notAsked: 'the answer is not for this request: its nonce is another',
  taken: (at: string, text: string, answer: string) =>
    `stamped ${at}, as the answer says. Its signature: openssl ts -verify -data ${text} -in ${answer} -CAfile THEIRS.pem. The app takes it in under Witness log.`,
};

const APART_FROM: Readonly<Record<ApartFrom, string>> = {
  clock: 'clocks disagree',
  device: 'the device’s own lines disagree with the Setup',
  papers: 'the papers disagree with the Setup',
};

const HEADLINE: Readonly<Record<Verdict, string>> = {
  valid: 'VALID: signed by a known key, and every byte is as it was signed',
  changed: 'CHANGED: this is not the record that was signed',
  refused: 'REFUSED: this is no record that can be checked here',
  'unknown-signer':
    'UNKNOWN SIGNER: whole and unchanged; it, or an addition to it, is signed by a key that is not known here',
  'not-derived':
    'NOT DERIVED AGAIN: signed by a known key, and every byte is as it was signed; whether what it says follows from its readings was not shown',
  incomplete: 'INCOMPLETE: a part of the record is missing',
  practice: 'PRACTICE RECORD: recorded on the practice rig; it is no record of a job, whoever signed it',
};

const READ_BY: Readonly<Record<MapKind, string>> = {
  registers: "read off a bus by a register map; times are the computer's",
  columns: "UNCHECKED LINE, read by a column map; times are the computer's",
};

const PAGE_WHY: Readonly<Record<Extract<Finding, { f: 'pages' }>['why'], string>> = {
  crc: 'changed (CRC)',
  torn: 'cut short',
  missing: 'missing',
  order: 'out of order',
  chain: 'not the one that the next page names (chain)',
  form: 'not readable',
  version: 'of a later version',
  run: 'of another run',
  rewritten: 'made anew, chain and all, somewhere in this span',
  end: 'missing at the end',
  cut: 'missing: the file ends here',
};

/** What the verify command prints. Codes stand as they are: the reader may look them up in docs/record.md. */
export const verifyWords = (f: Format) => {
  const iso = (ms: number | null): string => (ms === null ? 'not noted' : new Date(ms).toISOString());
  return {
    headline: (verdict: Verdict, but: Reservations | null): string =>
      [
        HEADLINE[verdict],
        but?.failed
          ? 'deriving broke off: either the record holds what can’t be followed, or this program has a fault'
          : '',
        but?.unjudged ? 'judgements not derived again' : '',
        but === null || but.otherwise.length === 0
          ? ''
          : `not what this program makes of the record: ${but.otherwise.join(', ')}`,
        but === null || but.notMade.length === 0 ? '' : `not made again: ${but.notMade.join(', ')}`,
        ...(but?.apart ?? []).map((from) => APART_FROM[from]),
      ]
        .filter((t) => t !== '')
        .join('; '),
    progress: (share: number) => `making the trace again, ${f.percent(share)}`,

    /** @param key shows a fingerprint */
    finding(finding: Finding, key: (fingerprint: string) => string): string {
      switch (finding.f) {
        case 'refused':
          return `${finding.why} at byte ${finding.offset}`;
        case 'container':
          return `container: ${finding.why} at byte ${finding.offset}${finding.file === null ? '' : `, ${finding.file}`}`;
        case 'missing':
          return `missing: ${finding.file}`;
        case 'strange':
          return `not of this record: ${finding.file}`;
        case 'file':
          return `changed: ${finding.file}${finding.offset === null ? '' : ` at byte ${finding.offset}`}`;
        case 'practice':
          return 'says itself that it is a practice record';
        case 'manifest':
          return `manifest.json: ${finding.why}`;
        case 'entries':
          return `${finding.count} of kind ${finding.what} not of their form; the first in page ${finding.page}, run time ${answerClock(finding.tUs)}`;
        case 'scale':
          return `the Setup of page ${finding.page}, run time ${answerClock(finding.tUs)}, reads channel ${finding.channel} by another scale than the device gave for it`;
        case 'translation':
          return `${finding.count} samples are not what the reading map makes of the raw bytes beside them; the first in page ${finding.page}, run time ${answerClock(finding.tUs)}`;
        case 'setup':
          return `the Setup of page ${finding.page}, run time ${answerClock(finding.tUs)}, does not follow from itself: ${finding.what}${finding.channel === null ? '' : ` of channel ${finding.channel}`}`;
        case 'contradiction':
          return `manifest and pages contradict each other in: ${finding.members.join(', ')}`;
        case 'pages': {
          const { page, pages, why, fromUs, toUs } = finding;
          const which = pages === 1 ? `page ${page}` : `pages ${page} to ${page + pages - 1}`;
          return `${which}: ${PAGE_WHY[why]}; run time ${answerClock(fromUs)} to ${answerClock(toUs)}`;
        }
        case 'judgement':
          if (finding.moved > 0)
            return `events: ${finding.moved} recorded stand in another order than judging gives (${finding.kinds.join(', ')})`;
          return `events: ${finding.recorded} recorded are not found again, ${finding.again} others are (${finding.kinds.join(', ')})`;
        case 'witness':
          return `witness log: ${finding.why}`;
        case 'addition':
          return `addition ${finding.number}: ${finding.why}`;
        case 'addition-signer':
          return `addition ${finding.number} is by key ${key(finding.fingerprint)}${finding.why === undefined ? '' : `, which does not count for its time: ${finding.why}`}`;
        case 'signer':
          return `key ${key(finding.fingerprint)}${finding.why === undefined ? '' : ` does not count for its time: ${finding.why}`}`;
      }
    },

    note: (text: string) => `note: ${text}`,
    remark(r: Remark, key: (fingerprint: string) => string): string {
      switch (r.r) {
        case 'interrupted':
          return 'the run was interrupted: nobody ended it';
        case 'resumed':
          return `the run was interrupted and taken up again, ${r.times} times; the gaps are marked`;
        case 'damaged-at-sealing':
          return `${r.pages} pages were damaged on the computer before the record was sealed`;
        case 'no-job':
          return 'no job sheet belongs to this run';
        case 'not-logged':
          return 'noted in no witness log';
        case 'logged':
          return `noted in ${r.origin}: opened ${iso(r.openedUtcMs)}, ${r.heads} heads, ended ${iso(r.endedUtcMs)}, sealed ${iso(r.sealedUtcMs)} by its clock; trees of ${r.before} and ${r.after} leaves`;
        case 'no-witness':
          return 'no witness: nobody but the computer bounds when';
        case 'bounded': {
          const who =
            r.fingerprint === null
              ? 'a time stamp (its signature: openssl ts -verify)'
              : r.name === null
                ? `a witness that is not known here, key ${key(r.fingerprint)}`
                : `the witness ${r.name}, key ${key(r.fingerprint)}`;
          return r.side === 'not-before'
            ? `opened after ${iso(r.utcMs)}, by ${who}`
            : `sealed before ${iso(r.utcMs)}, by ${who}`;
        }
        case 'additions':
          return `${r.count} signed additions`;
        case 'no-sums':
          return 'no signed sums: the derived files were made again and compared';
        case 'states-apart':
          return r.count === 1
            ? `a state of the engine does not follow from the pages before, and was not used; in page ${r.page}, run time ${answerClock(r.tUs)}`
            : `${r.count} states of the engine do not follow from the pages before, and were not used; the first in page ${r.page}, run time ${answerClock(r.tUs)}`;
        case 'derived-otherwise':
          return `${r.file} is as signed; this program would make it otherwise`;
        case 'not-judged':
          return `judgements not derived again (${r.why}${r.page === undefined ? '' : `, in page ${r.page}`})`;
        case 'not-derived':
          return `${r.file} is as signed; ${r.failed ? 'making it again broke off' : 'it was not made again here'}`;
        case 'clock-back':
          return `the clock ran back: ${r.what}${r.at === 0 ? '' : ` ${r.at}`}${r.times === 1 ? '' : `, ${r.times} times`}, by ${Math.round(r.seconds)} s`;
        case 'clock-apart':
          return `clocks disagree: ${r.what}, by ${Math.round(r.seconds)} s${r.tUs === undefined ? '' : ` at run time ${answerClock(r.tUs)}`}`;
        case 'gaps':
          return `gaps in the readings: ${r.count}, the longest of ${Math.round(r.seconds)} s until run time ${answerClock(r.tUs)}`;
        case 'read-by-map':
          return `${r.beside ? 'temperatures of the second adapter ' : ''}${READ_BY[r.map]}; the source has no ${r.lacks.join(', no ')}`;
        case 'device-limit':
          return `the device guarded ${r.deviceBar.toFixed(3)} bar, the Setup's ceiling is ${r.ceilingBar.toFixed(3)} bar`;
        case 'device-counts':
          return `the device guarded ${r.counts} counts as ${r.mbar} mbar, ${r.lines} times; by the Setup these are ${r.expected} counts`;
        case 'papers-apart':
          return `the papers sealed with it are not those of the Setups: ${r.what.join(', ')}`;
        case 'key-followed':
          return `the key follows key ${key(r.fingerprint)} (${r.reason}), ${r.endorsed ? 'which vouches for it' : 'which does not vouch for it'}`;
      }
    },

    run: (run: string, job: string | null) => `run ${run}, job ${job ?? 'none'}`,
    recorded: (from: string | null, to: string | null) =>
      `recorded ${from ?? 'not known'} to ${to ?? 'not known'} by the computer's clock`,
    sealed: (samples: number, pages: number, when: string) =>
      `${samples} samples in ${pages} pages; sealed ${when}`,
    key: (key: string) => `key ${key}`,
    keyKnown: (key: string, name: string) => `key ${key}, known as ${name}`,
  };
};
