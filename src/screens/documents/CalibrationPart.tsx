import { For, Show } from 'solid-js';
import { mostRows } from '../../job/documents.ts';
import type { SensorDocument } from '../../job/sensor-document.ts';
import { Part } from '../../widgets/Fields.tsx';
import { COMPARISON, DOCS, SENSOR } from '../../words/docs.ts';
import { CalibrationFigures } from './CalibrationFigures.tsx';
import { FormNumber, FormText } from './FormFields.tsx';
import { FormRows } from './FormRows.tsx';
import type { Form } from './form.ts';
import { iceComparison, ProbeComparison } from './ProbeComparison.tsx';
import { spreadIn, valueIn } from './sensor-units.ts';

const SERIES = [
  { at: 'calibration.asFound', label: () => DOCS.asFound },
  { at: 'calibration.asLeft', label: () => DOCS.asLeft },
] as const;

const today = () => new Date().toISOString().slice(0, 10);

/** The calibration in force with its points, what they make, and when the next is due. */
export function CalibrationPart(props: { form: Form<'sensor'> }) {
  const d = () => props.form.draft();
  const change = (part: Partial<SensorDocument>) => props.form.change(part);
  return (
    <Part title={SENSOR.calibration}>
      <Show
        when={d().calibration}
        fallback={
          <div class="row">
            <button
              type="button"
              class="button"
              onClick={() =>
                change({
                  calibration: {
                    date: today(),
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
            <Show when={d().quantity === 'temperature'}>
              <button
                type="button"
                class="button"
                data-testid="compare-in-ice"
                onClick={() => change({ calibration: iceComparison(today()) })}
              >
                {COMPARISON.begin}
              </button>
            </Show>
          </div>
        }
      >
        {(c) => (
          <>
            <div class="fields">
              <FormText form={props.form} at="calibration.date" label={DOCS.calDate} type="date" />
              <FormText form={props.form} at="calibration.reference" label={DOCS.calReference} />
              <FormNumber
                form={props.form}
                at="calibration.uReference"
                label={DOCS.calU}
                told={spreadIn(d())}
              />
              <FormNumber form={props.form} at="dueDays" label={SENSOR.dueDays} />
            </div>
            <Show when={d().quantity === 'temperature'}>
              <ProbeComparison form={props.form} calibration={c()} />
            </Show>
            <For each={SERIES}>
              {(series) => (
                <FormRows
                  form={props.form}
                  at={series.at}
                  label={series.label()}
                  columns={{ indicated: DOCS.indicated, reference: DOCS.reference }}
                  told={valueIn(d())}
                />
              )}
            </For>
            <CalibrationFigures sensor={d()} today={today()} />
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
  );
}
