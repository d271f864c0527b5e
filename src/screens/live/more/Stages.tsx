import { createMemo, For, Show } from 'solid-js';
import { createCalm } from '../../../widgets/calm.ts';
import { TextField } from '../../../widgets/Fields.tsx';
import { Key } from '../../../widgets/Key.tsx';
import { doubtText } from '../../../words/doubts.ts';
import { FACE, REASONS } from '../../../words/face.ts';
import { STAGE_KEY } from '../../../words/orders.ts';
import { UI } from '../../../words/ui.ts';
import { useServices } from '../../context.ts';
import type { Actions } from '../actions.ts';
import { furtherStages } from '../next-stage.ts';
import { BLANK_VIEW } from '../scene.ts';
import { doubtsOf, type StageDoubt, seenOf } from '../stage-doubts.ts';
import type { Asked } from './state.ts';

/** All ways from here. Nothing is blocked: what something speaks against is held, and asked for its reason. */
export function Stages(props: { actions: Actions }) {
  const { live } = useServices();
  const stages = createMemo(
    () => {
      const view = live.view();
      return view === null ? [] : furtherStages(view.stage, view.limits?.seatBar != null);
    },
    [],
    { equals: (a, b) => a.join() === b.join() },
  );
  const doubtful = (to: typeof stages extends () => readonly (infer S)[] ? S : never) => {
    const view = live.view();
    return view !== null && doubtsOf(to, view, seenOf(live.events(), view.attempt)).length > 0;
  };
  return (
    <div class="stack" data-testid="stages">
      <For each={stages()} fallback={<p>{FACE.noStages}</p>}>
        {(to) => (
          <Key
            class="wide"
            means={to}
            hold={doubtful(to)}
            fresh
            data-testid={`stage-${to}`}
            onPress={() => props.actions.go(to)}
          >
            <span>{STAGE_KEY[to]}</span>
            <Show when={doubtful(to)}>
              <small>{FACE.hold}</small>
            </Show>
          </Key>
        )}
      </For>
    </div>
  );
}

/** What speaks against a step, and the reasons at hand for taking it all the same. */
export function Why(props: {
  asked: Asked;
  reason: string;
  onReason(text: string): void;
  onSend(reason: string): void;
  onBack(): void;
}) {
  const { live, units } = useServices();
  // The figures are of now: the pressure goes on while somebody thinks.
  const view = createCalm(live.view, () => '');
  const text = (doubt: StageDoubt) => doubtText(doubt, view() ?? BLANK_VIEW, units());
  return (
    <div class="stack" data-testid="stage-doubt" data-to={props.asked.to}>
      <h2>{FACE.whyTitle(STAGE_KEY[props.asked.to])}</h2>
      <ul class="stack">
        <For each={props.asked.doubts}>{(d) => <li class="note strong">{text(d)}</li>}</For>
      </ul>
      <p>{FACE.whyText}</p>
      <For each={REASONS[props.asked.to]}>
        {(reason, i) => (
          <Key
            class="wide"
            means={`${props.asked.to} ${reason}`}
            fresh
            data-testid={`reason-${i()}`}
            onPress={() => props.onSend(reason)}
          >
            {reason}
          </Key>
        )}
      </For>
      <TextField label={FACE.ownReason} value={props.reason} onValue={props.onReason} testId="stage-reason" />
      <div class="row">
        <button type="button" class="button" onClick={() => props.onBack()}>
          {UI.cancel}
        </button>
        <button
          type="button"
          class="button grow"
          data-testid="send-reason"
          disabled={props.reason.trim() === ''}
          onClick={() => props.onSend(props.reason.trim())}
        >
          {STAGE_KEY[props.asked.to]}
        </button>
      </div>
    </div>
  );
}
