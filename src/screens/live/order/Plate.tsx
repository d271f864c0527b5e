import { Show } from 'solid-js';
import type { AlarmView } from '../../../watch/view.ts';
import { AlarmShape } from '../../../widgets/AlarmShape.tsx';
import { fitBlock } from '../../../widgets/fit.ts';
import { Key } from '../../../widgets/Key.tsx';
import { UI } from '../../../words/ui.ts';
import type { Layout } from '../layout.ts';

/** An alarm that leaves the instruction its place: the second line of it, with its own key while it waits. */
export function Plate(props: { alarm: AlarmView; sentence: string; layout: Layout; onAcknowledge(): void }) {
  const waits = () => props.alarm.state === 'unacknowledged' || props.alarm.state === 'returned';
  const keyW = () => (props.layout.small ? 96 : 150);
  const shapeS = () => (props.layout.small ? 20 : 34);
  const textW = () =>
    props.layout.plate.w - shapeS() - (waits() ? keyW() : 0) - (props.layout.small ? 28 : 52);
  return (
    <div
      class="plate"
      classList={{ [props.alarm.priority]: true, settled: !waits(), over: props.alarm.state === 'returned' }}
      data-testid={`alarm-${props.alarm.alarm}`}
      data-state={props.alarm.state}
      data-priority={props.alarm.priority}
    >
      <AlarmShape priority={props.alarm.priority} size={shapeS()} />
      <p
        class="alarm-text"
        style={{
          'font-size': `${fitBlock(
            props.sentence,
            { width: textW(), height: props.layout.plate.h - 8 },
            {
              most: props.layout.small ? 15 : 22,
              least: props.layout.small ? 10 : 13,
              weight: 700,
              lineEm: 1.15,
            },
          )}px`,
        }}
      >
        {props.sentence}
      </p>
      <Show when={waits()}>
        <Key
          class="ack"
          data-testid="ack"
          data-alarm={props.alarm.alarm}
          means={`${props.alarm.alarm} ${props.alarm.occurrence} ${props.alarm.state}`}
          fresh
          style={{ width: `${keyW()}px` }}
          onPress={() => props.onAcknowledge()}
        >
          {UI.acknowledge}
        </Key>
      </Show>
    </div>
  );
}
