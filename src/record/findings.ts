/** What a verifier may find, as codes; words are made where they are shown. */
import type { MapKind } from '../job/reading-map.ts';
import type { Lack } from '../link/maps/lacks.ts';
import type { TermFault } from './key-terms.ts';
import type { AdditionFault } from './seal.ts';
import type { PageFault } from './types.ts';
import type { ProofFault, Witnessed } from './witness/check-proof.ts';
import type { ZipFault } from './zip-form.ts';

/** In order of weight: the first that applies is the verdict. */
export const VERDICTS = [
  'refused',
  'changed',
  'incomplete',
  'practice', // a whole practice record: no job, whoever signed it
  'unknown-signer',
  'not-derived',
  'valid',
] as const;
export type Verdict = (typeof VERDICTS)[number];

/** Exit codes of the command line, stable. */
export const EXIT_CODE: Readonly<Record<Verdict, number>> = {
  valid: 0,
  changed: 1,
  refused: 2,
  'unknown-signer': 3,
  incomplete: 4,
  'not-derived': 5,
  practice: 6,
};

/** Every byte is as it was signed: what is good enough to be kept and shown. */
export const isWhole = (verdict: Verdict): boolean =>
  verdict === 'valid' || verdict === 'not-derived' || verdict === 'unknown-signer';

/** What of the papers is held against the Setups. */
export type PaperPart = 'sensor' | 'calibration' | 'packer' | 'resin' | 'pipe' | 'site' | 'air-test';

/** What of the pages has a form of its own. */
export type EntryKind = 'setup' | 'command' | 'notice' | 'event' | 'map';

export type Finding =
  /** Not read at all: no record, hostile, or of a later program. */
  | { readonly f: 'refused'; readonly why: ZipFault | 'not-a-record' | 'version'; readonly offset: number }
  /** The container is not what its members make it. */
  | {
      readonly f: 'container';
      readonly why: ZipFault | 'sequence';
      readonly offset: number;
      readonly file: string | null;
    }
  | { readonly f: 'missing'; readonly file: string }
  /** A file that the record doesn't account for. */
  | { readonly f: 'strange'; readonly file: string }
  /** The file differs from what was signed, or from what the pages give. */
  | { readonly f: 'file'; readonly file: string; readonly offset: number | null }
  /** 'practice': a practice run under the schema of a job. */
  | { readonly f: 'manifest'; readonly why: 'form' | 'signature' | 'fingerprint' | 'practice' }
  /** It says itself that it is a practice record. */
  | { readonly f: 'practice' }
  /** Members of the manifest that the pages contradict. */
  | { readonly f: 'contradiction'; readonly members: readonly string[] }
  | {
      readonly f: 'pages';
      /** 'end': the run has no end mark; 'cut': the file ends within them. */
      readonly why: PageFault | 'rewritten' | 'end' | 'cut';
      readonly page: number;
      readonly pages: number;
      /** Byte offset in pages.bin. */
      readonly offset: number | null;
      /** Run clock, µs. */
      readonly fromUs: number | null;
      readonly toUs: number | null;
    }
  /** Entries and events of the pages that are not what they claim to be: how many, and the first. */
  | {
      readonly f: 'entries';
      readonly what: EntryKind;
      readonly count: number;
      readonly page: number;
      /** Run clock, µs. */
      readonly tUs: number;
    }
  /** A Setup reads a channel by a converter that the device never had, by its own lines. */
  | {
      readonly f: 'scale';
      readonly channel: number;
      readonly page: number;
      /** Run clock, µs. */
      readonly tUs: number;
    }
  /** Samples that the reading map does not make of what stands beside them as raw: how many, and the first. */
  | {
      readonly f: 'translation';
      readonly count: number;
      readonly page: number;
      /** Run clock, µs. */
      readonly tUs: number;
    }
  /** Events that do not follow from the input log, by their kinds: the record's that judging does not give, and the other way round. */
  | {
      readonly f: 'judgement';
      readonly recorded: number;
      readonly again: number;
      readonly kinds: readonly string[];
      /** The same events, so many of which stand elsewhere in the order in which they were judged. */
      readonly moved: number;
    }
  /** A Setup that does not follow from itself: no plan made it. */
  | {
      readonly f: 'setup';
      /**
       * Gain and offset are not those of its own points; a ceiling over rated less the reading's uncertainty, without a reason;
       * or an uncertainty below what its own sensor and calibration leave.
       */
      readonly what: 'calibration' | 'ceiling' | 'uncertainty';
      /** null: of none. */
      readonly channel: number | null;
      readonly page: number;
      /** Run clock, µs. */
      readonly tUs: number;
    }
  /** What the file carries of the witness log does not hold, or is not of this record. */
  | { readonly f: 'witness'; readonly why: ProofFault }
  | { readonly f: 'addition'; readonly number: number; readonly why: AdditionFault }
  /** An addition that holds, by a key that is not known here. */
  | {
      readonly f: 'addition-signer';
      readonly number: number;
      readonly fingerprint: string;
      /** It is known, and not for that time. */
      readonly why?: TermFault;
    }
  | { readonly f: 'signer'; readonly fingerprint: string; readonly why?: TermFault };

