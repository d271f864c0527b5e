import { createEffect, createResource, For, Show, Suspense } from 'solid-js';
import type { RunSummary } from '../../engine/messages.ts';
import {
  type Account,
  asksReason,
  type Numbers,
  type RecordRef,
  type RecordView,
} from '../../evidence/messages.ts';
import { ACCOUNT, accountText, OPEN_POINT } from '../../words/account.ts';
import { dateTimeZone, type RunClock } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { RECORDS } from '../../words/records.ts';
import { UI } from '../../words/ui.ts';
import { failed, useServices } from '../context.ts';
import { AlarmCounts } from '../runs/AlarmCounts.tsx';
import { StatusPart } from './StatusPart.tsx';

/** What the run was, in sentences of facts, what is still open, and what somebody decided about it. */
export function AccountPart(props: {
  source: RecordRef;
  summary: RunSummary;
  /** null: on its way, or it could not be read. */
  told: { readonly account: Account; readonly numbers: Numbers } | null;
  /** Names the run's times. */
  clock: RunClock;
  /** What was decided is there to be seen, or cannot be read. */
  onDecision(): void;
  /** On a file; null for a run of this browser. */
  verdict: RecordView['verdict'];
}) {
  const app = useServices();
  return (
    <section class="account" aria-label={ACCOUNT.label} data-testid="account">
      <div class="account-told">
        <header>
          <h1>{props.summary.title === '' ? props.summary.runId : props.summary.title}</h1>
          <p class="account-when">
            {dateTimeZone(props.summary.openedUtcMs)}
            <Show when={props.summary.practice}>
              <span class="tag practice-tag">
                <span>{JOBS.practiceTag}</span>
              </span>
            </Show>
          </p>
        </header>
        <Show when={props.told} fallback={<p class="account-say">{ACCOUNT.reading}</p>}>
          {(told) => (
            <>
              <p class="account-say" data-testid="account-say">
                <For each={accountText(told().account, told().numbers, props.clock, app.units())}>
                  {(sentence, i) => <span classList={{ first: i() === 0 }}>{sentence} </span>}
                </For>
              </p>
              <div class="account-facts">
                <Show
                  when={told().account.open.length > 0}
                  fallback={<span class="account-point">{ACCOUNT.nothingOpen}</span>}
                >
                  <ul class="account-open" aria-label={ACCOUNT.open}>
                    <For each={told().account.open}>
                      {(point) => <li class="account-point">{OPEN_POINT[point]}</li>}
                    </For>
                  </ul>
                </Show>
                <span class="account-alarms">
                  {RECORDS.alarms}
                  {UI.colon} <AlarmCounts counts={told().numbers.alarms} />
                </span>
              </div>
            </>
          )}
        </Show>
      </div>
      <Show when={!props.summary.practice && props.summary.state !== 'open'}>
        <Suspense>
          <Decision
            source={props.source}
            asksReason={props.told !== null && asksReason(props.told, props.verdict)}
            onRead={props.onDecision}
          />
        </Suspense>
      </Show>
    </section>
  );
}

function Decision(props: { source: RecordRef; asksReason: boolean; onRead(): void }) {
  const app = useServices();
  const [lines, { mutate }] = createResource(
    () => props.source,
    (ref) => app.evidence({ q: 'statuses', ref }).catch(failed(app)),
  );
  createEffect(() => {
    if (!lines.loading) props.onRead();
  });
  return (
    <Show when={lines()}>
      {(l) => (
        <StatusPart
          source={props.source}
          lines={l()}
          asksReason={props.asksReason}
          onChange={(next) => mutate(next)}
        />
      )}
    </Show>
  );
}
