import { For, Show } from 'solid-js';
import type { FileState, FolderLine, FolderList } from '../../evidence/office/messages.ts';
import { findingText, signerText } from '../../words/evidence.ts';
import { bytes, dateTime } from '../../words/format.ts';
import { OFFICE as O } from '../../words/office.ts';

// Each state has its words: this is checked here.
const STATES: Readonly<Record<FileState, string>> = O.states;

/** The folder's files, what is new first; what is broken stands among them with its reason. */
export function Lines(props: {
  list: FolderList;
  busy: boolean;
  onFile(line: FolderLine, keep: boolean): void;
}) {
  const fresh = () => props.list.lines.filter((l) => l.fresh && l.state === 'whole').length;
  const ordered = () =>
    [...props.list.lines].sort(
      (a, b) => Number(b.fresh) - Number(a.fresh) || (b.openedUtcMs ?? 0) - (a.openedUtcMs ?? 0),
    );
  return (
    <Show when={props.list.lines.length > 0} fallback={<p data-testid="office-empty">{O.empty}</p>}>
      <p role="status" data-testid="office-fresh">
        {fresh() > 0 ? O.fresh(fresh()) : O.freshNone}
      </p>
      <ul class="plates" data-testid="office-list">
        <For each={ordered()}>
          {(l) => (
            <li class="stack office-line" data-state={l.state}>
              <p>
                <strong>{l.title === '' ? l.name : l.title}</strong>
                <Show when={l.fresh}> · {O.newTag}</Show>
                <Show when={l.own}> · {O.ownTag}</Show>
                <Show when={l.kept}> · {O.keptTag}</Show>
              </p>
              <p class="small muted">
                {l.name}, {bytes(l.bytes)}
                <Show when={l.openedUtcMs !== null}>, {dateTime(l.openedUtcMs!)}</Show>
              </p>
              <p>
                {STATES[l.state]}
                <Show when={l.state === 'whole'}>, {O.signedBy(signerText(l.signer))}</Show>
                <Show when={l.finding}>
                  {(f) => <span class="small muted">. {findingText(f(), 0)}</span>}
                </Show>
              </p>
              <Show when={l.state === 'whole'}>
                <div class="row">
                  <button
                    type="button"
                    class="button"
                    disabled={props.busy}
                    onClick={() => props.onFile(l, false)}
                  >
                    {O.open}
                  </button>
                  <Show when={!l.kept && !l.own}>
                    <button
                      type="button"
                      class="button"
                      disabled={props.busy}
                      onClick={() => props.onFile(l, true)}
                    >
                      {O.keep}
                    </button>
                  </Show>
                </div>
              </Show>
            </li>
          )}
        </For>
      </ul>
      <Show when={props.list.more > 0}>
        <p class="note">{O.more(props.list.more)}</p>
      </Show>
    </Show>
  );
}
