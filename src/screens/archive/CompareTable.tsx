import { createMemo, createResource, For, Show } from 'solid-js';
import { type RecordView, refOf, type StatusLine } from '../../evidence/messages.ts';
import { ARCHIVE as A } from '../../words/archive.ts';
import { EVIDENCE as E } from '../../words/evidence.ts';
import { count, dateTimeZone } from '../../words/format.ts';
import { RECORDS } from '../../words/records.ts';
import { failed, useServices } from '../context.ts';
import { askedRows } from '../review/asked.ts';
import { runClock } from '../review/run-clock.ts';
import { AlarmCounts } from '../runs/AlarmCounts.tsx';

interface Column {
  readonly record: RecordView;
  readonly status: StatusLine | null;
}

/** What a reviewer asks for of each run, side by side, under the numbers that the picture gives them. */
export function CompareTable(props: { ids: readonly string[] }) {
  const app = useServices();
  const figuresOf = async (ids: readonly string[]): Promise<readonly Column[]> => {
    const columns: Column[] = [];
    // One after the other: a record that must be sensed again takes the worker for itself.
    for (const id of ids) {
      const record = await app.evidence({ q: 'record', ref: refOf(id) });
      const lines = await app.evidence({ q: 'statuses', ref: refOf(id) });
      columns.push({ record, status: lines.at(-1) ?? null });
    }
    return columns;
  };
  const [read] = createResource(
    () => props.ids,
    (ids) => figuresOf(ids).catch(failed(app)),
  );
  const columns = createMemo(() => read() ?? []);
  /** The same names in the same order for each of them. */
  const rows = createMemo(() => {
    const each = columns().map(({ record }) => askedRows(record, runClock(record.detail), app.units(), true));
    return (each[0] ?? []).map(([name], i) => ({ name, texts: each.map((one) => one[i]?.[1] ?? '') }));
  });
  return (
    <section class="panel stack compare-figures" data-testid="compare-figures" aria-label={A.compareNumbers}>
      <h2>{A.compareNumbers}</h2>
      <Show when={columns().length > 0}>
        <div class="table-scroll">
          <table class="budget">
            <thead>
              <tr>
                <th scope="col">{A.run}</th>
                <For each={columns()}>
                  {({ record }, i) => (
                    <th scope="col">
                      {count(i() + 1)} {record.detail.summary.title}
                    </th>
                  )}
                </For>
              </tr>
            </thead>
            <tbody>
              <tr>
                <th scope="row">{A.recorded}</th>
                <For each={columns()}>
                  {({ record }) => <td>{dateTimeZone(record.detail.summary.openedUtcMs)}</td>}
                </For>
              </tr>
              <For each={rows()}>
                {(row) => (
                  <tr>
                    <th scope="row">{row.name}</th>
                    <For each={row.texts}>{(text) => <td>{text}</td>}</For>
                  </tr>
                )}
              </For>
              <tr>
                <th scope="row">{RECORDS.alarms}</th>
                <For each={columns()}>
                  {({ record }) => (
                    <td>
                      <AlarmCounts counts={record.numbers.alarms} />
                    </td>
                  )}
                </For>
              </tr>
              <tr>
                <th scope="row">{A.decision}</th>
                <For each={columns()}>{({ status }) => <td>{E.statuses[status?.status ?? 'open']}</td>}</For>
              </tr>
            </tbody>
          </table>
        </div>
      </Show>
    </section>
  );
}
