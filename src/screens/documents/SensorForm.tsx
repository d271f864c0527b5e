import { For, Show } from 'solid-js';
import { mostRows } from '../../job/documents.ts';
import type { SensorDocument } from '../../job/sensor-document.ts';
import { Part } from '../../widgets/Fields.tsx';
import { GAUGE_KIND, QUANTITY, SIGNAL, THERMOCOUPLE, THERMOCOUPLE_CLASS } from '../../words/fields.ts';
import { HISTORY } from '../../words/history.ts';
import { DOCS } from '../../words/jobs.ts';
import { CalibrationFigures } from './CalibrationFigures.tsx';
import { FormChoice, FormNumber, FormText, FormTick } from './FormFields.tsx';
import { FormRows } from './FormRows.tsx';
import type { Form } from './form.ts';
import { SensorHistory } from './SensorHistory.tsx';

const SIGNAL_UNIT: Record<SensorDocument['signal'], string> = {
  current: 'µA',
  ratio: 'ppm',
  voltage: 'µV',
  digital: '',
  thermocouple: '',
};

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

const SERIES = [
  { at: 'calibration.asFound', label: DOCS.asFound },
  { at: 'calibration.asLeft', label: DOCS.asLeft },
] as const;

export function SensorForm(props: { form: Form<'sensor'> }) {
  const d = () => props.form.draft();
  const change = (part: Partial<SensorDocument>) => props.form.change(part);
  const isBar = () => d().quantity === 'pressure';
  // What is measured decides what its values are told in, and its uncertainties.
  const value = () => ({ kind: isBar() ? 'pressure' : 'temperature' }) as const;
  const spread = () => ({ unit: isBar() ? 'bar' : 'K' });
  const signal = () => ({ unit: SIGNAL_UNIT[d().signal] });
  return (
    <>
      <Part title={DOCS.sensorOne}>
        <div class="fields">
          <FormText form={props.form} at="name" label={DOCS.name} />
          <FormText form={props.form} at="serial" label={DOCS.serial} />
          <FormChoice
            form={props.form}
            at="quantity"
            label={DOCS.quantity}
            words={QUANTITY}
            onValue={(quantity) => change(START[quantity])}
          />
          <FormChoice
            form={props.form}
            at="signal"
            label={DOCS.signal}
            words={SIGNAL}
            onValue={(signal) => change({ signal, span: START_SPAN[signal] })}
          />
          <Show when={d().signal === 'thermocouple'}>
            <FormChoice
              form={props.form}
              at="thermocouple"
              label={DOCS.thermocouple}
              words={THERMOCOUPLE}
              unset="K"
            />
            <FormChoice
              form={props.form}
              at="thermocoupleClass"
              label={DOCS.tcClass}
              words={THERMOCOUPLE_CLASS}
              unset={2}
            />
          </Show>
          <Show when={isBar()}>
            <FormChoice
              form={props.form}
              at="gaugeKind"
              label={DOCS.gaugeKind}
              words={GAUGE_KIND}
              unset="gauge"
            />
          </Show>
          <FormNumber form={props.form} at="range.lo" label={DOCS.rangeLo} told={value()} />
          <FormNumber form={props.form} at="range.hi" label={DOCS.rangeHi} told={value()} />
          <Show when={d().span !== null}>
            <FormNumber form={props.form} at="span.elLo" label={DOCS.spanLo} told={signal()} />
            <FormNumber form={props.form} at="span.elHi" label={DOCS.spanHi} told={signal()} />
          </Show>
          <FormNumber form={props.form} at="accuracy" label={DOCS.accuracy} told={spread()} />
          <FormText form={props.form} at="deviceId" label={DOCS.deviceId} />
          <FormNumber form={props.form} at="channel" label={DOCS.channel} />
        </div>
      </Part>
      <Part title={DOCS.calibration}>
        <Show
          when={d().calibration}
          fallback={
            <button
              type="button"
              class="button"
              onClick={() =>
                change({
                  calibration: {
                    date: new Date().toISOString().slice(0, 10),
                    asFound: [],
                    asLeft: [],
                    uReference: 0,
                    reference: '',
                    by: '',
                  },
                })
              }
            >
              {DOCS.addCalibration}
            </button>
          }
        >
          {(c) => (
            <>
              <div class="fields">
                <FormText form={props.form} at="calibration.date" label={DOCS.calDate} type="date" />
                <FormText form={props.form} at="calibration.reference" label={DOCS.calReference} />
                <FormNumber form={props.form} at="calibration.uReference" label={DOCS.calU} told={spread()} />
                <FormNumber form={props.form} at="dueDays" label={DOCS.due} />
              </div>
              <For each={SERIES}>
                {(series) => (
                  <FormRows
                    form={props.form}
                    at={series.at}
                    label={series.label}
                    columns={{ indicated: DOCS.indicated, reference: DOCS.reference }}
                    blank={{ indicated: 0, reference: 0 }}
                    told={value()}
                  />
                )}
              </For>
              <CalibrationFigures sensor={d()} today={new Date().toISOString().slice(0, 10)} />
              <button
                type="button"
                class="button"
                onClick={() =>
                  change({
                    calibration: null,
                    earlier: [c(), ...d().earlier].slice(0, mostRows('sensor', 'earlier')),
                  })
                }
              >
                {DOCS.removeCalibration}
              </button>
            </>
          )}
        </Show>
      </Part>
      <Part title={HISTORY.title}>
        <SensorHistory sensor={d()} />
      </Part>
      <Part title={DOCS.notes} folded>
        <FormTick form={props.form} at="retired" label={DOCS.retired} />
        <FormText form={props.form} at="notes" label={DOCS.notes} long />
      </Part>
    </>
  );
}
