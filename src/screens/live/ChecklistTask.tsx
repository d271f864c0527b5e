import { createMemo, Show } from 'solid-js';
import { MOMENTS, type Moment } from '../../job/checklist.ts';
import { LIST } from '../../words/checks.ts';
import { ChecklistRows } from '../checklist/ChecklistRows.tsx';
import { Who } from '../checklist/Who.tsx';
import { useServices } from '../context.ts';
import type { LiveChecklist } from './checklist.ts';
import { momentsNow } from './checks-open.ts';

/** The job's checklist in the run: what is asked now, what was asked before, and folded what comes later. */
export function ChecklistTask(props: { checklist: LiveChecklist }) {
  const app = useServices();
  const { live } = app;
  const now = createMemo<readonly Moment[]>(
    () => {
      const view = live.view();
      const mixingWaits = live.setup()?.resin != null && view?.mixedUs === null;
      return momentsNow(view?.stage ?? 'prepare', mixingWaits);
    },
    [],
    { equals: (a, b) => a.join() === b.join() },
  );
  const first = () => MOMENTS.indexOf(now()[0] ?? 'let-down');
  const before = () => MOMENTS.filter((m, i) => i < first() && !now().includes(m));
  const later = () => MOMENTS.filter((m, i) => i >= first() && !now().includes(m));
  return (
    <Show
      when={props.checklist.list()}
      fallback={
        <div class="stack">
          <Who app={app} />
          <p data-testid="no-checklist">{LIST.noSheet}</p>
        </div>
      }
    >
      {(list) => {
        const rows = (moments: readonly Moment[]) => (
          <ChecklistRows
            list={list()}
            answers={props.checklist.answers()}
            moments={moments}
            onSay={(item, how, text) => void props.checklist.say(item, how, text).catch(app.fail)}
          />
        );
        const has = (moments: readonly Moment[]) => list().items.some((i) => moments.includes(i.at));
        return (
          <div class="stack" data-testid="live-checklist">
            <Who app={app} />
            <Show when={has(now())} fallback={<p>{LIST.nothingNow}</p>}>
              {rows(now())}
            </Show>
            <Show when={has(before())}>
              <details class="task" data-testid="checks-before">
                <summary>{LIST.before}</summary>
                {rows(before())}
              </details>
            </Show>
            <Show when={has(later())}>
              <details class="task" data-testid="checks-later">
                <summary>{LIST.later}</summary>
                {rows(later())}
              </details>
            </Show>
          </div>
        );
      }}
    </Show>
  );
}
