import { createMemo, createSignal, For, Show } from 'solid-js';
import type { WatchEvent } from '../../watch/events.ts';
import { AlarmShape } from '../../widgets/AlarmShape.tsx';
import { eventText } from '../../words/events.ts';
import { clockTime, stopwatch, zone } from '../../words/format.ts';
import { REVIEW } from '../../words/review.ts';
import { useServices } from '../context.ts';
import { handsOf } from './hands.ts';
import type { Note } from './notes.ts';

/** Shown before all of them are asked for; of alarms those that were raised. */
const MAIN: Readonly<Record<WatchEvent['e'], boolean>> = {
  stage: true,
  gap: true,
  beside: true,
  limits: true,
  'setup-refused': true,
  'acknowledge-refused': false,
  zero: true,
  gauge: true,
  'warm-check': true,
  'cure-met': true,
  rebound: true,
  supply: true,
  'air-test': true,
  'outlet-stood': true,
  mixed: true,
  cup: true,
  sample: true,
  witness: true,
  override: true,
  check: true,
  operator: true,
  note: true,
  device: true,
  store: true,
  end: true,
  alarm: false,
  cue: false,
  'too-fast': false,
  segment: false,
  leak: false,
  hold: false,
  knee: false,
  lift: false,
  'cure-start': false,
  question: false,
};

export function isMain(e: WatchEvent): boolean {
  return MAIN[e.e] || (e.e === 'alarm' && e.to === 'unacknowledged');
}

/** The record's events in words; a press shows the place on the trace. */
export function EventList(props: {
  events: readonly WatchEvent[];
  /** The numbers that they carry on the trace. */
  notes: ReadonlyMap<WatchEvent, Note>;
  firstUs: number;
  utcMs: number | null;
  onShow(s: number): void;
}) {
  const app = useServices();
  const [all, setAll] = createSignal(false);
  const hands = createMemo(() => handsOf(props.events));
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
      <p class="small muted" data-testid="clock-zone">
        {props.utcMs === null ? REVIEW.runTimeOnly : REVIEW.clockZone(zone(props.utcMs))}
      </p>
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
                  data-note={props.notes.get(e)?.number}
                  onClick={() => props.onShow(Math.max(0, s()))}
                >
                  <NoteNumber note={props.notes.get(e)} />
                  <time>
                    {stopwatch(s())}
                    <span class="muted">
                      {' '}
                      {props.utcMs === null ? '' : clockTime(props.utcMs + e.tUs / 1000)}
                    </span>
                  </time>
                  <span class="event-text">
                    {e.e === 'alarm' && e.to === 'unacknowledged' ? (
                      <span class={`event-shape ${e.priority}`}>
                        <AlarmShape priority={e.priority} size={18} />
                      </span>
                    ) : null}
                    {eventText(e, app.units())}
                    <Show when={hands().get(e)}>{(by) => <span class="muted"> ({by()})</span>}</Show>
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

function NoteNumber(props: { note: Note | undefined }) {
  return (
    <Show when={props.note} fallback={<span />}>
      {(note) => <span class={`note-number ${note().priority ?? ''}`}>{note().number}</span>}
    </Show>
  );
}
