/** The derived files of a record and its values, made in one pass. */

import { createWatched } from '../engine/watched.ts';
import type { CheckWordsOf } from '../record/check-text.ts';
import type { ExtraFiles } from '../record/job-file.ts';
import type { SenseRun } from '../record/trace-rows.ts';
import { CHECK_TEXT } from '../words/en/check-text.ts';
import { certificateExtra } from './certificate/page.ts';
import { tappedSense, type Values, valuesOf } from './open.ts';

export interface Deriving {
  readonly sense: SenseRun;
  readonly words: CheckWordsOf;
  /** The certificate, from what `sense` has seen. */
  readonly extras: ExtraFiles;
  /** The record's values once it was derived; null when `sense` was not asked. */
  values(): Values | null;
}

/**
 * For one building or verifying of one record: the values are taken down while the trace's files are derived, so
 * that twelve hours need not be judged twice.
 */
export function deriving(): Deriving {
  const watched = createWatched();
  const seen = valuesOf(watched);
  const tapped = tappedSense(watched);
  let sensed = false;
  let finished = false;
  const finish = (): void => {
    if (!finished) watched.trace.finish();
    finished = true;
  };
  return {
    sense(head) {
      sensed = true;
      return tapped(head);
    },
    words: async () => CHECK_TEXT,
    extras: certificateExtra(seen, finish),
    values() {
      if (!sensed) return null;
      finish();
      return seen;
    },
  };
}
