import { For, Show } from 'solid-js';
import { type AirSource, PLACES } from '../../job/codes.ts';
import type { ChannelAssignment, JobDocument } from '../../job/job-document.ts';
import type { ChannelFrame } from '../../link/frames.ts';
import { Choice, optionsOf, Part } from '../../widgets/Fields.tsx';
import { AIR_SOURCE, PACKERS_ON_LINE, ROLE, WETNESS } from '../../words/fields.ts';
import { SHEET } from '../../words/sheet.ts';
import { LINE, LINE_MEANS, TAP, TAP_MEANS } from '../../words/site.ts';
import { PLACE } from '../../words/terms.ts';
import { useServices } from '../context.ts';
import { FormChoice, FormNumber } from '../documents/FormFields.tsx';
import type { Form } from '../documents/form.ts';
import type { Choices } from './choices.ts';
import { suggestedTap } from './tap.ts';

const ROLE_OF: Record<ChannelFrame['quantity'], ChannelAssignment['role']> = {
  press: 'pressure',
  temp: 'temperature',
  supply: 'supply',
  junct: 'junction',
};

/** What the device suggests of its channels, as a start; the job decides. */
export function suggested(channels: readonly ChannelFrame[]): ChannelAssignment[] {
  let pressureTaken = false;
  return channels.map((c) => {
    const role = c.quantity === 'press' && pressureTaken ? 'unused' : ROLE_OF[c.quantity];
    if (c.quantity === 'press') pressureTaken = true;
    const place = PLACES.find((p) => p === c.place) ?? null;
    return { channel: c.index, role, place: role === 'temperature' ? place : null, sensorId: null };
  });
}

/** What is taken of the air pressure before more is typed. */
const START_AIR: { readonly [S in AirSource]: Extract<JobDocument['air'], { source: S }> } = {
  assumed: { source: 'assumed' },
  altitude: { source: 'altitude', altitudeM: 0 },
  typed: { source: 'typed', bar: 1.013, uBar: 0.01 },
  sensor: { source: 'sensor', bar: 1.013, uBar: 0.01 },
};

export function SensorsPart(props: { form: Form<'job'>; choices: Choices }) {
  const app = useServices();
  const d = () => props.form.draft();
  const device = (part: Partial<JobDocument['device']>) =>
    props.form.change({ device: { ...d().device, ...part } });
  const channel = (index: number, part: Partial<ChannelAssignment>) =>
    device({ channels: d().device.channels.map((c) => (c.channel === index ? { ...c, ...part } : c)) });
  const link = app.live.link;
  return (
    <Part title={SHEET.partSensors}>
      <div class="fields">
        <FormChoice form={props.form} at="tap" label={SHEET.tap} hint={TAP_MEANS[d().tap]} words={TAP} />
        <FormChoice form={props.form} at="line" label={SHEET.line} hint={LINE_MEANS[d().line]} words={LINE} />
        <FormChoice
          form={props.form}
          at="wetness"
          label={SHEET.wetness}
          hint={SHEET.wetnessHint}
          words={WETNESS}
        />
        <FormChoice
          form={props.form}
          at="packersOnLine"
          label={SHEET.packersOnLine}
          hint={SHEET.packersHint}
          words={PACKERS_ON_LINE}
        />
        <FormNumber form={props.form} at="otherRatedBar" label={SHEET.otherRated} />
        <FormNumber
          form={props.form}
          at="hose.lengthM"
          label={SHEET.hoseLength}
          onValue={(lengthM) =>
            props.form.change({
              hose: lengthM === null ? null : { ...(d().hose ?? { innerMm: 8 }), lengthM },
            })
          }
        />
        <Show when={d().hose !== null}>
          <FormNumber form={props.form} at="hose.innerMm" label={SHEET.hoseInner} />
        </Show>
        <FormChoice
          form={props.form}
          at="air.source"
          label={SHEET.air}
          words={AIR_SOURCE}
          onValue={(source) => props.form.change({ air: START_AIR[source] })}
        />
        <Show when={d().air.source === 'altitude'}>
          <FormNumber form={props.form} at="air.altitudeM" label={SHEET.altitude} />
        </Show>
        <Show when={d().air.source === 'typed'}>
          <FormNumber
            form={props.form}
            at="air.bar"
            label={SHEET.airBar}
            onValue={(bar) =>
              bar !== null && props.form.change({ air: { source: 'typed', bar, uBar: 0.005 } })
            }
          />
        </Show>
        <FormNumber form={props.form} at="device.rateHz" label={SHEET.rate} />
      </div>
      <Show when={d().device.channels.length > 0} fallback={<p class="muted small">{SHEET.channelsNone}</p>}>
        <For each={d().device.channels.map((c) => c.channel)}>
          {(index) => {
            const c = () => d().device.channels.find((x) => x.channel === index);
            return (
              <Show when={c()}>
                {(row) => (
                  <fieldset class="task">
                    <legend>{SHEET.channel(index)}</legend>
                    <div class="fields">
                      <Choice
                        label={SHEET.role}
                        value={row().role}
                        options={optionsOf(ROLE)}
                        onValue={(role) => channel(index, { role, place: null })}
                      />
                      <Show when={row().role === 'temperature'}>
                        <Choice
                          label={SHEET.place}
                          value={row().place ?? ''}
                          options={[{ value: '', text: SHEET.noPlace }, ...optionsOf(PLACE)]}
                          onValue={(v) => channel(index, { place: v === '' ? null : v })}
                        />
                      </Show>
                      <Show when={row().role === 'temperature' || row().role === 'pressure'}>
                        <Choice
                          label={SHEET.sensor}
                          value={row().sensorId ?? ''}
                          options={[
                            { value: '', text: SHEET.noSensor },
                            ...props.choices
                              .sensors([row().sensorId])
                              .filter((s) => s.document.quantity === row().role)
                              .map((s) => ({
                                value: s.id,
                                text: `${s.document.name}, ${s.document.serial}`,
                              })),
                          ]}
                          onValue={(v) => channel(index, { sensorId: v === '' ? null : v })}
                        />
                      </Show>
                    </div>
                  </fieldset>
                )}
              </Show>
            );
          }}
        </For>
      </Show>
      <Show when={(link()?.channels.length ?? 0) > 0}>
        <button
          type="button"
          class="button"
          onClick={() =>
            props.form.change({
              device: {
                ...d().device,
                deviceId: link()?.hello?.deviceId ?? null,
                channels: suggested(link()?.channels ?? []),
              },
              tap: d().tap === 'unknown' ? suggestedTap(link()?.channels ?? []) : d().tap,
            })
          }
        >
          {SHEET.takeChannels}
        </button>
      </Show>
    </Part>
  );
}
