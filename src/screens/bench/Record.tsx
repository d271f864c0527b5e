import { createResource, For, Show } from 'solid-js';
import type { BenchDocument } from '../../job/bench-document.ts';
import { BENCH, REFUSED } from '../../words/bench.ts';
import { dateTimeZone, duration } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { UI } from '../../words/ui.ts';
import { failed, useServices } from '../context.ts';
import { type Kept, keep, loadOne } from '../documents/store.ts';
import { saveBytes } from '../save.ts';
import { Findings } from './Findings.tsx';

/** The kept record of a device, as it prints. */
export function BenchRecord(props: { id: string }) {
  const app = useServices();
  const [kept] = createResource(
    () => props.id,
    (id) => loadOne(app, 'bench', id).catch(failed(app)),
  );
  return (
    <>
      <div class="row no-print">
        <a class="button quiet" href="#/bench">
          {UI.back}
        </a>
      </div>
      <Show when={kept()} fallback={<Show when={!kept.loading}>{BENCH.gone}</Show>} keyed>
        {(k) => <Sheet kept={k} />}
      </Show>
    </>
  );
}

function Sheet(props: { kept: Kept<BenchDocument> }) {
  const app = useServices();
  const { id, document: record } = props.kept;
  const rows: readonly (readonly [string, string])[] = [
    [BENCH.device, record.deviceId],
    [BENCH.firmware, record.firmware],
    [BENCH.when, dateTimeZone(record.utcMs)],
    [BENCH.listenedRow, duration(record.listenedS)],
    ...(record.baudRate === null ? [] : ([[BENCH.speed, BENCH.baud(record.baudRate)]] as const)),
    ...(record.by === '' ? [] : ([[BENCH.byRow, record.by]] as const)),
  ];
  const exportIt = async () => {
    const { benchFileText } = await import('../../job/bench-file.ts');
    saveBytes(`bench-${record.deviceId}.json`, benchFileText(record));
  };
  const remove = () => {
    app.ask({ q: 'remove-document', kind: 'bench', id }).then(() => {
      app.say(JOBS.removed, () => void keep(app, 'bench', id, 0, record).catch(app.fail));
      app.go({ page: 'bench', id: null });
    }, app.fail);
  };
  return (
    <article class="stack bench-record" data-testid="bench-record">
      <h1>{BENCH.recordTitle(record.deviceId)}</h1>
      <Show when={record.practice}>
        <p class="note strong practice-edge" data-testid="bench-is-practice">
          {BENCH.practiceMark}
        </p>
      </Show>
      <Show when={record.origin === 'file'}>
        <p class="note strong" data-testid="bench-is-file">
          {BENCH.fileMark}
        </p>
      </Show>
      <dl class="bench-facts">
        <For each={rows}>
          {([name, text]) => (
            <div>
              <dt>{name}</dt>
              <dd>{text}</dd>
            </div>
          )}
        </For>
      </dl>
      <h2>{BENCH.points}</h2>
      <Findings findings={record.findings} />
      <Show when={record.refused.length > 0}>
        <h2>{BENCH.refusedTitle}</h2>
        <ul class="bench-lines">
          <For each={record.refused}>
            {(r) => (
              <li>
                {BENCH.refusedCount(r.lines)}
                {UI.colon} {REFUSED[r.reason]}{' '}
                <code class="stray-line" translate="no">
                  {r.example}
                </code>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <h2>{BENCH.said}</h2>
      <ul class="bench-lines">
        <For each={record.said}>
          {(line) => (
            <li>
              <code class="stray-line" translate="no">
                {line}
              </code>
            </li>
          )}
        </For>
      </ul>
      <Show when={record.notes !== ''}>
        <h2>{BENCH.notes}</h2>
        <p class="bench-notes">{record.notes}</p>
      </Show>
      <p class="small muted">{BENCH.notProved}</p>
      <div class="row end no-print">
        <button type="button" class="button quiet" data-testid="bench-remove" onClick={remove}>
          {UI.remove}
        </button>
        <button
          type="button"
          class="button"
          data-testid="bench-export"
          onClick={() => void exportIt().catch(app.fail)}
        >
          {BENCH.export}
        </button>
        <button type="button" class="button primary" data-testid="bench-print" onClick={() => print()}>
          {BENCH.print}
        </button>
      </div>
    </article>
  );
}
