import { createMemo, For, Index, Show } from 'solid-js';
import type { AlarmView } from '../../../watch/view.ts';
import { AlarmShape } from '../../../widgets/AlarmShape.tsx';
import { alarmTitle, PRIORITY } from '../../../words/alarm-titles.ts';
import { FACE } from '../../../words/face.ts';
import type { Order } from '../../../words/orders.ts';
import { UI } from '../../../words/ui.ts';
import type { Layout } from '../layout.ts';
import { place } from '../place.ts';
import { blockLayout } from './sizes.ts';

/** The shape before the next alarm's name, with its gap (live.css), em. */
const NEXT_SHAPE_EM = 1.3;
const held = (text: string) => text.replaceAll(' ', '\u00a0');

/** An alarm on the stage: shape, verb, two figures, one sentence. It is there at once; only its outline blinks. */
export function AlarmBlock(props: {
  alarm: AlarmView;
  form: 'urgent' | 'high' | 'was';
  order: Order;
  layout: Layout;
  others: readonly AlarmView[];
  /** The key that opens the drawer stands beside it. */
  more: boolean;
}) {
  const parts = createMemo(() => ({
    // One that is over orders no hand to a valve: to be acknowledged is all it wants, and its name alone read as if it stood.
    verb: props.form === 'was' ? [FACE.wasDo, FACE.wasTitle(alarmTitle(props.alarm))] : props.order.verb,
    figures: props.order.figures,
    more: props.more,
    practice: props.layout.practice ? UI.practiceWord : null,
    sentence: [
      { text: `${PRIORITY[props.alarm.priority]}.`, weight: 700 },
      { text: props.order.sentence, weight: 400 },
      ...props.others
        .slice(0, 1)
        .map((next) => ({ text: held(alarmTitle(next)), weight: 700, besideEm: NEXT_SHAPE_EM }) as const),
    ] as const,
  }));
  const at = createMemo(() => blockLayout(props.layout, props.form, parts()));
  const within = (r: Parameters<typeof place>[0]) => place(r, at().zone);
  return (
    <div
      class="alarm-block"
      data-testid={`alarm-${props.alarm.alarm}`}
      data-state={props.alarm.state}
      data-priority={props.alarm.priority}
    >
      <Show when={at().shape.w > 20}>
        <div class="alarm-block-shape" style={within(at().shape)}>
          <AlarmShape priority={props.alarm.priority} size={at().shape.w} />
        </div>
      </Show>
      <p
        class="verb"
        data-testid="verb"
        style={{
          ...within(at().verb),
          'font-size': `${at().verbPx}px`,
          'line-height': String(at().verbLineEm),
        }}
      >
        <For each={at().lines}>{(line) => <span>{line} </span>}</For>
      </p>
      <dl class="figures" style={at().inLine ? within(at().figures[0]!) : {}}>
        {/* By place: a figure that counts is written anew, not made anew. */}
        <Index each={parts().figures}>
          {(figure, i) => (
            <div style={at().inLine ? {} : within(at().figures[i]!)}>
              <dt style={{ 'font-size': `${at().labelPx}px` }}>{figure()[0]}</dt>
              <dd style={{ 'font-size': `${at().figurePx}px` }}>{figure()[1]}</dd>
            </div>
          )}
        </Index>
      </dl>
      <Show when={at().practice}>
        {(practice) => (
          <p
            class="practice-word"
            data-testid="practice-word"
            style={{ ...within(practice().at), 'font-size': `${practice().px}px` }}
          >
            <span>{parts().practice}</span>
          </p>
        )}
      </Show>
      <p class="sentence" style={{ ...within(at().sentence), 'font-size': `${at().sentencePx}px` }}>
        <Show when={parts().practice !== null && at().practice === null}>
          <span class="practice-word" data-testid="practice-word">
            <span>{parts().practice}</span>
          </span>{' '}
        </Show>
        <strong>{PRIORITY[props.alarm.priority]}.</strong>{' '}
        <span class="alarm-text">{props.order.sentence}</span>{' '}
        <Show when={props.others[0]}>
          {(next) => (
            <span class="alarm-next">
              <AlarmShape priority={next().priority} size={at().sentencePx} />
              {alarmTitle(next())}
            </span>
          )}
        </Show>
      </p>
    </div>
  );
}
