import { For, Show } from 'solid-js';
import { PLACES } from '../../job/codes.ts';
import type { ChannelAssignment, JobDocument } from '../../job/job-document.ts';
import type { ChannelFrame } from '../../link/frames.ts';
import { Choice, optionsOf } from '../../widgets/Fields.tsx';
import { ROLE } from '../../words/fields.ts';
import { SHEET } from '../../words/sheet.ts';
import { PLACE } from '../../words/terms.ts';
import { useServices } from '../context.ts';
import type { Form } from '../documents/form.ts';
import type { Choices } from './choices.ts';
import type { SheetFieldProps } from './fields.tsx';
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

/** What each channel of the device reads, where it sits, and which sensor it is. */
export function Channels(props: { form: Form<'job'>; choices: Choices; onNew: SheetFieldProps['onNew'] }) {
  const app = useServices();
  const d = () => props.form.draft();
  const device = (part: Partial<JobDocument['device']>) =>
    props.form.change({ device: { ...d().device, ...part } });
  const channel = (index: number, part: Partial<ChannelAssignment>) =>
    device({ channels: d().device.channels.map((c) => (c.channel === index ? { ...c, ...part } : c)) });
  const link = app.live.link;
  return (
    <>
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
                        <button type="button" class="button" onClick={() => props.onNew('sensor', index)}>
                          {SHEET.newSensor}
                        </button>
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
    </>
  );
}
