import { createResource, createSignal, Show } from 'solid-js';
import { Code } from '../../widgets/Code.tsx';
import { WITNESS as W } from '../../words/witness.ts';
import { useServices } from '../context.ts';

/**
 * The newest checkpoint on a quiet line where one is worth something, without being asked for: its short form, and the
 * code one press away. A checkpoint bounds what was noted before it, so that a log with nothing in it has no line.
 */
export function CheckpointLine(props: {
  /** What a photograph of it is good for here. */
  lead: string;
  /** Asked again whenever this changes: something was noted. */
  of?: unknown;
}) {
  const app = useServices();
  // It is an offer: where the log can't be read, its own page says why.
  const [view] = createResource(
    () => ({ of: props.of }),
    () => app.evidence({ q: 'log' }).catch(() => null),
  );
  const [open, setOpen] = createSignal(false);
  return (
    <Show when={(view.latest?.leaves ?? 0) > 0 && view.latest}>
      {(v) => (
        <details class="small" data-testid="checkpoint-line" onToggle={(e) => setOpen(e.currentTarget.open)}>
          <summary>{W.line(W.leaves(v().leaves), v().short)}</summary>
          <p>{props.lead}</p>
          <Show when={open()}>
            <Code text={v().checkpoint} label={W.codeLabel} />
          </Show>
          <p>
            <a href="#/log">{W.link}</a>
          </p>
        </details>
      )}
    </Show>
  );
}
