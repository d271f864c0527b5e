import { Show } from 'solid-js';
import type { SensorDocument } from '../../job/sensor-document.ts';
import { Part } from '../../widgets/Fields.tsx';
import { BENCH } from '../../words/bench.ts';
import { DOCS, SENSOR } from '../../words/docs.ts';
import { GAUGE_KIND, QUANTITY, SIGNAL, THERMOCOUPLE, THERMOCOUPLE_CLASS } from '../../words/fields.ts';
import { HISTORY } from '../../words/history.ts';
import { SensorBench } from '../bench/SensorBench.tsx';
import { CalibrationPart } from './CalibrationPart.tsx';
import { FormChoice, FormNumber, FormText, FormTick } from './FormFields.tsx';
import type { Form } from './form.ts';
import { Members, type MembersOf } from './Members.tsx';
import { SensorHistory } from './SensorHistory.tsx';
import { signalIn, spreadIn, valueIn } from './sensor-units.ts';

const START_SPAN: Record<SensorDocument['signal'], SensorDocument['span']> = {
  current: { elLo: 4000, elHi: 20_000 },
  ratio: { elLo: 100_000, elHi: 900_000 },
  voltage: { elLo: 0, elHi: 10_000_000 },
  digital: null,
  thermocouple: null,
};

const START: Record<SensorDocument['quantity'], Partial<SensorDocument>> = {
  pressure: {
    quantity: 'pressure',
    gaugeKind: 'gauge',
    thermocouple: null,
    thermocoupleClass: null,
    signal: 'current',
    span: START_SPAN.current,
  },
  temperature: {
    quantity: 'temperature',
    gaugeKind: null,
    signal: 'thermocouple',
    thermocouple: 'K',
    thermocoupleClass: 2,
    span: null,
    range: { lo: -40, hi: 200 },
  },
};

const MEMBERS: MembersOf<'sensor', 'what' | 'calibration' | 'notes'> = {
  version: null,
  name: { in: 'what', edit: (form) => <FormText form={form} at="name" label={SENSOR.name} /> },
  serial: { in: 'what', edit: (form) => <FormText form={form} at="serial" label={SENSOR.serial} /> },
  quantity: {
    in: 'what',
    edit: (form) => (
      <FormChoice
        form={form}
        at="quantity"
        label={SENSOR.quantity}
        words={QUANTITY}
        onValue={(quantity) => form.change(START[quantity])}
      />
    ),
  },
  signal: {
    in: 'what',
    edit: (form) => (
      <FormChoice
        form={form}
        at="signal"
        label={SENSOR.signal}
        words={SIGNAL}
        onValue={(signal) => form.change({ signal, span: START_SPAN[signal] })}
      />
    ),
  },
  thermocouple: {
    in: 'what',
    edit: (form) => (
      <Show when={form.draft().signal === 'thermocouple'}>
        <FormChoice
          form={form}
          at="thermocouple"
          label={SENSOR.thermocouple}
          words={THERMOCOUPLE}
          unset="K"
        />
      </Show>
    ),
  },
  thermocoupleClass: {
    in: 'what',
    edit: (form) => (
      <Show when={form.draft().signal === 'thermocouple'}>
        <FormChoice
          form={form}
          at="thermocoupleClass"
          label={SENSOR.thermocoupleClass}
          words={THERMOCOUPLE_CLASS}
          unset={2}
        />
      </Show>
    ),
  },
  gaugeKind: {
    in: 'what',
    edit: (form) => (
      <Show when={form.draft().quantity === 'pressure'}>
        <FormChoice form={form} at="gaugeKind" label={SENSOR.gaugeKind} words={GAUGE_KIND} unset="gauge" />
      </Show>
    ),
  },
  range: {
    in: 'what',
    edit: (form) => (
      <>
        <FormNumber form={form} at="range.lo" label={DOCS.rangeLo} told={valueIn(form.draft())} />
        <FormNumber form={form} at="range.hi" label={DOCS.rangeHi} told={valueIn(form.draft())} />
      </>
    ),
  },
  span: {
    in: 'what',
    edit: (form) => (
      <Show when={form.draft().span !== null}>
        <FormNumber form={form} at="span.elLo" label={DOCS.spanLo} told={signalIn(form.draft())} />
        <FormNumber form={form} at="span.elHi" label={DOCS.spanHi} told={signalIn(form.draft())} />
      </Show>
    ),
  },
  accuracy: {
    in: 'what',
    edit: (form) => (
      <FormNumber form={form} at="accuracy" label={SENSOR.accuracy} told={spreadIn(form.draft())} />
    ),
  },
  perKelvin: {
    in: 'what',
    edit: (form) => (
      <Show when={form.draft().quantity === 'pressure'}>
        <FormNumber form={form} at="perKelvin" label={SENSOR.perKelvin} hint={DOCS.perKelvinHint} />
      </Show>
    ),
  },
  deviceId: { in: 'what', edit: (form) => <FormText form={form} at="deviceId" label={SENSOR.deviceId} /> },
  channel: { in: 'what', edit: (form) => <FormNumber form={form} at="channel" label={SENSOR.channel} /> },
  calibration: { in: 'calibration', edit: (form) => <CalibrationPart form={form} /> },
  dueDays: null, // with the calibration
  earlier: null, // calibrations that another took the place of
  retired: { in: 'notes', edit: (form) => <FormTick form={form} at="retired" label={SENSOR.retired} /> },
  notes: { in: 'notes', edit: (form) => <FormText form={form} at="notes" label={SENSOR.notes} long /> },
};

export function SensorForm(props: { form: Form<'sensor'> }) {
  return (
    <>
      <Part title={DOCS.sensorOne}>
        <div class="fields">
          <Members form={props.form} of={MEMBERS} in="what" />
        </div>
      </Part>
      <Members form={props.form} of={MEMBERS} in="calibration" />
      <Part title={HISTORY.title}>
        <SensorHistory sensor={props.form.draft()} />
      </Part>
      <Part title={BENCH.records}>
        <SensorBench sensor={props.form.draft()} />
      </Part>
      <Part title={SENSOR.notes} folded>
        <Members form={props.form} of={MEMBERS} in="notes" />
      </Part>
    </>
  );
}
