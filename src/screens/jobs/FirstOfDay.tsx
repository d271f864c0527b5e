import { lazy, Show, Suspense } from 'solid-js';
import type { RunSummary } from '../../engine/messages.ts';
import { loadWords } from '../../words/chosen.ts';
import { isFirstOfDay } from './first-of-day.ts';

/** Not a part of the first page's own code: it is wanted in the morning, and never in a hurry. */
const Line = lazy(async () => {
  await loadWords('further');
  const [{ CheckpointLine }, { WITNESS }] = await Promise.all([
    import('../witness/CheckpointLine.tsx'),
    import('../../words/witness.ts'),
  ]);
  return { default: () => <CheckpointLine lead={WITNESS.lineDay} /> };
});

/** The checkpoint as the day begins, for the client's photograph. */
export function FirstOfDay(props: { runs: readonly RunSummary[] }) {
  return (
    <Show when={isFirstOfDay(props.runs, new Date())}>
      <Suspense>
        <Line />
      </Suspense>
    </Show>
  );
}
