/** The part of the contract between page and evidence worker that is about the witness log and its witnesses. */
import type { Comparison } from '../../record/witness/compare.ts';

import type { SeenOutcome, TakeOutcome } from '../../record/witness/exchange.ts';

export type { Comparison, SeenOutcome, TakeOutcome };

export interface SeenLog {
  readonly origin: string;
  readonly size: number;
  readonly utcMs: number;
  /** The last that was refused; null: none was. */
  readonly refused: {
    readonly why: 'shorter' | 'different';
    readonly size: number;
    readonly utcMs: number;
  } | null;
}

/** A run that was opened and is not sealed. */
export interface Unsealed {
  /** null: it is not on this tablet any more. */
  readonly runId: string | null;
  readonly title: string | null;
  readonly openedUtcMs: number;
  readonly endedUtcMs: number | null;
}

export interface LogView {
  readonly origin: string;
  readonly leaves: number;
  /** Signed; what the code holds. */
  readonly checkpoint: string;
  /** Of its root what a person compares by eye: the first signs, as they stand in its text. */
  readonly short: string;
  readonly unsealed: readonly Unsealed[];
  /** Practice runs that were opened: they are never sealed. */
  readonly practice: number;
  /** Runs that were sealed with more than one manifest. */
  readonly sealedTwice: number;
  /** The newest word of each witness. */
  readonly witnesses: readonly {
    readonly what: 'cosignature' | 'stamp';
    /** Of a witness's key; null for a stamp. */
    readonly fingerprint: string | null;
    /** Whose key it is; empty for this tablet's own; null: not known here. */
    readonly name: string | null;
    readonly size: number;
    readonly utcMs: number;
  }[];
  /** Fingerprint of the key by which this installation countersigns others. */
  readonly asWitness: string;
  readonly seen: readonly SeenLog[];
}

export interface WitnessReport {
  /** Leaves of the checkpoint that was laid into the folder; null: it lay there already. */
  readonly published: number | null;
  /** Words of witnesses that came in. */
  readonly taken: number;
  readonly cosigned: number;
  readonly refused: readonly { readonly origin: string; readonly size: number; readonly why: SeenOutcome }[];
}

export type WitnessRequest =
  | { readonly q: 'log' }
  /** The leaves, one a line, for whoever may see counts and times. */
  | { readonly q: 'log-file' }
  /** A checkpoint's text against this installation's log, or against the file that was verified last. */
  | { readonly q: 'compare'; readonly text: string; readonly with: 'log' | 'opened' }
  /** Lays the newest checkpoint into the shared folder and takes what witnesses laid there. */
  | { readonly q: 'office-witness'; readonly countersign: boolean }
  /** An authority's answer for a checkpoint of this log. */
  | { readonly q: 'take-stamp'; readonly checkpoint: string; readonly response: Blob };

export interface WitnessAnswers {
  log: LogView;
  'log-file': Blob;
  /** null: no file is open, or it carries nothing of a log. */
  compare: Comparison | null;
  'office-witness': WitnessReport;
  'take-stamp': TakeOutcome;
}
