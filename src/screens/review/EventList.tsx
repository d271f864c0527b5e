import { createMemo, createSignal, For } from 'solid-js';
import type { WatchEvent } from '../../watch/events.ts';
import { AlarmShape } from '../../widgets/AlarmShape.tsx';
import { eventText } from '../../words/events.ts';
import { clockTime, stopwatch } from '../../words/format.ts';
import { REVIEW } from '../../words/jobs.ts';
import { useServices } from '../context.ts';

const MAIN: readonly WatchEvent['e'][] = [
  'stage',
  'gap',
  'limits',
  'setup-refused',
  'zero',
  'gauge',
  'warm-check',
  'cure-met',
  'rebound',
  'mixed',
  'witness',
  'override',
  'note',
  'device',
  'store',
  'end',
];

export function isMain(e: WatchEvent): boolean {
  return MAIN.includes(e.e) || (e.e === 'alarm' && e.why === 'condition');
}

/** The record's events in words; a press shows the place on the trace. */
export function EventList(props: {
  events: readonly WatchEvent[];
  firstUs: number;
  utcMs: number | null;
  onShow(s: number): void;
}) {
  const app = useServices();
  const [all, setAll] = createSignal(false);
  const shown = createMemo(() => (all() ? props.events : props.events.filter(isMain)));
  return (
    <section class="panel" data-testid="events" aria-label={REVIEW.events}>
      <div class="row">
        <h2 class="grow">{REVIEW.events}</h2>
        <button
          type="button"
          class="button quiet no-print"
          aria-pressed={all()}
          onClick={() => setAll(!all())}
        >
          {all() ? REVIEW.showMain : REVIEW.showAll}
        </button>
      </div>
      <ol class="event-list">
        <For each={shown()}>
          {(e, i) => {
            const s = () => (e.tUs - props.firstUs) / 1e6;
            return (
              <li>
                <button
                  type="button"
                  class="event-row"
                  data-testid={`event-${i()}`}
                  data-event={e.e}
                  onClick={() => props.onShow(Math.max(0, s()))}
                >
                  <time>
                    {stopwatch(s())}
                    <span class="muted">
                      {' '}
                      {props.utcMs === null ? '' : clockTime(props.utcMs + e.tUs / 1000)}
                    </span>
                  </time>
                  <span class="event-text">
                    {e.e === 'alarm' && e.why === 'condition' ? (
                      <span class={`event-shape ${e.priority}`}>
                        <AlarmShape priority={e.priority} size={18} />
                      </span>
                    ) : null}
                    {eventText(e, app.units())}
                  </span>
                </button>
              </li>
            );
          }}
        </For>
      </ol>
    </section>
  );
}
