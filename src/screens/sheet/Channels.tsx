import { For, Show } from 'solid-js';
import { FIRST_BESIDE, isBeside, ownChannel } from '../../job/beside.ts';
import { PLACES, type Quantity } from '../../job/codes.ts';
import type { ChannelAssignment, JobDocument } from '../../job/job-document.ts';
import { isPressureRole, pressureRoles } from '../../job/pressure-roles.ts';
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

const ROLE_OF: Record<Exclude<ChannelFrame['quantity'], 'press'>, ChannelAssignment['role']> = {
  temp: 'temperature',
  supply: 'supply',
  junct: 'junction',
};

/** What a sensor on a channel of that role measures; null: no sensor of it has a document. */
function quantityOf(role: ChannelAssignment['role']): Quantity | null {
  if (isPressureRole(role)) return 'pressure';
  return role === 'temperature' ? 'temperature' : null;
}

/** What the device suggests of its channels, as a start; the job decides. */
export function suggested(channels: readonly ChannelFrame[]): ChannelAssignment[] {
  const pressures = pressureRoles(channels);
  return channels.map((c, i) => {
    const role = c.quantity === 'press' ? (pressures[i] ?? 'unused') : ROLE_OF[c.quantity];
    const place = PLACES.find((p) => p === c.place) ?? null;
    return { channel: c.index, role, place: role === 'temperature' ? place : null, sensorId: null };
  });
}

/** Of a second adapter temperatures are read, and the cold junctions that they need. */
const isBesideRole = (role: ChannelAssignment['role']): boolean =>
  role === 'temperature' || role === 'junction' || role === 'unused';

const suggestedBeside = (channels: readonly ChannelFrame[]): ChannelAssignment[] =>
  suggested(channels).map((c) => ({
    ...c,
    channel: FIRST_BESIDE + c.channel,
    role: isBesideRole(c.role) ? c.role : 'unused',
  }));

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
                    <legend>
                      {isBeside(index) ? SHEET.besideChannel(ownChannel(index)) : SHEET.channel(index)}
                    </legend>
                    <div class="fields">
                      <Choice
                        label={SHEET.role}
                        value={row().role}
                        options={optionsOf(ROLE).filter((o) => !isBeside(index) || isBesideRole(o.value))}
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
                      <Show when={quantityOf(row().role)}>
                        {(quantity) => (
                          <>
                            <Choice
                              label={SHEET.sensor}
                              value={row().sensorId ?? ''}
                              options={[
                                { value: '', text: SHEET.noSensor },
                                ...props.choices
                                  .sensors([row().sensorId])
                                  .filter((s) => s.document.quantity === quantity())
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
                          </>
                        )}
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
                channels: [
                  ...suggested(link()?.channels ?? []),
                  ...suggestedBeside(link()?.beside?.channels ?? []),
                ],
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
