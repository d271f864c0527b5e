import { createSignal } from 'solid-js';
import type { RunSummary } from '../../engine/messages.ts';
import { Confirm } from '../../widgets/Dialog.tsx';
import { REVIEW } from '../../words/review.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';

/** Removes a run of this tablet after a question; a sealed one says that its seal goes with it. */
export function RemoveRun(props: { run: RunSummary }) {
  const app = useServices();
  const [asked, setAsked] = createSignal(false);
  const remove = () => {
    setAsked(false);
    app.runs.remove(props.run.runId).then(() => app.go({ page: 'jobs' }), app.fail);
  };
  return (
    <>
      <button type="button" class="button quiet" data-testid="remove-run" onClick={() => setAsked(true)}>
        {REVIEW.remove}
      </button>
      <Confirm
        open={asked()}
        title={REVIEW.removeTitle}
        text={props.run.sealedUtcMs === undefined ? REVIEW.removeText : REVIEW.removeSealed}
        yes={UI.remove}
        onYes={remove}
        onNo={() => setAsked(false)}
      />
    </>
  );
}
