import { Index, type JSX, Show } from 'solid-js';
import { mostRows } from '../../job/documents.ts';
import { Part } from '../../widgets/Fields.tsx';
import { MAPS } from '../../words/maps.ts';
import type { Form } from './form.ts';

/** The values of a map, each with its fields, to be added and taken away. */
export function MapRows<K extends 'registers' | 'columns'>(props: {
  readonly form: Form<K>;
  readonly blank: () => unknown;
  readonly children: (row: number) => JSX.Element;
}): JSX.Element {
  const rows = (): readonly unknown[] => props.form.draft().channels;
  return (
    <Part title={MAPS.rows}>
      <Index each={rows()}>
        {(_, i) => (
          <fieldset class="rows" data-testid={`${props.form.kind}-value-${i}`}>
            <legend>{MAPS.row(i + 1)}</legend>
            <div class="fields">{props.children(i)}</div>
            <Show when={rows().length > 1}>
              <button
                type="button"
                class="button quiet"
                aria-label={MAPS.remove(i + 1)}
                onClick={() =>
                  props.form.write(
                    'channels',
                    rows().filter((__, k) => k !== i),
                  )
                }
              >
                ×
              </button>
            </Show>
          </fieldset>
        )}
      </Index>
      <Show when={props.form.issue('channels')}>
        {(why) => (
          <p class="field-note wrong-note" role="alert" data-testid={`${props.form.kind}-rows-wrong`}>
            {why()}
          </p>
        )}
      </Show>
      <Show when={rows().length < mostRows(props.form.kind, 'channels')}>
        <button
          type="button"
          class="button"
          data-testid={`${props.form.kind}-channels`}
          onClick={() => props.form.write('channels', [...rows(), props.blank()])}
        >
          {MAPS.add}
        </button>
      </Show>
    </Part>
  );
}
