import type { HostDeps } from '../../engine/deps.ts';
import { createSavedRuns, type SavedRuns } from '../saved-runs.ts';

const known = new WeakMap<object, SavedRuns>();

/** As the other worker looks at the files of an engine's bench: one a bench. */
export function savedOf(bench: { readonly deps: HostDeps }): SavedRuns {
  const saved = known.get(bench) ?? createSavedRuns({ ...bench.deps, pause: async () => undefined });
  known.set(bench, saved);
  return saved;
}
