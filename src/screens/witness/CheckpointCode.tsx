import { createResource, Show } from 'solid-js';
import { Code } from '../../widgets/Code.tsx';
import { WITNESS as W } from '../../words/witness.ts';
import { failed, useServices } from '../context.ts';

/** The newest checkpoint of the witness log as a code, for the client's photograph. */
export function CheckpointCode() {
  const app = useServices();
  const [view] = createResource(() => app.evidence({ q: 'log' }).catch(failed(app)));
  return (
    <div class="stack" data-testid="checkpoint-code">
      <p>{W.codeLead}</p>
      <Show when={view()}>{(v) => <Code text={v().checkpoint} label={W.codeLabel} />}</Show>
    </div>
  );
}
