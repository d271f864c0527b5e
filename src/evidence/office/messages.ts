/** The part of the contract between page and evidence worker that is about the shared folder. */
import type { Finding, Verdict } from '../../record/findings.ts';
import type { EvidenceErrorCode } from '../error-codes.ts';
import type { Folder } from './folder.ts';

export type { Folder };

/** A sealed run that is still to be written into the folder. */
export interface Waiting {
  readonly runId: string;
  readonly sinceUtcMs: number;
  /** Why it was not written at the last try; null: not tried yet. */
  readonly fault: EvidenceErrorCode | null;
}

export interface OfficeView {
  /** null: no folder was chosen. The handle is for asking for permission, which only the page can. */
  readonly folder: { readonly name: string; readonly handle: Folder } | null;
  readonly permission: 'granted' | 'denied' | 'prompt' | null;
  readonly waiting: readonly Waiting[];
}

export type FileState =
  | 'whole' // every byte as it was signed
  | 'changed'
  | 'incomplete' // cut short; often a file that is still being synced
  | 'refused'
  | 'too-large'
  | 'unreadable'; // the disk did not give it

export interface FolderLine {
  readonly name: string;
  readonly bytes: number | null;
  readonly state: FileState;
  /** The first thing that was found; null where nothing was. */
  readonly finding: Finding | null;
  readonly verdict: Verdict | null;
  readonly runId: string | null;
  readonly title: string;
  readonly openedUtcMs: number | null;
  readonly signer: string | null;
  readonly sha256: string | null;
  /** Not there when the folder was last marked as seen. */
  readonly fresh: boolean;
  /** A run of this tablet. */
  readonly own: boolean;
  readonly kept: boolean;
}

export interface FolderList {
  readonly lines: readonly FolderLine[];
  /** Files beyond what is listed. */
  readonly more: number;
}

export interface WriteReport {
  readonly written: readonly { readonly runId: string; readonly name: string; readonly beside: boolean }[];
  readonly waiting: readonly Waiting[];
}

export type OfficeRequest =
  | { readonly q: 'office' }
  | { readonly q: 'office-choose'; readonly handle: Folder }
  | { readonly q: 'office-forget' }
  /** Writes what waits. */
  | { readonly q: 'office-write' }
  /** Puts all sealed runs of this tablet into the queue. */
  | { readonly q: 'office-all' }
  | { readonly q: 'office-list' }
  | { readonly q: 'office-seen' }
  | { readonly q: 'office-file'; readonly name: string };

export interface OfficeAnswers {
  office: OfficeView;
  'office-choose': OfficeView;
  'office-forget': OfficeView;
  'office-write': WriteReport;
  'office-all': OfficeView;
  'office-list': FolderList;
  'office-seen': null;
  'office-file': Blob;
}
