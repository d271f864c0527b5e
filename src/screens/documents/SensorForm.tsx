import { Show } from 'solid-js';
import type { SensorCalibration, SensorDocument } from '../../job/sensor-document.ts';
import { Choice, optionsOf, Part, TextField, Tick } from '../../widgets/Fields.tsx';
import { NumberField } from '../../widgets/NumberField.tsx';
import { GAUGE_KIND, QUANTITY, SIGNAL } from '../../words/fields.ts';
import { HISTORY } from '../../words/history.ts';
import { DOCS } from '../../words/jobs.ts';
import { useServices } from '../context.ts';
import { CalibrationFigures } from './CalibrationFigures.tsx';
import type { Form } from './form.ts';
import { Rows } from './Rows.tsx';
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

export function SensorForm(props: { form: Form<SensorDocument> }) {
  const app = useServices();
  const d = () => props.form.draft();
  const change = (part: Partial<SensorDocument>) => props.form.change(part);
  const issue = (path: string) => props.form.issue(path);
  const kind = () => (d().quantity === 'pressure' ? 'pressure' : 'temperature');
  const calibrate = (part: Partial<SensorCalibration>) => {
    const c = d().calibration;
    if (c !== null) change({ calibration: { ...c, ...part } });
  };
  return (
    <>
      <Part title={DOCS.sensorOne}>
        <div class="fields">
          <TextField
            label={DOCS.name}
            value={d().name}
            onValue={(name) => change({ name })}
            issue={issue('name')}
            testId="doc-name"
          />
          <TextField
            label={DOCS.serial}
            value={d().serial}
            onValue={(serial) => change({ serial })}
            issue={issue('serial')}
            testId="doc-serial"
          />
          <Choice
            label={DOCS.quantity}
            value={d().quantity}
            options={optionsOf(QUANTITY)}
            onValue={(quantity) =>
              change(
                quantity === 'pressure'
                  ? {
                      quantity,
                      gaugeKind: 'gauge',
                      thermocouple: null,
                      thermocoupleClass: null,
                      signal: 'current',
                      span: START_SPAN.current,
                    }
                  : {
                      quantity,
                      gaugeKind: null,
                      signal: 'thermocouple',
                      thermocouple: 'K',
                      thermocoupleClass: 2,
                      span: null,
                      range: { lo: -40, hi: 200 },
                    },
              )
            }
          />
          <Choice
            label={DOCS.signal}
            value={d().signal}
            options={optionsOf(SIGNAL)}
            onValue={(signal) => change({ signal, span: START_SPAN[signal] })}
          />
          <Show when={d().signal === 'thermocouple'}>
            <Choice
              label={DOCS.thermocouple}
              value={d().thermocouple ?? 'K'}
              options={optionsOf({ K: 'K', J: 'J', T: 'T', N: 'N', E: 'E' })}
              onValue={(thermocouple) => change({ thermocouple })}
            />
            <Choice
              label={DOCS.tcClass}
              value={String(d().thermocoupleClass ?? 2) as '1' | '2'}
              options={optionsOf({ '1': '1', '2': '2' })}
              onValue={(v) => change({ thermocoupleClass: v === '1' ? 1 : 2 })}
            />
          </Show>
          <Show when={d().quantity === 'pressure'}>
            <Choice
              label={DOCS.gaugeKind}
              value={d().gaugeKind ?? 'gauge'}
              options={optionsOf(GAUGE_KIND)}
              onValue={(gaugeKind) => change({ gaugeKind })}
            />
          </Show>
          <NumberField
            label={DOCS.rangeLo}
            kind={kind()}
            units={app.units()}
            value={d().range.lo}
            rules={{ lo: -300, hi: 2000 }}
            onValue={(v) => v !== null && change({ range: { ...d().range, lo: v } })}
          />
          <NumberField
            label={DOCS.rangeHi}
            kind={kind()}
            units={app.units()}
            value={d().range.hi}
            rules={{ lo: -300, hi: 2000 }}
            onValue={(v) => v !== null && change({ range: { ...d().range, hi: v } })}
            issue={issue('range.hi')}
          />
          <Show when={d().span}>
            {(span) => (
              <>
                <NumberField
                  label={DOCS.spanLo}
                  unit={SIGNAL_UNIT[d().signal]}
                  value={span().elLo}
                  onValue={(v) => v !== null && change({ span: { ...span(), elLo: v } })}
                />
                <NumberField
                  label={DOCS.spanHi}
                  unit={SIGNAL_UNIT[d().signal]}
                  value={span().elHi}
                  onValue={(v) => v !== null && change({ span: { ...span(), elHi: v } })}
                  issue={issue('span.elHi')}
                />
              </>
            )}
          </Show>
          <NumberField
            label={DOCS.accuracy}
            unit={d().quantity === 'pressure' ? 'bar' : 'K'}
            value={d().accuracy}
            rules={{ lo: 0, hi: 50 }}
            onValue={(accuracy) => change({ accuracy })}
          />
          <TextField
            label={DOCS.deviceId}
            value={d().deviceId ?? ''}
            onValue={(t) => change({ deviceId: t === '' ? null : t })}
            issue={issue('deviceId')}
          />
          <NumberField
            label={DOCS.channel}
            value={d().channel}
            rules={{ lo: 0, hi: 6, whole: true }}
            onValue={(channel) => change({ channel })}
          />
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
                <TextField
                  label={DOCS.calDate}
                  type="date"
                  value={c().date}
                  onValue={(date) => calibrate({ date })}
                  issue={issue('calibration.date')}
                />
                <TextField
                  label={DOCS.calReference}
                  value={c().reference}
                  onValue={(reference) => calibrate({ reference })}
                />
                <NumberField
                  label={DOCS.calU}
                  unit={d().quantity === 'pressure' ? 'bar' : 'K'}
                  value={c().uReference}
                  rules={{ lo: 0, hi: 10 }}
                  onValue={(v) => v !== null && calibrate({ uReference: v })}
                />
                <NumberField
                  label={DOCS.due}
                  value={d().dueDays}
                  rules={{ lo: 1, hi: 5000, whole: true }}
                  onValue={(dueDays) => change({ dueDays })}
                />
              </div>
              <Rows
                label={DOCS.asFound}
                rows={c().asFound}
                columns={[
                  { key: 'indicated', label: DOCS.indicated, kind: kind() },
                  { key: 'reference', label: DOCS.reference, kind: kind() },
                ]}
                blank={{ indicated: 0, reference: 0 }}
                onRows={(asFound) => calibrate({ asFound })}
                issue={issue}
                path="calibration.asFound"
                most={11}
              />
              <Rows
                label={DOCS.asLeft}
                rows={c().asLeft}
                columns={[
                  { key: 'indicated', label: DOCS.indicated, kind: kind() },
                  { key: 'reference', label: DOCS.reference, kind: kind() },
                ]}
                blank={{ indicated: 0, reference: 0 }}
                onRows={(asLeft) => calibrate({ asLeft })}
                issue={issue}
                path="calibration.asLeft"
                most={11}
              />
              <CalibrationFigures sensor={d()} today={new Date().toISOString().slice(0, 10)} />
              <button
                type="button"
                class="button"
                onClick={() => change({ calibration: null, earlier: [c(), ...d().earlier].slice(0, 40) })}
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
        <Tick label={DOCS.retired} checked={d().retired} onChecked={(retired) => change({ retired })} />
        <TextField
          label={DOCS.notes}
          value={d().notes}
          onValue={(notes) => change({ notes })}
          issue={issue('notes')}
          long
        />
      </Part>
    </>
  );
}
