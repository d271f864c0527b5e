/**
 * The contract between the page and the evidence worker: sealing, verifying, the archive and what is made from a
 * record. It is a worker of its own, so that hours of trace are hashed, packed and judged again while the guard's
 * engine has nothing to wait for. Plain data and Blobs only; each request is answered exactly once, long ones tell
 * their progress before.
 */

import type { ColdestSpot } from '../engine/coldest-course.ts';
import type { RunDetail, TraceWindow } from '../engine/messages.ts';
import type { Asked, FromWorker } from '../engine/worker/contract.ts';
import type { AddedHand } from '../job/added.ts';
import type { Enclosed } from '../job/enclosed.ts';
import type { Wording } from '../job/wording.ts';
import type { Debrief, Result } from '../practice/shapes.ts';
import type { Account } from '../record/account.ts';
import type { Finding, Remark, Verdict } from '../record/findings.ts';
import type { Reservations } from '../record/reservations.ts';
import type { Addition } from '../record/seal.ts';
import type { PreviousKey } from '../record/signing.ts';
import type { LeakFigure, WatchEvent } from '../watch/events.ts';
import type { DisplayUnits } from '../words/create-format.ts';
import type { BackupAnswers, BackupRequest } from './backup/messages.ts';
import type { EnclosedAnswers, EnclosedRequest, NewPhoto } from './enclosed/messages.ts';
import type { EvidenceErrorCode } from './error-codes.ts';
/** */
import type { KeyAnswers, KeyRequest } from './keys/messages.ts';
import type { OfficeAnswers, OfficeRequest } from './office/messages.ts';
import type { SavedRunAnswers, SavedRunRequest } from './runs/messages.ts';
import type { WitnessAnswers, WitnessRequest } from './witness/messages.ts';

export { parseFingerprint } from '../record/fingerprints.ts';
export type { Account, EvidenceErrorCode };

/** A run of this tablet, a file kept in its archive (by the SHA-256 of its bytes), or the file being looked at. */
export type RecordRef =
  | { readonly kind: 'run'; readonly runId: string }
  | { readonly kind: 'import'; readonly sha256: string }
  | { readonly kind: 'opened' };

export const OPENED = 'opened';

/** A reference as a part of an address. */
export const refText = (ref: RecordRef): string =>
  ref.kind === 'run' ? ref.runId : ref.kind === 'import' ? ref.sha256 : OPENED;

export const refOf = (text: string): RecordRef =>
  text === OPENED
    ? { kind: 'opened' }
    : /^[0-9a-f]{64}$/.test(text)
      ? { kind: 'import', sha256: text }
      : { kind: 'run', runId: text };

export const REVIEW_STATUSES = ['open', 'released', 'rejected'] as const;
export type ReviewStatus = (typeof REVIEW_STATUSES)[number];

/** A status that a person set. The newest counts; the older ones stay. */
export interface StatusLine {
  readonly status: ReviewStatus;
  readonly reason: string;
  readonly by: string;
  readonly utcMs: number;
}

/** What a reviewer asks for. Seconds are from the first sample; null is not known, never zero. */
export interface Numbers {
  readonly holdS: number | null;
  readonly inBandS: number | null;
  /** Without a floor the band has no lower edge: time in it means inflated and not over the ceiling. */
  readonly floorKnown: boolean;
  readonly lowestHoldBar: number | null;
  readonly highestHoldBar: number | null;
  /** Start of the first hold. */
  readonly heldFromS: number | null;
  readonly leak: LeakFigure | null;
  readonly peakBar: number | null;
  readonly cureMetS: number | null;
  /** The coldest likely spot from the start of the cure, or of the hold, to its end: what the cure counted by. */
  readonly coldest: ColdestSpot | null;
  readonly gaps: number;
  readonly gapS: number;
  readonly alarms: { readonly urgent: number; readonly high: number; readonly low: number };
  /** Steps that were gone on with though something spoke against them. */
  readonly overrides: number;
}

/**
 * Whether a record is other than plain, so that whoever accepts it says why: something stayed open, went over a limit or
 * was alarmed of, the cure time was not reached, or the file is not known to be whole and its signer's.
 * @param verdict on the file; null for a run of this browser
 */
export const asksReason = (
  { account, numbers }: { readonly account: Account; readonly numbers: Numbers },
  verdict: Verdict | null,
): boolean =>
  account.open.length > 0 ||
  account.overRated !== null ||
  account.atCeiling === true ||
  numbers.alarms.urgent + numbers.alarms.high > 0 ||
  (account.cure.state !== 'met' && account.cure.state !== 'not-judged') ||
  (verdict !== null && verdict !== 'valid');

/** Whether a packer was at its ceiling or over it, as far as one was in force. */
export function ceilingOf({ overRated, atCeiling }: Account): NonNullable<ArchiveEntry['ceiling']> {
  if (overRated !== null) return 'passed';
  return atCeiling === null ? 'none' : atCeiling ? 'passed' : 'kept';
}

