import { createMemo, For, Show } from 'solid-js';
import { MOMENTS } from '../../../job/checklist.ts';
import { createCalm } from '../../../widgets/calm.ts';
import { TextField } from '../../../widgets/Fields.tsx';
import { Key } from '../../../widgets/Key.tsx';
import { CHECK_REASONS } from '../../../words/checks.ts';
import { doubtText } from '../../../words/doubts.ts';
import { FACE, REASONS } from '../../../words/face.ts';
import { STAGE_KEY } from '../../../words/orders.ts';
import { UI } from '../../../words/ui.ts';
import { ChecklistRows } from '../../checklist/ChecklistRows.tsx';
import { Who } from '../../checklist/Who.tsx';
import { useServices } from '../../context.ts';
import type { Actions } from '../actions.ts';
import type { LiveChecklist } from '../checklist.ts';
import { furtherStages } from '../next-stage.ts';
import { BLANK_VIEW } from '../scene.ts';
import { doubtsOf, type StageDoubt, seenOf } from '../stage-doubts.ts';
import type { Asked } from './state.ts';

/** All ways from here. Nothing is blocked: what something speaks against is held, and asked for its reason. */
export function Stages(props: { actions: Actions; checklist: LiveChecklist }) {
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
    return (
      view !== null &&
      doubtsOf(to, view, seenOf(live.events(), view.attempt), props.checklist.checks()).length > 0
    );
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
  checklist: LiveChecklist;
  reason: string;
  onReason(text: string): void;
  onSend(reason: string): void;
  /** Nothing speaks against it any more. */
  onGo(): void;
  onBack(): void;
}) {
  const services = useServices();
  const { live, units, fail } = services;
  // The figures are of now: the pressure goes on while somebody thinks.
  const view = createCalm(live.view, () => '');
  const text = (doubt: StageDoubt) => doubtText(doubt, view() ?? BLANK_VIEW, units());
  // Rows stay where they are when they are answered; what spoke against the step goes with the last of them.
  const asked = () => props.asked.items ?? [];
  const list = () => {
    const own = props.checklist.list();
    return own === null ? null : { ...own, items: own.items.filter((i) => asked().includes(i.id)) };
  };
  const isOpen = () => props.checklist.checks().open.some((i) => asked().includes(i.id));
  const doubts = createMemo(() => props.asked.doubts.filter((d) => d !== 'checklist-open' || isOpen()), [], {
    equals: (a, b) => a.join() === b.join(),
  });
  const reasons = () => [
    ...(doubts().some((d) => d !== 'checklist-open') ? REASONS[props.asked.to] : []),
    ...(doubts().includes('checklist-open') ? CHECK_REASONS : []),
  ];
  return (
    <div class="stack" data-testid="stage-doubt" data-to={props.asked.to}>
      <h2>{FACE.whyTitle(STAGE_KEY[props.asked.to])}</h2>
      <ul class="stack">
        <For each={doubts()}>{(d) => <li class="note strong">{text(d)}</li>}</For>
      </ul>
      <Show when={asked().length > 0 && list()}>
        {(own) => (
          <>
            <Who app={services} />
            <ChecklistRows
              list={own()}
              answers={props.checklist.answers()}
              moments={MOMENTS}
              onSay={(item, how, said) => void props.checklist.say(item, how, said).catch(fail)}
            />
          </>
        )}
      </Show>
      <Show when={doubts().length === 0}>
        <Key class="wide" means={props.asked.to} fresh data-testid="go-on" onPress={() => props.onGo()}>
          {STAGE_KEY[props.asked.to]}
        </Key>
      </Show>
      <Show when={doubts().length > 0}>
        <p>{FACE.whyText}</p>
        <For each={reasons()}>
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
        <TextField
          label={FACE.ownReason}
          value={props.reason}
          onValue={props.onReason}
          testId="stage-reason"
        />
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
      </Show>
    </div>
  );
}
