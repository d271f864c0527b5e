/** The derived files of a record and its values, made in one pass. */

import type { CheckWordsOf } from '../record/check-text.ts';
import type { ExtraFiles } from '../record/job-file.ts';
import type { Judge } from '../record/judgement.ts';
import type { SenseRun } from '../record/trace-rows.ts';
import type { CatalogueOf } from '../words/catalogue.ts';
import { certificateExtra } from './certificate/page.ts';
import { judge } from './judge.ts';
import { createValueTap, type Values, type ValueTap } from './open.ts';
import type { PieceSite } from './pieces/in-pieces.ts';

export interface Deriving {
  readonly sense: SenseRun;
  readonly judge: Judge;
  readonly words: CheckWordsOf;
  /** The certificate, from what `sense` has seen. */
  readonly extras: ExtraFiles;
  /** The record's values once it was derived; null when `sense` was not asked. */
  values(): Values | null;
  /** For rows that were made elsewhere: their readings in order, and that they were those of the file. */
  readonly elsewhere: Pick<PieceSite, 'readings' | 'taken'>;
}

/**
 * For one building or verifying of one record: the values are taken down while the trace's files are derived, so
 * that twelve hours need not be sensed twice.
 */
export function deriving(catalogueOf: CatalogueOf): Deriving {
  let tap = createValueTap();
  let sensed = false;
  let other: ValueTap | null = null;
  return {
    sense(head, events) {
      sensed = true;
      other = null;
      return tap.sense(head, events);
    },
    judge,
    words: async (wording) => (await catalogueOf(wording)).checkText.CHECK_TEXT,
    extras: certificateExtra(() => tap.values(), catalogueOf),
    values: () => (sensed ? tap.values() : null),
    elsewhere: {
      readings(columns, peakBar) {
        other ??= createValueTap();
        other.rows(columns, peakBar);
      },
      taken() {
        if (other === null) return;
        tap = other;
        sensed = true;
      },
    },
  };
}
