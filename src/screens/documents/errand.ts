import type { EditKind } from '../route.ts';
import type { Step } from '../sheet/steps.ts';

/** What a job sheet sends for: a packer, resin or sensor that is not there yet. */
export interface Errand {
  readonly jobId: string;
  readonly kind: EditKind;
  /** For a sensor the channel that it is to stand at. */
  readonly channel: number | null;
  /** Where the crew stood in the sheet, and whether all its fields were shown. */
  readonly step: Step;
  readonly all: boolean;
}

/** The sheet was left for it, and the form not opened yet. */
let sent: Errand | null = null;
/** The form was opened for it; `madeId` is what was saved there. */
let under: { readonly errand: Errand; madeId: string | null } | null = null;

/** The sheet is left for the form of a new document. */
export function sendFor(errand: Errand): void {
  sent = errand;
  under = null;
}

/** The form of a new document opens: whether a sheet waits for it. Another new one, made later, is nobody's. */
export function takeUp(kind: Errand['kind']): boolean {
  under = sent?.kind === kind ? { errand: sent, madeId: null } : null;
  sent = null;
  return under !== null;
}

export function bringBack(madeId: string): void {
  if (under !== null) under.madeId = madeId;
}

/** The sheet is there again: where it was left, and the id of what was made meanwhile (null: nothing). Told once. */
export function comeBack(jobId: string): { readonly errand: Errand; readonly madeId: string | null } | null {
  const done = under ?? (sent === null ? null : { errand: sent, madeId: null });
  if (done?.errand.jobId !== jobId) return null;
  sent = null;
  under = null;
  return done;
}
