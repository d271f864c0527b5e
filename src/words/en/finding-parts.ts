/** Parts of what a verification tells: a phrase for each code. */
import type { MapKind } from '../../job/reading-map.ts';
import type { Finding, Remark } from '../../record/findings.ts';
import type { TermFault } from '../../record/key-terms.ts';
import type { AdditionFault } from '../../record/seal.ts';
import type { ProofFault } from '../../record/witness/check-proof.ts';

export const PAGE: Record<Extract<Finding, { f: 'pages' }>['why'], string> = {
  crc: 'changed',
  torn: 'cut short',
  missing: 'missing',
  order: 'out of order',
  chain: 'not the block that the next one names',
  form: 'not readable',
  version: 'of a later version',
  run: 'of another run',
  rewritten: 'made anew somewhere in this span',
  end: 'missing at the end',
  cut: 'missing: the file ends here',
};

export const ADDITION: Record<AdditionFault, string> = {
  form: 'not readable',
  version: 'of a later version',
  signature: 'its signature does not hold',
  fingerprint: 'its key is not the one it names',
  order: 'not in its place',
  record: 'of another record',
  'too-many': 'more than a record takes, and not read',
};

export const NOT_JUDGED: Record<Extract<Remark, { r: 'not-judged' }>['why'], string> = {
  engine: 'the record is of another version of the engine',
  damaged: 'pages were damaged on the computer',
  'too-long': 'the run claims to be longer than eight days, or than two in which hardly anything was read',
  'not-asked': 'only signatures, chain and sums were checked',
  failed:
    'judging broke off. Either the record holds what can’t be judged, or this program has a fault: nothing is said either way',
};

export const CLOCK_BACK = {
  pages: (at: number, times: number) =>
    times === 1
      ? `The clock ran back in the run, before block ${at}`
      : `The clock ran back ${times} times in the run, first before block ${at}`,
  end: () => 'The run ended before it was opened, by the clock',
  sealing: () => 'The record was sealed before the run was over, by the clock',
  addition: (at: number) => `Addition ${at} is older than what it is added to, by the clock`,
} as const;

export const CLOCK_APART: Record<Extract<Remark, { r: 'clock-apart' }>['what'], string> = {
  opened: 'The witness log noted another time of its opening',
  ended: 'The witness log noted another time of its end',
  sealed: 'It was noted as sealed before it says that it was sealed',
  'not-before': 'It says that it was opened before a witness signed what its first page names',
  'not-after': 'It says that it was sealed after a witness signed the log with this record in it',
  device: 'By the device’s own clock the run took another time than by the computer’s',
  'device-step':
    'From some moment on the readings came later, or earlier, than the device’s own clock says, as when a piece was cut out',
  pages: 'By the computer’s clock the run took another time, or was opened at another, than its blocks tell',
};

export const PAPERS_APART: Record<Extract<Remark, { r: 'papers-apart' }>['what'][number], string> = {
  sensor: 'another sensor or range',
  calibration: 'another calibration',
  packer: 'a packer of another rated pressure',
  resin: 'another resin, or another data sheet of it',
  pipe: 'another diameter of the pipe',
  site: 'another place of the sensor, kind of line, heating or wetness',
  'air-test': 'another air test',
};

export const TERM: Readonly<Record<TermFault, string>> = {
  before: 'known, and this was signed before it counts',
  after: 'known, and this was signed when it counted no longer',
  revoked: 'revoked, and this was signed after that moment',
};

export const READ_BY_MAP: Readonly<Record<MapKind, string>> = {
  registers:
    'Read off a bus by a register map: its readings carry this computer’s clock alone, and no device guarded a limit of its own.',
  columns:
    'Unchecked line: its readings came as plain text without a check, carry this computer’s clock alone, and no device guarded a limit of its own.',
};

export const ENTRIES = {
  setup: (n: number) => (n === 1 ? 'one Setup is none' : `${n} Setups are none`),
  command: (n: number) =>
    n === 1 ? 'one press of a key is not of its form' : `${n} presses of a key are not of their form`,
  notice: (n: number) => (n === 1 ? 'one notice is not of its form' : `${n} notices are not of their form`),
  event: (n: number) => (n === 1 ? 'one event is not of its form' : `${n} events are not of their form`),
  map: (n: number) => (n === 1 ? 'one reading map is none' : `${n} reading maps are none`),
} as const;

export const MANIFEST: Record<Extract<Finding, { f: 'manifest' }>['why'], string> = {
  form: 'not in the form of a manifest',
  signature: 'the signature does not hold',
  fingerprint: 'the key is not the one that it names',
  practice: 'a practice run was sealed as a job, which no program of ours does',
};

export const CONTAINER: Record<Extract<Finding, { f: 'refused' | 'container' }>['why'], string> = {
  'not-a-zip': 'no zip file',
  'not-a-record': 'no record of this program',
  version: 'of a later version of the program: use a newer one',
  compressed: 'compressed inside, which no record is',
  encrypted: 'encrypted',
  zip64: 'of a size that no record has',
  name: 'a name that no record has',
  twice: 'a name that stands twice',
  'too-many': 'too many files inside',
  truncated: 'cut short',
  sequence: 'files in another order',
  header: 'not as it was made (header)',
  behind: 'not as it was made (behind)',
};

export const PROOF: Record<ProofFault, string> = {
  form: 'a file of it is not of its form',
  key: 'it is by another log than the one that the manifest names',
  note: 'a checkpoint is not signed by its log, or not by its witness',
  inclusion: 'what was noted is not in the tree of the checkpoint',
  consistency: 'one checkpoint is not the beginning of the other: two histories',
  content: 'what was noted is not of this record',
  twice: 'the run was sealed more than once',
  addition: 'an addition was noted that the file has not',
  stamp: 'the time stamp is of something else',
};

/** The same of the temperatures of a second adapter. */
export const BESIDE_BY_MAP: Readonly<Record<MapKind, string>> = {
  registers:
    'Temperatures came off a second bus by a register map: their times are the computer’s. What came over it stands in the record and was gone by again.',
  columns:
    'Temperatures came over a second, UNCHECKED line: a disturbed one may look right; their times are the computer’s. What came over it stands in the record and was gone by again.',
};
