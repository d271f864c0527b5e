/**
 * The events of a record are its judgements. Signed, they are what whoever held the key wanted them to be: only judging
 * the input log again tells whether they follow from it.
 */
import type { WatchEvent } from '../watch/events.ts';
import type { ByteSource } from './byte-source.ts';
import { canonicalText } from './canonical.ts';
import type { Progress } from './derived-files.ts';
import type { RowGroup } from './trace-parquet.ts';
import type { RowShape } from './trace-rows.ts';
import type { StateApart } from './types.ts';

/** Judges pages again that were read before and hold no damage. */
export interface Judge {
  /** Version of the engine that it judges by: of another one's records it can't say anything. */
  readonly engine: number;
  run(pages: ByteSource, progress: Progress): Promise<JudgedRun>;
  /** What was made of the pages elsewhere, beside what is done here, where that can be had; null: nobody did. Never rejects. */
  elsewhere?(): Promise<MadeElsewhere | null>;
}

export interface JudgedRun {
  readonly events: readonly WatchEvent[];
  /** States kept in the pages that do not follow from what stands before them. */
  readonly apart: readonly StateApart[];
}

export interface MadeElsewhere extends JudgedRun {
  /** null: the trace was not made again there. */
  readonly trace: TraceMade | null;
}

/** Rows made again elsewhere, from the readings that were judged there: good for nothing where the judgement is another. */
export interface TraceMade {
  /** Columns that were taken for the trace's. */
  readonly shape: RowShape;
  readonly groups: readonly RowGroup[];
  /** trace.csv has these very rows, and no others; or there is none. */
  readonly isCsvSame: boolean;
  /** To be called when it was found to be that of the file. */
  taken(): void;
}

/** Longer than any run that is watched, µs. */
const MOST_RUN_US = 8 * 86_400e6;
/** Longer than anybody leaves a run open in which nothing comes; and a second for each sample, µs. */
const MOST_SILENT_US = 2 * 86_400e6;
const A_SAMPLE_US = 1e6;

/**
 * A run that claims such times is not gone through second by second: the work on a file is bounded by what is in it.
 * @param lengthUs from its first entry to its last
 */
export const isTooLong = (lengthUs: number, samples: number): boolean =>
  lengthUs > Math.min(MOST_RUN_US, MOST_SILENT_US + A_SAMPLE_US * samples);

/** Judging has failed: something in the pages is none that an engine can follow, or the engine has a fault. */
export class JudgingFailed extends Error {
  /** @param page index of the page in which it failed */
  constructor(
    readonly page: number,
    cause: unknown,
  ) {
    super(`page ${page} can't be judged`, { cause });
  }
}

/** What two lists of events, the recorded and the judged, say otherwise. */
export interface JudgedApart {
  readonly gone: readonly WatchEvent[];
  readonly fresh: readonly WatchEvent[];
  /** Where the lists hold the same events: those that stand at another place. The last word of a kind is what counts. */
  readonly moved: readonly WatchEvent[];
}

export function apartOf(recorded: readonly WatchEvent[], again: readonly WatchEvent[]): JudgedApart {
  const [then, now] = [recorded.map(canonicalText), again.map(canonicalText)];
  const same = then.length === now.length && then.every((key, i) => key === now[i]);
  if (same) return { gone: [], fresh: [], moved: [] };
  const [gone, fresh] = [without(recorded, again), without(again, recorded)];
  const isMoved = gone.length + fresh.length === 0;
  return { gone, fresh, moved: isMoved ? recorded.filter((_, i) => then[i] !== now[i]) : [] };
}

/** Events of the first list that the second has not, however often they come. */
export function without(list: readonly WatchEvent[], other: readonly WatchEvent[]): WatchEvent[] {
  const left = new Map<string, number>();
  for (const e of other) {
    const key = canonicalText(e);
    left.set(key, (left.get(key) ?? 0) + 1);
  }
  return list.filter((e) => {
    const key = canonicalText(e);
    const n = left.get(key) ?? 0;
    if (n > 0) left.set(key, n - 1);
    return n === 0;
  });
}
