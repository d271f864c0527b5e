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
          return <Field form={props.of.form} choices={props.of.choices} proposalBar={props.of.proposalBar} />;
        }}
      </For>
    </div>
  );
}

/** Ways to a packer or a resin that is not there yet. */
export function NewOnes() {
  return (
    <div class="row">
      <a class="button" href="#/packer/new">
        {SHEET.newPacker}
      </a>
      <a class="button" href="#/resin/new">
        {SHEET.newResin}
      </a>
    </div>
  );
}

/** One part of the page with all fields. */
export function FieldPart(props: { part: SheetPart; of: SheetFieldProps; children?: JSX.Element }) {
  return (
    <Part title={TITLE[props.part]} folded={FOLDED.has(props.part)}>
      <SheetFields names={PART_FIELDS[props.part]} of={props.of} />
      <Show when={props.part === 'packer'}>
        <NewOnes />
      </Show>
      <Show when={props.part === 'line'}>
        <Channels form={props.of.form} choices={props.of.choices} />
      </Show>
      {props.children}
    </Part>
  );
}
