import { createSignal, For, Show } from 'solid-js';
import { LIST } from '../../words/checks.ts';
import { SHEET } from '../../words/sheet.ts';
import { Channels } from './Channels.tsx';
import { Checks } from './Checks.tsx';
import type { SheetFieldProps } from './fields.tsx';
import { NewOnes, SheetFields } from './parts.tsx';
import {
  ANSWERS,
  answeredIn,
  answersGiven,
  isStepDone,
  itemsIn,
  STEP_FIELDS,
  STEP_MOMENTS,
  STEP_MORE,
  STEPS,
  type Step,
  unansweredIn,
} from './steps.ts';
import { ThicknessPart } from './ThicknessPart.tsx';

/** Where one stands in the sheet, and what is still to be said in each step. */
export function StepList(props: { of: SheetFieldProps; now: Step; onStep(step: Step): void }) {
  const draft = () => props.of.form.draft();
  const isDone = (step: Step) => isStepDone(step, draft());
  const state = (step: Step) => {
    const unanswered = unansweredIn(step, draft()).length;
    if (step === 'run') return SHEET.answers(answersGiven(draft()), ANSWERS);
    const items = itemsIn(step, draft());
    if (items > 0 && unanswered === 0) return LIST.answered(answeredIn(step, draft()), items);
    return unanswered === 0 ? SHEET.allThere : SHEET.open(unanswered);
  };
  return (
    <nav class="panel steps" aria-label={SHEET.stepsLabel}>
      <ol>
        <For each={STEPS}>
          {(step, i) => (
            <li>
              <button
                type="button"
                class="step"
                aria-current={props.now === step ? 'step' : undefined}
                data-testid={`step-${step}`}
                onClick={() => props.onStep(step)}
              >
                <span class="step-number" classList={{ done: isDone(step) }} aria-hidden="true">
                  {isDone(step) ? '✓' : i() + 1}
                </span>
                <span class="step-words">
                  <strong>{SHEET.steps[step].name}</strong>
                  <span class="small">{state(step)}</span>
                </span>
              </button>
            </li>
          )}
        </For>
      </ol>
    </nav>
  );
}

/** One step: its question, six fields at most, what else belongs to it, and the way on. */
export function StepForm(props: {
  of: SheetFieldProps;
  now: Step;
  /** What is folded is wanted too: a field of it was asked for. */
  more: boolean;
  onStep(step: Step): void;
}) {
  let heading!: HTMLHeadingElement;
  const at = () => STEPS.indexOf(props.now);
  const go = (by: number) => {
    const next = STEPS[at() + by];
    if (next === undefined) return;
    props.onStep(next);
    // Whoever goes on by key is led to what the next step asks.
    queueMicrotask(() => heading.focus());
  };
  return (
    <section class="panel step-form">
      <p class="muted">{SHEET.step(at() + 1, STEPS.length)}</p>
      <h2 ref={heading} tabIndex={-1}>
        {SHEET.steps[props.now].asks}
      </h2>
      {/* Made anew for each step: a field of one is none of another. */}
      <For each={[props.now]}>{(step) => <StepParts of={props.of} step={step} more={props.more} />}</For>
      <div class="row step-keys no-print">
        <button
          type="button"
          class="button"
          disabled={at() === 0}
          data-testid="step-back"
          onClick={() => go(-1)}
        >
          {SHEET.back}
        </button>
        <Show when={STEPS[at() + 1]}>
          {(next) => (
            <button type="button" class="button" data-testid="step-next" onClick={() => go(1)}>
              {SHEET.next(SHEET.steps[next()].name)}
            </button>
          )}
        </Show>
      </div>
    </section>
  );
}

function StepParts(props: { of: SheetFieldProps; step: Step; more: boolean }) {
  const { step } = props;
  const [opened, setOpened] = createSignal(false);
  return (
    <>
      <SheetFields names={STEP_FIELDS[step]} of={props.of} />
      <Show when={step === 'run'}>
        <NewOnes onNew={props.of.onNew} />
      </Show>
      <Show when={step === 'line'}>
        <Channels form={props.of.form} choices={props.of.choices} onNew={props.of.onNew} />
      </Show>
      <Show when={STEP_MOMENTS[step]}>
        {(moments) => <Checks form={props.of.form} moments={moments()} />}
      </Show>
      <details
        class="step-more"
        open={props.more || opened()}
        onToggle={(e) => setOpened(e.currentTarget.open)}
        data-testid="step-more"
      >
        <summary>
          <h3>{SHEET.more[step]}</h3>
        </summary>
        <SheetFields names={STEP_MORE[step]} of={props.of} />
        <Show when={step === 'mixing'}>
          <ThicknessPart form={props.of.form} />
        </Show>
      </details>
    </>
  );
}
