import { createSignal, Show } from 'solid-js';
import type { Comparison } from '../../evidence/witness/messages.ts';
import { TextField } from '../../widgets/Fields.tsx';
import { comparisonText, WITNESS as W } from '../../words/witness.ts';
import { useServices } from '../context.ts';

/** A checkpoint's text, pasted, against this tablet's log or the file that was verified last. */
export function CompareCheckpoint(props: { with: 'log' | 'opened'; lead: string }) {
  const app = useServices();
  const [text, setText] = createSignal('');
  const [told, setTold] = createSignal<{ readonly c: Comparison | null } | null>(null);
  const compare = () =>
    app.evidence({ q: 'compare', text: text(), with: props.with }).then((c) => setTold({ c }), app.fail);
  const good = () => told()?.c?.c === 'same-history';
  return (
    <div class="stack">
      <p>{props.lead}</p>
      <TextField
        long
        label={W.compareText}
        testId="compare-text"
        value={text()}
        onValue={(typed) => {
          setText(typed);
          setTold(null);
        }}
      />
      <div class="row">
        <button
          type="button"
          class="button"
          data-testid="compare-checkpoint"
          disabled={text().trim() === ''}
          onClick={() => void compare()}
        >
          {W.compareDo}
        </button>
      </div>
      <Show when={told()}>
        {(t) => (
          <p
            class="note"
            classList={{ strong: !good() }}
            role="status"
            data-testid="comparison"
            data-comparison={t().c?.c ?? 'none'}
          >
            {comparisonText(t().c)}
          </p>
        )}
      </Show>
    </div>
  );
}
