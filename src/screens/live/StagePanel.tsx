import { createEffect, createMemo, createSignal, For, Match, on, onCleanup, Show, Switch } from 'solid-js';
import type { Stage } from '../../watch/codes.ts';
import { Dialog } from '../../widgets/Dialog.tsx';
import { TextField } from '../../widgets/Fields.tsx';
import { CAUTION, CAUTIONS_AT } from '../../words/cautions.ts';
import { STAGE_DOUBT } from '../../words/doubts.ts';
import { stopwatch } from '../../words/format.ts';
import { LIVE } from '../../words/live.ts';
import { INSTRUCTIONS, STAGE_KEY } from '../../words/orders.ts';
import { STAGE, STAGE_ACTION } from '../../words/terms.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import { furtherStages, inTrouble, mainAction } from './next-stage.ts';
import { doubtsOf, type StageDoubt, seenOf } from './stage-doubts.ts';
import { GaugeCheck, Mixed, Note, Vent, WarmCheck, Witness } from './Tasks.tsx';

/** So long after a change of stage no other is taken, ms. */
const REST_MS = 1200;

/** The stage: what it is, what to do in it, its small tasks, and the one next action. */
export function StagePanel(props: { onEnd(): void }) {
  const app = useServices();
  const { live } = app;
  const stage = createMemo(() => live.view()?.stage ?? 'prepare');
  const seatPlanned = () => live.view()?.limits?.seatBar != null;
  const next = createMemo(() => {
    const view = live.view();
    return view === null ? null : mainAction(view, seatPlanned());
  });
  const further = createMemo(
    () => {
      const view = live.view();
      return view === null ? [] : furtherStages(view, seatPlanned());
    },
    [],
    { equals: (a, b) => a.join() === b.join() },
  );
  const trouble = createMemo(() => {
    const view = live.view();
    return view !== null && inTrouble(view);
  });
  const [asking, setAsking] = createSignal<{ to: Stage; doubts: readonly StageDoubt[] } | null>(null);
  const [reason, setReason] = createSignal('');

  const [sending, setSending] = createSignal(false);
  const send = (to: Stage, why?: string) => {
    setSending(true);
    void app
      .ask({
        q: 'command',
        command: why === undefined ? { c: 'stage', to } : { c: 'stage', to, reason: why },
      })
      .catch(app.fail)
      .finally(() => setSending(false));
    setAsking(null);
  };
  // The main button stays in its place when its stage changes: a second press or a key that is held down was meant for
  // the stage before.
  const [resting, setResting] = createSignal(false);
  createEffect(
    on(
      stage,
      () => {
        setResting(true);
        const timer = setTimeout(() => setResting(false), REST_MS);
        onCleanup(() => clearTimeout(timer));
      },
      { defer: true },
    ),
  );
  const go = (to: Stage) => {
    const view = live.view();
    if (view === null || sending()) return;
    const doubts = doubtsOf(to, view, seenOf(live.events(), view.attempt));
    if (doubts.length === 0) send(to);
    else {
      setReason('');
      setAsking({ to, doubts });
    }
  };
  const hint = () => {
    const at = stage();
    const { say, besides } =
      at === 'prepare'
        ? INSTRUCTIONS[at].zero()
        : at === 'hold'
          ? INSTRUCTIONS[at].keep()
          : at === 'done'
            ? INSTRUCTIONS[at].untested()
            : at === 'abandoned'
              ? INSTRUCTIONS[at].pressure()
              : INSTRUCTIONS[at].open();
    return `${say} ${besides}`;
  };
  const elapsed = () => {
    const v = live.view();
    return v === null ? '' : stopwatch((v.tUs - v.stageSinceUs) / 1e6);
  };
  const cautions = () =>
    stage() === 'prepare'
      ? CAUTIONS_AT.prepare
      : stage() === 'seat' || stage() === 'inflate'
        ? CAUTIONS_AT.inflate
        : stage() === 'let-down' || stage() === 'abandoned'
          ? CAUTIONS_AT['let-down']
          : [];

  return (
    <div class="stage" data-testid="stage" data-stage={stage()}>
      <div class="stage-head">
        <p class="label">{UI.stageNow}</p>
        <h2>
          {STAGE[stage()]}
          <Show when={(live.view()?.attempt ?? 1) > 1}>
            <span class="muted">, {UI.attempt(live.view()?.attempt ?? 1)}</span>
          </Show>
          <span class="stage-clock">{elapsed()}</span>
        </h2>
        {/* Out of sight, not out of its place: nothing may move under a finger when an alarm comes. */}
        <p classList={{ unseen: trouble() }}>{hint()}</p>
      </div>

      <Switch>
        <Match when={stage() === 'prepare'}>
          <WarmCheck />
          <Mixed />
        </Match>
        <Match when={stage() === 'seat'}>
          <GaugeCheck />
          <Mixed />
        </Match>
        <Match when={stage() === 'hold'}>
          <Witness />
        </Match>
        <Match when={stage() === 'let-down' || stage() === 'abandoned'}>
          <Vent />
        </Match>
      </Switch>

      <Show when={next()}>
        {(to) => (
          <button
            type="button"
            class="button primary wide stage-next"
            data-testid="stage-next"
            data-to={to()}
            aria-disabled={resting()}
            onKeyDown={(e) => e.repeat && e.preventDefault()}
            onClick={() => resting() || go(to())}
          >
            {STAGE_KEY[to()]}
          </button>
        )}
      </Show>
      <Show when={next() === null && trouble()}>
        <button type="button" class="button primary wide stage-next" data-testid="stage-next" disabled>
          {LIVE.alarmFirst}
        </button>
      </Show>
      <Show when={stage() === 'done' && !trouble()}>
        <button
          type="button"
          class="button primary wide stage-next"
          data-testid="stage-end"
          onClick={() => props.onEnd()}
        >
          {LIVE.endRun}
        </button>
      </Show>
      <details class="more">
        <summary>{LIVE.otherStages}</summary>
        <div class="row">
          <For each={further()}>
            {(to) => (
              <button type="button" class="button" data-testid={`stage-${to}`} onClick={() => go(to)}>
                {STAGE_ACTION[to]}
              </button>
            )}
          </For>
        </div>
        <Note />
      </details>
      <Show when={cautions().length > 0}>
        <ul class="cautions small">
          <For each={cautions()}>{(c) => <li>{CAUTION[c]}</li>}</For>
        </ul>
      </Show>

      <Dialog
        open={asking() !== null}
        title={LIVE.jumpTitle}
        onClose={() => setAsking(null)}
        testId="stage-doubt"
        actions={
          <>
            <button type="button" class="button" onClick={() => setAsking(null)}>
              {UI.cancel}
            </button>
            <button
              type="button"
              class="button primary"
              data-testid="confirm-yes"
              disabled={reason().trim() === ''}
              onClick={() => {
                const a = asking();
                if (a !== null) send(a.to, reason().trim());
              }}
            >
              {asking() === null ? '' : STAGE_ACTION[asking()!.to]}
            </button>
          </>
        }
      >
        <ul class="stack">
          <For each={asking()?.doubts ?? []}>{(d) => <li class="note strong">{STAGE_DOUBT[d]}</li>}</For>
        </ul>
        <TextField label={LIVE.stageReason} value={reason()} onValue={setReason} testId="stage-reason" />
      </Dialog>
    </div>
  );
}
