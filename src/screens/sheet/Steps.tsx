import { For, Show } from 'solid-js';
import { CHECKS } from '../../job/checklist.ts';
import { SHEET } from '../../words/sheet.ts';
import { Checks } from './Checks.tsx';
import type { SheetFieldProps } from './fields.tsx';
import { NewOnes, SheetFields } from './parts.tsx';
import { STEP_FIELDS, STEPS, type Step, unansweredIn } from './steps.ts';

/** Where one stands in the sheet, and what is still to be said in each step. */
export function StepList(props: { of: SheetFieldProps; now: Step; onStep(step: Step): void }) {
  const unanswered = (step: Step) => unansweredIn(step, props.of.form.draft()).length;
  const ticked = () => props.of.form.draft().checks.length;
  const isDone = (step: Step) => unanswered(step) === 0 && (step !== 'mixing' || ticked() === CHECKS.length);
  const state = (step: Step) => {
    if (step === 'mixing') return SHEET.ticked(ticked(), CHECKS.length);
    return unanswered(step) === 0 ? SHEET.allThere : SHEET.open(unanswered(step));
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

/** One step: its question, six fields at most, and the way on. */
export function StepForm(props: { of: SheetFieldProps; now: Step; onStep(step: Step): void }) {
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
      <For each={[props.now]}>
        {(step) => (
          <>
            <SheetFields names={STEP_FIELDS[step]} of={props.of} />
            <Show when={step === 'packer' || step === 'resin'}>
              <NewOnes onNew={props.of.onNew} />
            </Show>
            <Show when={step === 'mixing'}>
              <Checks form={props.of.form} />
            </Show>
          </>
        )}
      </For>
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
            <button type="button" class="button primary" data-testid="step-next" onClick={() => go(1)}>
              {SHEET.next(SHEET.steps[next()].name)}
            </button>
          )}
        </Show>
      </div>
    </section>
  );
}
