import { createMemo, For, Show } from 'solid-js';
import type { AlarmView } from '../../watch/view.ts';
import { AlarmShape } from '../../widgets/AlarmShape.tsx';
import { Key } from '../../widgets/Key.tsx';
import { LyingLadder, MicroLadderPicture } from '../../widgets/lanes/Micro.tsx';
import { type MicroLadder, ON_ALARM } from '../../widgets/lanes/micro.ts';
import { viewTrust } from '../../widgets/trust.ts';
import { alarmTitle } from '../../words/alarm-titles.ts';
import { FACE } from '../../words/face.ts';
import { NO_VALUE, pressure } from '../../words/format.ts';
import { VERBS } from '../../words/orders.ts';
import { UI } from '../../words/ui.ts';
import type { AppServices } from '../services.ts';

/**
 * An alarm on a page that shows something else. A high one adds a bar under the strip; an urgent one lies over the head of the
 * page and moves nothing of it. The way back to the live page outweighs the acknowledgement.
 */
export function AlarmBar(props: { app: AppServices; alarm: AlarmView; onGo(): void }) {
  const { live, units } = props.app;
  const order = createMemo(() => {
    const view = live.view();
    return view === null ? null : VERBS[props.alarm.alarm](props.alarm, view, units());
  });
  // As the lines of the order: an alarm that orders nothing has its name.
  const verb = (): readonly string[] => {
    const lines = order()?.verb ?? [];
    return lines.length > 0 ? lines : [alarmTitle(props.alarm)];
  };
  const urgent = () => props.alarm.priority === 'urgent';
  const trust = () => viewTrust(live.view(), live.silent());
  const known = () => trust() === 'good' || trust() === 'stale';
  const number = () =>
    trust() === 'over'
      ? UI.overRange(pressure(live.view()?.overBar, units()))
      : known()
        ? pressure(live.view()?.bar, units())
        : `${NO_VALUE} ${NO_VALUE}`;
  const ladder = (): MicroLadder => ({
    bar: known() ? (live.view()?.bar ?? null) : null,
    state: known() ? 'known' : 'lost',
    limits: live.view()?.limits ?? null,
  });
  const waits = () => props.alarm.state === 'unacknowledged';
  const acknowledge = () => {
    const { alarm, occurrence } = props.alarm;
    void props.app
      .ask({ q: 'command', command: { c: 'acknowledge', alarm, occurrence } })
      .catch(props.app.fail);
  };
  const means = () => `${props.alarm.alarm} ${props.alarm.occurrence} ${props.alarm.state}`;
  return (
    <section
      class={`alarm-bar ${props.alarm.priority}`}
      data-testid="alarm-elsewhere"
      data-alarm={props.alarm.alarm}
      role="alert"
    >
      <AlarmShape priority={props.alarm.priority} size={urgent() ? 72 : 36} />
      <div class="alarm-bar-words">
        <p class="alarm-bar-verb">
          <For each={verb()}>
            {(line, i) => (
              <>
                {i() > 0 ? ' ' : ''}
                <span>{line}</span>
              </>
            )}
          </For>
        </p>
        <p class="alarm-bar-text">{order()?.sentence}</p>
      </div>
      <Show when={urgent()}>
        <MicroLadderPicture ladder={ladder()} width={40} height={80} tones={ON_ALARM} />
        {/* Where the bar has rows: beside the number, lying, no higher than it is. */}
        <Show when={known()}>
          <LyingLadder ladder={ladder()} width={120} tones={ON_ALARM} />
        </Show>
        <p class="alarm-bar-number" aria-live="off">
          {number()}
        </p>
      </Show>
      <Key class="go-live" means={`go ${means()}`} fresh data-testid="go-live" onPress={() => props.onGo()}>
        {FACE.goLive}
      </Key>
      <Show when={waits()}>
        <Key class="ack" means={means()} fresh data-testid="ack" onPress={acknowledge}>
          {UI.acknowledge}
        </Key>
      </Show>
    </section>
  );
}