/** A run in small, for a row of a list. */
export interface Sketch {
  /** Lowest and highest pressure of each of its steps, bar; NaN for a gap. null: it holds no pressure. */
  readonly course: {
    readonly fromS: number;
    readonly toS: number;
    readonly s: readonly number[];
    readonly min: readonly number[];
    readonly max: readonly number[];
  } | null;
  readonly limits: {
    readonly ratedBar: number;
    readonly ceilingBar: number;
    readonly floorBar: number | null;
  } | null;
  /** Without what only the whole trace tells: the coldest is null. */
  readonly numbers: Numbers;
  readonly account: Account;
}

export interface ArchiveEntry {
  readonly ref: RecordRef;
  readonly runId: string;
  readonly title: string;
  readonly site: string;
  readonly client: string;
  readonly packer: string;
  readonly crew: string;
  readonly practice: boolean;
  readonly state: 'open' | 'interrupted' | 'ended';
  readonly openedUtcMs: number;
  readonly seconds: number;
  readonly peakBar: number | null;
  readonly alarms: number;
  readonly gaps: number;
  /** What the account says of the cure; null: only the record itself tells. */
  readonly cure: Account['cure']['state'] | null;
  /** At its ceiling or over it, or its rating; 'none': no ceiling was in force. null: only the record itself tells. */
  readonly ceiling: 'passed' | 'kept' | 'none' | null;
  readonly sealed: {
    readonly utcMs: number;
    readonly fingerprint: string;
    readonly signer: string | null;
  } | null;
  /** File kept from elsewhere. */
  readonly imported: { readonly utcMs: number; readonly name: string } | null;
  readonly status: StatusLine | null;
}

export interface SealedFacts {
  readonly sealedUtcMs: number;
  readonly sealedBy: string;
  readonly fingerprint: string;
  /** Whose key it is, where that is known here; empty for this tablet's own. */
  readonly signer: string | null;
  /** The key is this tablet's own. */
  readonly own: boolean;
  readonly previous: PreviousKey | null;
  readonly manifestSha256: string;
  /** Photographs and signatures by hand that were sealed with it; null: none. */
  readonly enclosed: Enclosed | null;
  readonly additions: readonly (Addition & { readonly signedBy: string | null })[];
}

/** A record to be looked into. */
export interface RecordView {
  readonly ref: RecordRef;
  readonly detail: RunDetail;
  readonly sealed: SealedFacts | null;
  /** What checking the file said; null for a run of this tablet. */
  readonly verdict: Verdict | null;
  readonly numbers: Numbers;
  readonly account: Account;
}

export interface VerifyView {
  readonly verdict: Verdict;
  readonly findings: readonly Finding[];
  readonly remarks: readonly Remark[];
  /** What a good verdict does not vouch for; null: nothing. */
  readonly reserved: Reservations | null;
  readonly name: string;
  /** Name of the client's packet that it lay in; null: it was handed in by itself. */
  readonly packet: string | null;
  readonly bytes: number;
  readonly sha256: string;
  readonly fingerprint: string | null;
  readonly publicKey: string | null;
  readonly signer: string | null;
  /** SHA-256 of its manifest, as the certificate has it; null where there is none. */
  readonly manifestSha256: string | null;
  /** What the record says of itself; null where it can't be read. */
  readonly record: {
    readonly title: string;
    readonly runId: string;
    readonly openedUtcMs: number | null;
    readonly endedUtcMs: number | null;
    readonly sealedUtcMs: number;
    readonly samples: number;
    readonly firstSampleUs: number;
  } | null;
  /** What was signed after the sealing, oldest first. */
  readonly additions: SealedFacts['additions'];
  /** It can be looked into, as reference 'opened'. */
  readonly readable: boolean;
  /** It is in the archive already. */
  readonly kept: boolean;
}

export interface JudgedView {
  readonly engineThen: number;
  readonly engineNow: number;
  /** Told from the sealed manifest, or from the pages of a run that is not sealed. */
  readonly against: 'sealed' | 'recorded';
  readonly events: number;
  /** Recorded, and not said today. */
  readonly gone: readonly WatchEvent[];
  /** Said today, and not recorded. */
  readonly fresh: readonly WatchEvent[];
}

export type Align = 'start' | 'fill' | 'hold';

/** Colours of a picture, as CSS has them. */
export interface PictureInk {
  readonly ground: string;
  readonly ink: string;
  readonly ink2: string;
  readonly line: string;
  readonly band: string;
  readonly alarm: { readonly urgent: string; readonly high: string; readonly low: string };
}

export interface PictureOrder {
  readonly refs: readonly RecordRef[];
  readonly align: Align;
  /** Seconds from the point of alignment; null: everything. */
  readonly fromS: number | null;
  readonly toS: number | null;
  readonly width: number;
  readonly height: number;
  readonly units: DisplayUnits;
  readonly wording: Wording;
  readonly ink: PictureInk;
}

