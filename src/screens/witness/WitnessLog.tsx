import { createResource, createSignal, For, Show } from 'solid-js';
import type { LogView, WitnessReport } from '../../evidence/witness/messages.ts';
import { Code } from '../../widgets/Code.tsx';
import { Part, TextField } from '../../widgets/Fields.tsx';
import { FileKey } from '../../widgets/FileKey.tsx';
import { dateTimeZone } from '../../words/format.ts';
import { UI } from '../../words/ui.ts';
import { SEEN, TAKEN, WITNESS as W } from '../../words/witness.ts';
import { failed, useServices } from '../context.ts';
import { Fingerprint } from '../Fingerprint.tsx';
import { saveBlob } from '../save.ts';
import { CompareCheckpoint } from './Compare.tsx';

const witnessName = ({ what, name }: LogView['witnesses'][number]): string =>
  what === 'stamp' ? W.stampBy : name === null ? W.unknownWitness : name === '' ? W.self : name;

/** The tablet's witness log: its newest checkpoint to be photographed, what is not sealed, who has seen it. */
export function WitnessLog() {
  const app = useServices();
  const [view, { refetch }] = createResource(() => app.evidence({ q: 'log' }).catch(failed(app)));
  const [report, setReport] = createSignal<WitnessReport | null>(null);
  const [busy, setBusy] = createSignal(false);
  const [stamped, setStamped] = createSignal('');

  async function visit(countersign: boolean): Promise<void> {
    setBusy(true);
    try {
      setReport(await app.evidence({ q: 'office-witness', countersign }));
      await refetch();
    } catch (error) {
      app.fail(error);
    }
    setBusy(false);
  }
  const save = () =>
    app.evidence({ q: 'log-file' }).then((file) => saveBlob('steadybar-witness-log.txt', file), app.fail);
  const take = (response: Blob) =>
    app.evidence({ q: 'take-stamp', checkpoint: stamped(), response }).then((outcome) => {
      app.say(TAKEN[outcome]);
      void refetch();
    }, app.fail);

  return (
    <div class="page witness-log">
      <h1>{W.title}</h1>
      <p class="muted">{W.lead}</p>
      <Show when={view()}>
        {(v) => (
          <>
            <Part title={W.code}>
              <p>{W.codeLead}</p>
              <Code text={v().checkpoint} label={W.codeLabel} />
              <p data-testid="log-leaves">{W.leaves(v().leaves)}</p>
              <details>
                <summary>{W.asText}</summary>
                <pre class="mono wrap" data-testid="checkpoint">
                  {v().checkpoint}
                </pre>
              </details>
              <div class="row">
                <button type="button" class="button" data-testid="log-refresh" onClick={() => void refetch()}>
                  {W.refresh}
                </button>
                <button type="button" class="button" data-testid="log-save" onClick={() => void save()}>
                  {W.save}
                </button>
              </div>
              <p class="muted">{W.saveNote}</p>
            </Part>
            <Part title={W.unsealed}>
              <Show
                when={v().unsealed.length > 0}
                fallback={<p data-testid="unsealed-none">{W.unsealedNone}</p>}
              >
                <ul data-testid="unsealed">
                  <For each={v().unsealed}>
                    {(u) => (
                      <li>
                        <Show when={u.runId} fallback={W.gone}>
                          {(id) => <a href={`#/run/${id()}`}>{u.title === '' ? id() : u.title}</a>}
                        </Show>
                        {', '}
                        {W.opened(dateTimeZone(u.openedUtcMs))}
                        {', '}
                        {u.endedUtcMs === null ? W.notEnded : W.ended(dateTimeZone(u.endedUtcMs))}
                      </li>
                    )}
                  </For>
                </ul>
              </Show>
              <Show when={v().sealedTwice > 0}>
                <p class="note strong">{W.twice(v().sealedTwice)}</p>
              </Show>
              <Show when={v().practice > 0}>
                <p class="muted">{W.practice(v().practice)}</p>
              </Show>
            </Part>
            <Part title={W.witnesses}>
              <Show when={v().witnesses.length > 0} fallback={<p>{W.witnessesNone}</p>}>
                <ul data-testid="witnesses">
                  <For each={v().witnesses}>
                    {(w) => <li>{W.seenBy(witnessName(w), W.leaves(w.size), dateTimeZone(w.utcMs))}</li>}
                  </For>
                </ul>
              </Show>
            </Part>
            <Part title={W.office}>
              <p>{W.officeLead}</p>
              <div class="row">
                <button
                  type="button"
                  class="button"
                  data-testid="log-exchange"
                  disabled={busy()}
                  onClick={() => void visit(false)}
                >
                  {W.exchange}
                </button>
                <button
                  type="button"
                  class="button"
                  data-testid="log-countersign"
                  disabled={busy()}
                  onClick={() => void visit(true)}
                >
                  {W.countersign}
                </button>
              </div>
              <p class="muted">{W.countersignLead}</p>
              <Show when={busy()}>
                <p role="status">{W.working}</p>
              </Show>
              <Show when={report()}>
                {(r) => (
                  <div role="status" data-testid="witness-report">
                    <p>{W.report(r().published, r().taken, r().cosigned)}</p>
                    <Show when={r().refused.length > 0}>
                      <h3>{W.refused}</h3>
                      <ul>
                        <For each={r().refused}>
                          {(x) => (
                            <li>
                              {x.origin}, {W.leaves(x.size)}
                              {UI.colon} {SEEN[x.why]}
                            </li>
                          )}
                        </For>
                      </ul>
                    </Show>
                  </div>
                )}
              </Show>
              <Fingerprint label={W.asWitness} value={v().asWitness} testId="as-witness" />
              <Show when={v().seen.length > 0}>
                <h3>{W.others}</h3>
                <ul data-testid="seen-logs">
                  <For each={v().seen}>
                    {(s) => (
                      <li>
                        {W.otherLine(s.origin, W.leaves(s.size), dateTimeZone(s.utcMs))}
                        <Show when={s.refused}>
                          {(r) => <strong> {W.otherRefused(SEEN[r().why], dateTimeZone(r().utcMs))}</strong>}
                        </Show>
                      </li>
                    )}
                  </For>
                </ul>
              </Show>
            </Part>
            <Part title={W.compare}>
              <CompareCheckpoint with="log" lead={W.compareLead} />
            </Part>
            <Part title={W.stamp}>
              <p>{W.stampLead}</p>
              <TextField
                long
                label={W.stampText}
                testId="stamp-text"
                value={stamped()}
                onValue={setStamped}
              />
              <div class="row">
                <FileKey
                  label={W.stampFile}
                  testId="stamp-file"
                  disabled={stamped().trim() === ''}
                  onFile={(file) => void take(file)}
                >
                  {W.stampFile}
                </FileKey>
              </div>
            </Part>
          </>
        )}
      </Show>
    </div>
  );
}
