import { For, Index, type JSX, Show } from 'solid-js';
import { type Documents, type JobDocumentKind, mostRows, numberAt } from '../../job/documents.ts';
import type { At, PathTo } from '../../job/paths.ts';
import { NumberField, type NumberRules } from '../../widgets/NumberField.tsx';
import { DOCS } from '../../words/docs.ts';
import { useServices } from '../context.ts';
import { EMPTY, type Form, typedAt } from './form.ts';

type RowOf<T> = T extends readonly (infer R)[] ? R : never;
/** What a row has beside its numbers goes with it, and is not typed. */
type Typed<R> = { [C in keyof R]-?: NonNullable<R[C]> extends number ? C : never }[keyof R];

/**
 * A small table of numbers that grows by rows: ratings by diameter, cure time by temperature, calibrations. Bounds,
 * units and the most rows come from the schema; columns stand in the order of their words.
 */
export function FormRows<K extends JobDocumentKind, P extends PathTo<Documents[K], 'rows'>>(props: {
  readonly form: Form<K>;
  readonly at: P;
  readonly label: string;
  readonly note?: string;
  readonly columns: Readonly<Record<Typed<RowOf<At<Documents[K], P>>> & string, string>>;
  /** What the numbers are told in where another field of the document decides it. */
  readonly told?: Pick<NumberRules, 'kind' | 'unit'>;
  /** What is asked back of a number that may stand and is seldom right; null: nothing. */
  readonly asks?: (key: string, value: number) => string | null;
}): JSX.Element {
  const app = useServices();
  const rows = () => (props.form.read(props.at) ?? []) as readonly Readonly<Record<string, number>>[];
  const columns = () => Object.entries<string>(props.columns);
  // A row is added empty: a number that nobody typed is never taken for one of the plate or the data sheet.
  const emptyRow = () => Object.fromEntries(columns().map(([key]) => [key, EMPTY]));
  /** Where the numbers came of a run and were not typed. */
  const runOf = (row: { readonly runId?: unknown }) => (typeof row.runId === 'string' ? row.runId : null);
  const path = (i: number, key: string) => `${props.at}.${i}.${key}`;
  const testId = () => `${props.form.kind}-${props.at}`;
  return (
    <fieldset class="rows" data-testid={testId()}>
      <legend>{props.label}</legend>
      <Show when={props.note}>
        <p class="small muted">{props.note}</p>
      </Show>
      <Index each={rows()}>
        {(row, i) => (
          <div class="rows-row">
            <For each={columns()}>
              {([key, label]) => (
                <NumberField
                  label={label}
                  rules={{ ...numberAt(props.form.kind, path(i, key)), ...props.told, open: true }}
                  units={app.units()}
                  value={typedAt(row()[key])}
                  onValue={(v) => props.form.write(path(i, key), v ?? EMPTY)}
                  issue={props.form.issue(path(i, key))}
                  question={props.asks?.(key, row()[key] ?? EMPTY) ?? null}
                  testId={`${testId()}.${i}.${key}`}
                />
              )}
            </For>
            <Show when={runOf(row())}>
              {(runId) => (
                <a class="button quiet" href={`#/run/${runId()}`}>
                  {DOCS.ofRun}
                </a>
              )}
            </Show>
            <button
              type="button"
              class="button quiet"
              aria-label={DOCS.removeRow(i + 1)}
              onClick={() =>
                props.form.write(
                  props.at,
                  rows().filter((_, k) => k !== i),
                )
              }
            >
              ×
            </button>
          </div>
        )}
      </Index>
      <Show when={props.form.issue(props.at)}>
        {(why) => (
          <p class="field-note wrong-note" role="alert">
            {why()}
          </p>
        )}
      </Show>
      <Show when={rows().length < mostRows(props.form.kind, props.at)}>
        <button
          type="button"
          class="button"
          data-testid={`${testId()}-add`}
          onClick={() => props.form.write(props.at, [...rows(), emptyRow()])}
        >
          {DOCS.addRow}
        </button>
      </Show>
    </fieldset>
  );
}
