import { type JSX, Show } from 'solid-js';
import { BUS_BAUDS, REGISTER_WORDS } from '../../job/codes.ts';
import { blankRegister } from '../../job/reading-map.ts';
import { paceOf } from '../../link/modbus/asks.ts';
import { Part, Tick } from '../../widgets/Fields.tsx';
import { fixed } from '../../words/format.ts';
import { BAUD, MAPS, PARITY, READ_FUNCTION, REGISTER_TYPE, REGISTERS, WORD_ORDER } from '../../words/maps.ts';
import { Help } from '../help/Help.tsx';
import { FormChoice, FormNumber, FormText } from './FormFields.tsx';
import type { Form } from './form.ts';
import { MapChannelFields } from './MapChannelFields.tsx';
import { MapFile } from './MapFile.tsx';
import { MapRows } from './MapRows.tsx';
import { MapTest } from './MapTest.tsx';

const BAUDS = Object.fromEntries(BUS_BAUDS.map((b) => [b, BAUD(b)])) as Record<
  (typeof BUS_BAUDS)[number],
  string
>;

/** Which registers of a bus are which channels. */
export function RegisterMapForm(props: { form: Form<'registers'> }): JSX.Element {
  const form = props.form;
  const pace = () => (form.ok() ? paceOf(form.draft()) : null);
  return (
    <>
      <Part title={MAPS.source}>
        <div class="with-help">
          <p class="muted">{MAPS.registersText}</p>
          <Help about="registers" of={MAPS.registersOne} />
        </div>
        <div class="fields">
          <FormText form={form} at="name" label={REGISTERS.name} />
          <FormText form={form} at="deviceId" label={REGISTERS.deviceId} hint={REGISTERS.deviceIdHint} />
        </div>
        <MapFile form={form} />
      </Part>
      <Part title={MAPS.bus}>
        <div class="fields">
          <FormChoice form={form} at="baud" label={REGISTERS.baud} words={BAUDS} />
          <FormChoice form={form} at="parity" label={REGISTERS.parity} words={PARITY} />
          <FormNumber form={form} at="answerMs" label={REGISTERS.answerMs} />
          <FormNumber form={form} at="retries" label={REGISTERS.retries} />
        </div>
        <Show when={pace()}>
          {(p) => (
            <p class="small" data-testid="map-pace">
              {MAPS.pace(fixed(p().askedHz, 0), fixed(p().mostHz, 0))}
              <Show when={p().askedHz > p().mostHz}> {MAPS.paceShort}</Show>
            </p>
          )}
        </Show>
      </Part>
      <MapRows form={form} blank={() => blankRegister('temperature')}>
        {(row) => <Row form={form} row={row} />}
      </MapRows>
      <MapTest form={form} />
      <Part title={REGISTERS.notes} folded>
        <FormText form={form} at="notes" label={REGISTERS.notes} long />
      </Part>
    </>
  );
}

function Row(props: { form: Form<'registers'>; row: number }): JSX.Element {
  const at = <M extends string>(member: M) => `channels.${props.row}.${member}` as const;
  const channel = () => props.form.draft().channels[props.row];
  /** A data sheet's 4xxxx and 3xxxx count from 1, and their first digit is the function. */
  const printed = (): string | null => {
    const register = channel()?.register ?? 0;
    if (register > 40_000 && register < 50_000) return REGISTERS.asPrinted(register, register - 40_001, 3);
    if (register > 30_000 && register < 40_000) return REGISTERS.asPrinted(register, register - 30_001, 4);
    return null;
  };
  return (
    <>
      <MapChannelFields form={props.form} row={props.row} />
      <FormNumber form={props.form} at={at('address')} label={REGISTERS.address} />
      <FormChoice form={props.form} at={at('fn')} label={REGISTERS.fn} words={READ_FUNCTION} />
      <FormNumber
        form={props.form}
        at={at('register')}
        label={REGISTERS.register}
        hint={REGISTERS.registerHint}
        question={printed()}
      />
      <FormChoice form={props.form} at={at('type')} label={REGISTERS.type} words={REGISTER_TYPE} />
      <FormChoice form={props.form} at={at('order')} label={REGISTERS.order} words={WORD_ORDER} />
      <FormNumber form={props.form} at={at('everyMs')} label={REGISTERS.everyMs} />
      <Tick
        label={MAPS.status}
        checked={channel()?.status !== null}
        onChecked={(on) => {
          const c = channel();
          const next = c === undefined ? 0 : c.register + REGISTER_WORDS[c.type];
          props.form.write(at('status'), on ? { register: next, mask: 0xffff, good: 0 } : null);
        }}
        testId={`registers-${at('status')}`}
      />
      <Show when={props.form.issue(at('status'))}>
        {(why) => (
          <p class="field-note wrong-note" role="alert">
            {why()}
          </p>
        )}
      </Show>
      <Show when={channel()?.status}>
        <FormNumber form={props.form} at={at('status.register')} label={REGISTERS.statusRegister} />
        <FormNumber
          form={props.form}
          at={at('status.mask')}
          label={REGISTERS.mask}
          hint={REGISTERS.maskHint}
        />
        <FormNumber
          form={props.form}
          at={at('status.good')}
          label={REGISTERS.good}
          hint={REGISTERS.goodHint}
        />
      </Show>
    </>
  );
}
