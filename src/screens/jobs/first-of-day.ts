import type { RunSummary } from '../../engine/messages.ts';

/** Runs there are, and none was opened since midnight by the computer's own clock. */
export function isFirstOfDay(runs: readonly Pick<RunSummary, 'openedUtcMs'>[], now: Date): boolean {
  const midnight = new Date(now.getFullYear(), now.getMonth(), now.getDate()).getTime();
  return runs.length > 0 && runs.every((r) => r.openedUtcMs < midnight);
}
