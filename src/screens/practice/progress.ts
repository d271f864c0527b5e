/** What is shown of the results of one person. */
import type { Result } from '../../evidence/messages.ts';
import type { DrillCode } from '../../practice/codes.ts';

export interface Standing {
  readonly played: number;
  readonly met: number;
  readonly last: Result | null;
}

export function standingOf(results: readonly Result[], drill: DrillCode, trainee: string): Standing {
  const own = results.filter((r) => r.drill === drill && r.trainee === trainee);
  return {
    played: own.length,
    met: own.filter((r) => r.outcome === 'met').length,
    last: own.at(-1) ?? null,
  };
}

/** Drills of which the goal was met at least once. */
export const metOf = (results: readonly Result[], trainee: string): number =>
  new Set(results.filter((r) => r.trainee === trainee && r.outcome === 'met').map((r) => r.drill)).size;
