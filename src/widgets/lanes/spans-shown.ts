import type { Stage } from '../../watch/codes.ts';

/** How many seconds the live trace shows. */

/** Chosen by hand, or led by the stage. */
export type SpanChoice = 'stage' | 'all' | number;

/** A fill and what leads up to it, s. */
const FILL_S = 120;
/** An air test of a usual pipe with its time to settle, s. */
const AIR_TEST_S = 600;
/** Whole spans for a run that grows: the scale of time changes seldom, and then at once. */
const WHOLE = [
  120, 300, 600, 1200, 1800, 3600, 5400, 7200, 10_800, 14_400, 21_600, 28_800, 43_200, 64_800, 86_400,
];

/** All of a run that has gone on for so long, in a whole span. */
export function wholeSpan(elapsedS: number): number {
  return WHOLE.find((s) => s >= elapsedS) ?? 86_400 * Math.ceil(elapsedS / 86_400);
}

/** @param elapsedS since the first sample */
export function spanShown(choice: SpanChoice, stage: Stage, elapsedS: number): number {
  if (typeof choice === 'number') return choice;
  if (choice === 'stage' && stage === 'air-test') return AIR_TEST_S;
  return choice === 'all' || stage === 'hold' ? wholeSpan(elapsedS) : FILL_S;
}
