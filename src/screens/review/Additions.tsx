import { createSignal, For, Show } from 'solid-js';
import type { SealedFacts } from '../../evidence/messages.ts';
import { Choice, optionsOf, Part, TextField } from '../../widgets/Fields.tsx';
import { EVIDENCE as E, signerText } from '../../words/evidence.ts';
import { dateTimeZone } from '../../words/format.ts';
import { useServices } from '../context.ts';
import { knownInitials, ownInitials } from '../people.ts';

type Kind = 'correction' | 'note';

/** A body that this program wrote; others are shown as they are. */
function bodyText(body: unknown): { readonly text: string; readonly by: string } {
  const { text, by } = (typeof body === 'object' && body !== null ? body : {}) as Record<string, unknown>;
  return {
    text: typeof text === 'string' ? text : JSON.stringify(body),
    by: typeof by === 'string' ? by : '',
  };
}

/** What was added, of which kind, when, by whom, and by whose key. */
export function AdditionLine(props: { of: SealedFacts['additions'][number] }) {
  const body = () => bodyText(props.of.body);
  const kind = () => (props.of.kind === 'status' ? E.status : E.kinds[props.of.kind]);
  return (
    <li>
      {/* Texts of anybody's, apart: signs that turn the direction turn nothing of what stands beside them. */}
      {kind()}, {dateTimeZone(props.of.utcMs)}, <bdi>{body().by}</bdi> ({signerText(props.of.signedBy)}):{' '}
      <strong>
        <bdi>{body().text}</bdi>
      </strong>
    </li>
  );
}

/** Corrections after the sealing: signed, added at the end, nothing rewritten. */
export function Additions(props: { sealed: SealedFacts; runId: string | null; onChange(): void }) {
  const app = useServices();
  const [kind, setKind] = createSignal<Kind>('correction');
  const [text, setText] = createSignal('');
  const [typedBy, setBy] = createSignal<string | null>(null);
  const by = () => typedBy() ?? ownInitials(app);
  const add = (runId: string) =>
    app.evidence({ q: 'add', runId, kind: kind(), text: text(), by: by() }).then(() => {
      setText('');
      props.onChange();
    }, app.fail);
  return (
    <Part title={E.additions}>
      <Show when={props.sealed.additions.length > 0} fallback={<p class="muted small">{E.noAdditions}</p>}>
        <ol class="dots" data-testid="additions">
          <For each={props.sealed.additions}>{(a) => <AdditionLine of={a} />}</For>
        </ol>
      </Show>
      <Show when={props.runId}>
        {(runId) => (
          <details class="no-print">
            <summary>{E.addTitle}</summary>
            <div class="stack">
              <div class="fields">
                <Choice
                  label={E.addKind}
                  value={kind()}
                  options={optionsOf<Kind>(E.kinds)}
                  onValue={setKind}
                />
                <TextField
                  label={E.addBy}
                  testId="addition-by"
                  value={by()}
                  offers={knownInitials(app)}
                  onValue={setBy}
                />
              </div>
              <TextField label={E.addText} testId="addition-text" long value={text()} onValue={setText} />
              <div class="row">
                <button
                  type="button"
                  class="button"
                  data-testid="add-addition"
                  disabled={text().trim() === '' || by().trim() === ''}
                  onClick={() => void add(runId())}
                >
                  {E.add}
                </button>
              </div>
            </div>
          </details>
        )}
      </Show>
    </Part>
  );
}