export interface Picture {
  readonly svg: string;
  /** Whole span on the picture's own axis. */
  readonly wholeFromS: number;
  readonly wholeToS: number;
  /** Records that have no such point of alignment, by their place in the order. */
  readonly unaligned: readonly number[];
}

export type EvidenceRequest =
  | SavedRunRequest
  | BackupRequest
  | EnclosedRequest
  | KeyRequest
  | OfficeRequest
  | WitnessRequest
  /**
   * @param wording in which the record's certificate is to be written
   * @param page where the app is served, for the code on the certificate
   */
  | {
      readonly q: 'seal';
      readonly runId: string;
      readonly wording: Wording;
      readonly page?: string;
    }
  | { readonly q: 'job-file'; readonly ref: RecordRef }
  /** Somebody says that the file of a run was handed on. */
  | { readonly q: 'sent'; readonly runId: string }
  | {
      readonly q: 'add';
      readonly runId: string;
      readonly kind: 'correction' | 'note';
      readonly text: string;
      readonly by: string;
      /** Made small enough to stand in the addition itself. */
      readonly photo?: Pick<NewPhoto, 'file' | 'occasion' | 'utcMs' | 'source'>;
      readonly hand?: AddedHand;
    }
  | { readonly q: 'verify'; readonly file: Blob; readonly name: string }
  /** What of a file can be told within seconds: signature, pages, chain, witness log. The rest is for `verify`. */
  | { readonly q: 'verify-first'; readonly file: Blob }
  /** Keeps the file verified last, if it is still the one named: another page may have opened another since. */
  | { readonly q: 'keep-opened'; readonly sha256: string }
  | { readonly q: 'remove-import'; readonly sha256: string }
  | { readonly q: 'archive' }
  /** For a row of a list; null: the run is still open. */
  | { readonly q: 'sketch'; readonly ref: RecordRef }
  | {
      readonly q: 'set-status';
      readonly ref: RecordRef;
      readonly status: ReviewStatus;
      readonly reason: string;
      readonly by: string;
    }
  /** What people decided about it, oldest first. */
  | { readonly q: 'statuses'; readonly ref: RecordRef }
  | { readonly q: 'record'; readonly ref: RecordRef }
  | {
      readonly q: 'record-window';
      readonly ref: RecordRef;
      readonly fromS: number;
      readonly toS: number;
      readonly points: number;
    }
  | { readonly q: 'judge-again'; readonly ref: RecordRef }
  | { readonly q: 'picture'; readonly order: PictureOrder }
  | { readonly q: 'visible-data'; readonly ref: RecordRef; readonly fromS: number; readonly toS: number }
  /** @param wording for a reader of another language than the one it was sealed in; left out: as it was sealed */
  | { readonly q: 'certificate'; readonly ref: RecordRef; readonly wording?: Wording }
  /** What a practice run was, and whether its goal was met; null: it was not played on the practice rig. */
  | { readonly q: 'debrief'; readonly ref: RecordRef }
  /** How the drills of this computer ended, oldest first. */
  | { readonly q: 'progress' }
  /** The client's packet: the record file, and for reading its certificate, photographs and how to check. */
  | { readonly q: 'packet'; readonly ref: RecordRef }
  /** A photograph by the hash of its bytes. @param ref in a file from elsewhere; left out: kept here */
  | { readonly q: 'photo'; readonly sha256: string; readonly ref?: RecordRef };

export interface EvidenceAnswers
  extends BackupAnswers,
    EnclosedAnswers,
    KeyAnswers,
    OfficeAnswers,
    SavedRunAnswers,
    WitnessAnswers {
  seal: { readonly fingerprint: string; readonly newKey: 'first' | 'after-loss' | null };
  'job-file': { readonly name: string; readonly file: Blob };
  sent: null;
  add: null;
  verify: VerifyView;
  'verify-first': { readonly verdict: Verdict; readonly findings: readonly Finding[] };
  'keep-opened': { readonly sha256: string; readonly already: boolean; readonly others: number };
  'remove-import': null;
  archive: readonly ArchiveEntry[];
  sketch: Sketch | null;
  'set-status': readonly StatusLine[];
  statuses: readonly StatusLine[];
  record: RecordView;
  'record-window': TraceWindow;
  'judge-again': JudgedView;
  picture: Picture;
  'visible-data': Blob;
  /** A page of its own, whole. `sealedIn`: the language that its record was sealed in. */
  certificate: { readonly html: string; readonly title: string; readonly sealedIn: string };
  debrief: Debrief | null;
  progress: readonly Result[];
  packet: {
    readonly name: string;
    readonly file: Blob;
    /** What is in it beside the record file. */
    readonly reading: readonly { readonly name: string; readonly file: Blob }[];
  };
  photo: Blob;
}

export interface EvidenceContract {
  readonly request: EvidenceRequest;
  readonly answers: EvidenceAnswers;
  readonly refusal: EvidenceErrorCode;
  readonly news: never;
}

export type { Debrief, Result };

export type ToEvidence = Asked<EvidenceContract>;
export type FromEvidence = FromWorker<EvidenceContract>;
