/** What passes between whoever verifies a file and the workers that judge pieces of its run, and make their rows again. */

import type { RowGroup } from '../../record/trace-parquet.ts';
import type { RowShape } from '../../record/trace-rows.ts';
import type { StateApart } from '../../record/types.ts';
import type { Digest } from '../../record/verify-members.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { ReadingColumns } from './columns.ts';

/** Bytes of the file in which a member of it lies. */
export interface Stretch {
  readonly start: number;
  readonly size: number;
}

export interface PieceOrder {
  readonly pages: Stretch;
  /** Offset of the page to begin with, by the state that stands in it; 0: with the first, by nothing. */
  readonly from: number;
  /** Offset at which the piece is to end: for telling how far it has come. */
  readonly to: number;
  /** Goes on over a state that does not follow, to the first that does. */
  readonly patient: boolean;
  /** The rows of the trace as they are to be; null: none are made. */
  readonly trace: { readonly shape: RowShape; readonly csv: Stretch | null } | null;
}

export interface PieceMade {
  readonly events: readonly WatchEvent[];
  /** States behind the first that don't follow from what stands before them. */
  readonly apart: readonly StateApart[];
  /** SHA-256 of the state that it began with; null: with nothing. */
  readonly began: string | null;
  /** The state at which it ended; null: at the end of the run. */
  readonly end: {
    /** Offset of its page. */
    readonly from: number;
    /** It is what the piece came to. */
    readonly follows: boolean;
    /** SHA-256 of it; null where it does not follow. */
    readonly hash: string | null;
  } | null;
  readonly trace: TracePiece | null;
}

export interface TracePiece {
  /** Bytes of trace.csv that are its rows; null: they are not there. */
  readonly csv: { readonly from: number; readonly to: number } | null;
  readonly groups: readonly RowGroup[];
  readonly readings: readonly ReadingColumns[];
  readonly peakBar: number | null;
  /** Samples are missing before the next reading. */
  readonly hasGap: boolean;
}

export interface PieceContract {
  /** @param file a Blob, or in Node the name of a file */
  readonly request:
    | { readonly q: 'piece'; readonly file: Blob | string; readonly order: PieceOrder }
    | { readonly q: 'digest'; readonly file: Blob | string; readonly stretch: Stretch };
  readonly answers: { piece: PieceMade; digest: Digest };
  readonly refusal: 'refused';
  readonly news: never;
}
