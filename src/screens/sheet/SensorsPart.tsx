import { For, Show } from 'solid-js';
import type { ChannelAssignment, JobDocument } from '../../job/job-document.ts';
import type { ChannelFrame } from '../../link/frames.ts';
import { Choice, optionsOf, Part } from '../../widgets/Fields.tsx';
import { NumberField } from '../../widgets/NumberField.tsx';
import { AIR_SOURCE, ROLE } from '../../words/fields.ts';
import { SHEET } from '../../words/sheet.ts';
import { LINE, LINE_MEANS, PLACE, TAP, TAP_MEANS } from '../../words/terms.ts';
import { useServices } from '../context.ts';
import type { Form } from '../documents/form.ts';
import type { Shelf } from './shelf.ts';

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
    const place =
      c.place === 'sleeve' || c.place === 'air' || c.place === 'pipe' || c.place === 'ground'
        ? c.place
        : null;
    return { channel: c.index, role, place: role === 'temperature' ? place : null, sensorId: null };
  });
}

export function SensorsPart(props: { form: Form<JobDocument>; shelf: Shelf }) {
  const app = useServices();
  const d = () => props.form.draft();
  const device = (part: Partial<JobDocument['device']>) =>
    props.form.change({ device: { ...d().device, ...part } });
  const hose = (part: Partial<NonNullable<JobDocument['hose']>>) => {
    const now = d().hose ?? { lengthM: 0, innerMm: 8 };
    props.form.change({ hose: { ...now, ...part } });
  };
  const channel = (index: number, part: Partial<ChannelAssignment>) =>
    device({ channels: d().device.channels.map((c) => (c.channel === index ? { ...c, ...part } : c)) });
  const link = app.live.link;
  const setAir = (source: JobDocument['air']['source']) => {
    const air: JobDocument['air'] =
      source === 'altitude'
        ? { source, altitudeM: 0 }
        : source === 'assumed'
          ? { source }
          : { source, bar: 1.013, uBar: 0.01 };
    props.form.change({ air });
  };
  return (
    <Part title={SHEET.partSensors}>
      <div class="fields">
        <Choice
          label={SHEET.tap}
          hint={TAP_MEANS[d().tap]}
          value={d().tap}
          options={optionsOf(TAP)}
          onValue={(tap) => props.form.change({ tap })}
          testId="job-tap"
        />
        <Choice
          label={SHEET.line}
          hint={LINE_MEANS[d().line]}
          value={d().line}
          options={optionsOf(LINE)}
          onValue={(line) => props.form.change({ line })}
          testId="job-line"
        />
        <NumberField
          label={SHEET.hoseLength}
          kind="distance"
          units={app.units()}
          value={d().hose?.lengthM ?? null}
          rules={{ lo: 0, hi: 500 }}
          onValue={(v) => (v === null ? props.form.change({ hose: null }) : hose({ lengthM: v }))}
        />
        <Show when={d().hose}>
          {(h) => (
            <NumberField
              label={SHEET.hoseInner}
              kind="length"
              units={app.units()}
              value={h().innerMm}
              rules={{ lo: 1, hi: 100 }}
              onValue={(v) => v !== null && hose({ innerMm: v })}
            />
          )}
        </Show>
        <Choice label={SHEET.air} value={d().air.source} options={optionsOf(AIR_SOURCE)} onValue={setAir} />
        <Show when={d().air.source === 'altitude' && d().air} keyed>
          {(air) =>
            air.source === 'altitude' && (
              <NumberField
                label={SHEET.altitude}
                kind="distance"
                units={app.units()}
                value={air.altitudeM}
                rules={{ lo: -450, hi: 5000 }}
                onValue={(v) =>
                  v !== null && props.form.change({ air: { source: 'altitude', altitudeM: v } })
                }
              />
            )
          }
        </Show>
        <Show when={d().air.source === 'typed'}>
          <NumberField
            label={SHEET.airBar}
            unit="bar"
            value={(d().air as { bar: number }).bar}
            rules={{ lo: 0.5, hi: 1.1 }}
            onValue={(v) =>
              v !== null && props.form.change({ air: { source: 'typed', bar: v, uBar: 0.005 } })
            }
          />
        </Show>
        <NumberField
          label={SHEET.rate}
          unit="Hz"
          value={d().device.rateHz}
          rules={{ lo: 0.1, hi: 1000 }}
          onValue={(v) => v !== null && device({ rateHz: v })}
        />
      </div>
      <Show when={d().device.channels.length > 0} fallback={<p class="muted small">{SHEET.channelsNone}</p>}>
        <For each={d().device.channels.map((c) => c.channel)}>
          {(index) => {
            const c = () => d().device.channels.find((x) => x.channel === index);
            return (
              <Show when={c()}>
                {(row) => (
                  <fieldset class="task">
                    <legend>
                      {SHEET.channel} {index}
                    </legend>
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
                            ...props.shelf
                              .sensors()
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
            device({ deviceId: link()?.hello?.deviceId ?? null, channels: suggested(link()?.channels ?? []) })
          }
        >
          {SHEET.takeChannels}
        </button>
      </Show>
    </Part>
  );
}
