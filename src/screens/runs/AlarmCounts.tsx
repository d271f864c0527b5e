import { For, Show } from 'solid-js';
import { PRIORITIES, type Priority } from '../../watch/codes.ts';
import { AlarmShape } from '../../widgets/AlarmShape.tsx';
import { RECORDS } from '../../words/records.ts';

/** How many alarms a run had, by shape and word. */
export function AlarmCounts(props: { counts: Readonly<Record<Priority, number>> }) {
  const some = () => PRIORITIES.filter((p) => props.counts[p] > 0);
  return (
    <Show when={some().length > 0} fallback={<span>{RECORDS.noAlarm}</span>}>
      <span class="alarm-counts">
        <For each={some()}>
          {(p) => (
            <span class={`alarm-count ${p}`}>
              <AlarmShape priority={p} size={24} />
              <span>{RECORDS.alarmCount[p](props.counts[p])}</span>
            </span>
          )}
        </For>
      </span>
    </Show>
  );
}