/** What a reader should know of a record in which nothing is wrong. */
export type Remark =
  | { readonly r: 'interrupted' }
  | { readonly r: 'resumed'; readonly times: number }
  /** Pages were damaged on the tablet before the sealing. */
  | { readonly r: 'damaged-at-sealing'; readonly pages: number }
  | { readonly r: 'no-job' }
  /** It is noted in no witness log. */
  | { readonly r: 'not-logged' }
  /** What the witness log says of it, by the clock of the tablet that keeps the log. */
  | ({ readonly r: 'logged' } & Omit<Witnessed, 'notBefore' | 'notAfter'>)
  /** Nobody but the tablet itself has seen the log. */
  | { readonly r: 'no-witness' }
  /** Somebody else's word on when: the run was opened after it, or the record sealed before it. */
  | {
      readonly r: 'bounded';
      readonly side: 'not-before' | 'not-after';
      readonly utcMs: number;
      /** Of the witness's key; null: a time stamp, whose signature is for openssl. */
      readonly fingerprint: string | null;
      /** Whose key it is; empty for this tablet's own; null: not known here. */
      readonly name: string | null;
    }
  /** Samples are missing, by the events: how often for a second or more, the longest time, and where that ended on the run clock, µs. */
  | { readonly r: 'gaps'; readonly count: number; readonly seconds: number; readonly tUs: number }
  | { readonly r: 'additions'; readonly count: number }
  /** Built after the sealing key was gone: derived files were checked by deriving them alone. */
  | { readonly r: 'no-sums' }
  /** The events were not judged again: what they say is the word of whoever signed them. */
  | {
      readonly r: 'not-judged';
      readonly why: 'engine' | 'damaged' | 'too-long' | 'not-asked' | 'failed';
      /** Where it failed: in this page; left out where that is not known. */
      readonly page?: number;
    }
  /**
   * States of the engine that are not what judging comes to: how many, and the first. Nothing was taken from them; where the
   * events follow all the same, nothing hangs on them.
   */
  | {
      readonly r: 'states-apart';
      readonly count: number;
      readonly page: number;
      /** Run clock, µs. */
      readonly tUs: number;
    }
  /** A derived file is as signed, and today's program would make another. */
  | { readonly r: 'derived-otherwise'; readonly file: string }
  /** A derived file is as signed, and was not derived again here. */
  | {
      readonly r: 'not-derived';
      readonly file: string;
      /** It was begun and broke off: the record holds what this program can't follow, or this program has a fault. */
      readonly failed?: true;
    }
  /** A time by the tablet's clock is before one that it can only follow, by so many seconds at most. */
  | {
      readonly r: 'clock-back';
      /** `at` is the number of the block or the addition; 0 for the others. */
      readonly what: 'pages' | 'end' | 'sealing' | 'addition';
      readonly at: number;
      readonly times: number;
      readonly seconds: number;
    }
  /** What the record says of a time is not what the log, a witness or the device says of it, by so many seconds. */
  | {
      readonly r: 'clock-apart';
      readonly what:
        | 'opened'
        | 'ended'
        | 'sealed'
        | 'not-before'
        | 'not-after'
        | 'device'
        | 'device-step'
        | 'pages';
      readonly seconds: number;
      /** Of a step: where on the run clock, µs. */
      readonly tUs?: number;
    }
  /** It was read by a map: what the source lacks is the word of nobody but this computer's. */
  /** `beside`: the temperatures of the second adapter, not the pressure. */
  | {
      readonly r: 'read-by-map';
      readonly map: MapKind;
      readonly lacks: readonly Lack[];
      readonly beside?: true;
    }
  /** The device guarded a lower limit than the ceiling that the Setup names: it was told another one, or took none. */
  | { readonly r: 'device-limit'; readonly deviceBar: number; readonly ceilingBar: number }
  /** The counts that the device guarded are not those of its limit in mbar by any Setup up to then, so many times. */
  | {
      readonly r: 'device-counts';
      readonly lines: number;
      readonly mbar: number;
      readonly counts: number;
      /** Of the Setup in force. */
      readonly expected: number;
    }
  /** The papers that were sealed with it are not those that a Setup of the work was made of. */
  | { readonly r: 'papers-apart'; readonly what: readonly PaperPart[] }
  | {
      readonly r: 'key-followed';
      readonly fingerprint: string;
      readonly reason: 'lost' | 'changed';
      readonly endorsed: boolean;
    };

/** What a finding alone makes of the file. */
export function verdictOf(finding: Finding): Verdict {
  switch (finding.f) {
    case 'refused':
      return 'refused';
    case 'missing':
      return 'incomplete';
    case 'container':
      return finding.why === 'truncated' ? 'incomplete' : 'changed';
    case 'manifest':
      return finding.why === 'practice' ? 'refused' : 'changed';
    case 'signer':
    case 'addition-signer':
      return 'unknown-signer';
    case 'strange':
    case 'file':
    case 'contradiction':
    case 'entries':
    case 'scale':
    case 'translation':
    case 'setup':
    case 'judgement':
    case 'addition':
    case 'witness':
      return 'changed';
    case 'practice':
      return 'practice';
    case 'pages':
      return finding.why === 'cut' ? 'incomplete' : 'changed';
  }
}
