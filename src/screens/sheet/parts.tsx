import { For, type JSX, Show } from 'solid-js';
import { Part } from '../../widgets/Fields.tsx';
import { SHEET } from '../../words/sheet.ts';
import { Channels } from './Channels.tsx';
import { FIELD, type SheetFieldProps } from './fields.tsx';
import { PART_FIELDS, type SheetPart } from './steps.ts';

const TITLE: Readonly<Record<SheetPart, string>> = {
  what: SHEET.partWhat,
  pipe: SHEET.partPipe,
  packer: SHEET.partPacker,
  pressures: SHEET.partPressures,
  line: SHEET.partSensors,
  sleeve: SHEET.partSleeve,
  notes: SHEET.notes,
};

/** Folded until somebody asks for them. */
const FOLDED: ReadonlySet<SheetPart> = new Set<SheetPart>(['sleeve', 'notes']);

/** Fields by their names, as they stand in a part or a step. */
export function SheetFields(props: {
  names: readonly (keyof typeof FIELD)[];
  of: SheetFieldProps;
}): JSX.Element {
  return (
    <div class="fields">
      <For each={props.names}>
        {(name) => {
          const Field = FIELD[name];
          return (
            <Field
              form={props.of.form}
              choices={props.of.choices}
              proposalBar={props.of.proposalBar}
              onNew={props.of.onNew}
            />
          );
        }}
      </For>
    </div>
  );
}

/** Ways to a packer or a resin that is not there yet. */
export function NewOnes(props: { onNew: SheetFieldProps['onNew'] }) {
  return (
    <div class="row">
      <button
        type="button"
        class="button"
        data-testid="sheet-new-packer"
        onClick={() => props.onNew('packer', null)}
      >
        {SHEET.newPacker}
      </button>
      <button
        type="button"
        class="button"
        data-testid="sheet-new-resin"
        onClick={() => props.onNew('resin', null)}
      >
        {SHEET.newResin}
      </button>
    </div>
  );
}

/** One part of the page with all fields. */
export function FieldPart(props: { part: SheetPart; of: SheetFieldProps; children?: JSX.Element }) {
  return (
    <Part title={TITLE[props.part]} folded={FOLDED.has(props.part)}>
      <SheetFields names={PART_FIELDS[props.part]} of={props.of} />
      <Show when={props.part === 'packer'}>
        <NewOnes onNew={props.of.onNew} />
      </Show>
      <Show when={props.part === 'line'}>
        <Channels form={props.of.form} choices={props.of.choices} onNew={props.of.onNew} />
      </Show>
      {props.children}
    </Part>
  );
}
