import { For, Index, Show } from 'solid-js';
import type { Kind } from '../../units/display.ts';
import { NumberField, type NumberRules } from '../../widgets/NumberField.tsx';
import { DOCS } from '../../words/jobs.ts';
import { useServices } from '../context.ts';

export interface Column<R> {
  readonly key: keyof R & string;
  readonly label: string;
  readonly kind?: Kind;
  readonly unit?: string;
  readonly rules?: NumberRules;
}

/** A small table of numbers that grows by rows: ratings by diameter, cure time by temperature, calibrations. */
export function Rows<R extends Record<string, number>>(props: {
  label: string;
  note?: string;
  rows: readonly R[];
  columns: readonly Column<R>[];
  blank: R;
  onRows(rows: R[]): void;
  /** What the document's check says of the field at `<path>.<row>.<key>`, and of the table itself. */
  issue(path: string): string | null;
  path: string;
  most?: number;
  testId?: string;
}) {
  const app = useServices();
  const set = (i: number, key: string, value: number | null) => {
    if (value === null) return;
    props.onRows(props.rows.map((r, k) => (k === i ? { ...r, [key]: value } : r)));
  };
  return (
    <fieldset class="rows" data-testid={props.testId}>
      <legend>{props.label}</legend>
      <Show when={props.note}>
        <p class="small muted">{props.note}</p>
      </Show>
      <Index each={props.rows}>
        {(row, i) => (
          <div class="rows-row">
            <For each={props.columns}>
              {(column) => (
                <NumberField
                  label={column.label}
                  {...(column.kind === undefined ? {} : { kind: column.kind, units: app.units() })}
                  {...(column.unit === undefined ? {} : { unit: column.unit })}
                  value={row()[column.key] ?? null}
                  onValue={(v) => set(i, column.key, v)}
                  rules={column.rules ?? {}}
                  issue={props.issue(`${props.path}.${i}.${column.key}`)}
                  {...(props.testId === undefined ? {} : { testId: `${props.testId}-${i}-${column.key}` })}
                />
              )}
            </For>
            <button
              type="button"
              class="button quiet"
              aria-label={`${DOCS.removeRow} ${i + 1}`}
              onClick={() => props.onRows(props.rows.filter((_, k) => k !== i))}
            >
              ×
            </button>
          </div>
        )}
      </Index>
      <Show when={props.issue(props.path)}>
        {(why) => (
          <p class="field-note wrong-note" role="alert">
            {why()}
          </p>
        )}
      </Show>
      <Show when={props.rows.length < (props.most ?? 16)}>
        <button
          type="button"
          class="button"
          data-testid={props.testId === undefined ? undefined : `${props.testId}-add`}
          onClick={() =>
            props.onRows([...props.rows, { ...(props.rows[props.rows.length - 1] ?? props.blank) }])
          }
        >
          {DOCS.addRow}
        </button>
      </Show>
    </fieldset>
  );
}
