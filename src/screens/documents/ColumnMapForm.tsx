import type { JSX } from 'solid-js';
import { LINE_BAUDS } from '../../job/codes.ts';
import { blankMeasure } from '../../job/reading-map.ts';
import { Part } from '../../widgets/Fields.tsx';
import { BAUD, DECIMAL_MARK, MAPS, REGISTERS } from '../../words/maps.ts';
import { Help } from '../help/Help.tsx';
import { FormChoice, FormNumber, FormText } from './FormFields.tsx';
import type { Form } from './form.ts';
import { MapChannelFields } from './MapChannelFields.tsx';
import { MapFile } from './MapFile.tsx';
import { MapRows } from './MapRows.tsx';
import { MapTest } from './MapTest.tsx';

const BAUDS = Object.fromEntries(LINE_BAUDS.map((b) => [b, BAUD(b)])) as Record<
  (typeof LINE_BAUDS)[number],
  string
>;

/** Which columns or names of a plain line are which channels. */
export function ColumnMapForm(props: { form: Form<'columns'> }): JSX.Element {
  const form = props.form;
  const at = <M extends string>(row: number, member: M) => `channels.${row}.${member}` as const;
  return (
    <>
      <Part title={MAPS.source}>
        <div class="with-help">
          <p class="muted">{MAPS.columnsText}</p>
          <Help about="columns" of={MAPS.columnsOne} />
        </div>
        <div class="fields">
          <FormText form={form} at="name" label={REGISTERS.name} />
          <FormText form={form} at="deviceId" label={REGISTERS.deviceId} hint={REGISTERS.deviceIdHint} />
        </div>
        <MapFile form={form} />
      </Part>
      <Part title={MAPS.line}>
        <div class="fields">
          <FormChoice form={form} at="baud" label={REGISTERS.baud} words={BAUDS} />
          <FormChoice form={form} at="decimal" label={REGISTERS.decimal} words={DECIMAL_MARK} />
          <FormNumber form={form} at="cells" label={REGISTERS.cells} hint={REGISTERS.cellsHint} />
        </div>
      </Part>
      <MapRows
        form={form}
        blank={() => ({
          ...blankMeasure('temperature'),
          key: '',
          column: form.draft().channels.length + 1,
        })}
      >
        {(row) => (
          <>
            <FormText form={form} at={at(row, 'key')} label={REGISTERS.key} />
            <FormNumber form={form} at={at(row, 'column')} label={REGISTERS.column} />
            <MapChannelFields form={form} row={row} />
          </>
        )}
      </MapRows>
      <MapTest form={form} />
      <Part title={REGISTERS.notes} folded>
        <FormText form={form} at="notes" label={REGISTERS.notes} long />
      </Part>
    </>
  );
}
