import type { HostDeps } from './deps.ts';
import { EngineError } from './errors.ts';
import type { RunTitle } from './tally.ts';

/** Takes every name or none. */
export async function lockAll(deps: HostDeps, names: readonly string[]): Promise<() => void> {
  const held: (() => void)[] = [];
  const release = (): void => {
    for (const r of held.splice(0)) r();
  };
  for (const name of names) {
    const one = await deps.locks.acquire(name);
    if (one === null) {
      release();
      throw new EngineError('run-locked', 'another tab runs this job');
    }
    held.push(one);
  }
  return release;
}

export const runLocks = (title: Pick<RunTitle, 'runId' | 'jobId'>): string[] =>
  title.jobId === null ? [`run-${title.runId}`] : [`run-${title.runId}`, `job-${title.jobId}`];

/** Is the run recorded now, by this tab or another? */
export async function isRunHeld({ locks }: Pick<HostDeps, 'locks'>, runId: string): Promise<boolean> {
  const release = await locks.acquire(runLocks({ runId, jobId: null })[0]!);
  release?.();
  return release === null;
}
