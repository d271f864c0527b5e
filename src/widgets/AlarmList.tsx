import { createEffect, createMemo, createSignal, For, type JSX, on, Show } from 'solid-js';
import type { AlarmCode } from '../watch/codes.ts';
import type { AlarmView } from '../watch/view.ts';
import { ALARM_STATE, ALARM_TITLE, alarmLine, PRIORITY } from '../words/alarm-titles.ts';
import { alarmSentence, NO_WARNING } from '../words/alarms.ts';
import { type DisplayUnits, duration } from '../words/format.ts';
import { type Scene, VERBS } from '../words/orders.ts';
import { UI } from '../words/ui.ts';
import { AlarmShape } from './AlarmShape.tsx';
import { ranked } from './alarm-order.ts';
import { FOCUS_MS, keepFocus } from './focus.ts';

/** A press this soon after one row has taken another's place was meant for the row before it, ms. */
const SWAP_GUARD_MS = 500;

/**
 * One alarm in full, the others as marks in a line above it: the list keeps its size however many come, so that
 * neither the pressure nor a button moves. All of them are opened by a press.
 */
export function AlarmList(props: {
  alarms: readonly AlarmView[];
  nowUs: number;
  units: DisplayUnits;
  /** Where it is known, the order stands beside the title. */
  at?: Scene | undefined;
  /** The engine fell silent: then the absence of alarms says nothing. */
  silent?: boolean;
  /** Standing marks, beside the alarms' own. */
  children?: JSX.Element;
  /** One alarm, or all that were shown, each with the occurrence that was. */
  onAcknowledge(shown: readonly AlarmView[]): void;
  onShelve?(alarm: AlarmCode): void;
  onUnshelve?(alarm: AlarmCode): void;
}) {
  const shown = createMemo(() => ranked(props.alarms));
  const aside = createMemo(() => props.alarms.filter((a) => a.state === 'shelved'));
  const open = createMemo(() => shown().filter((a) => a.state !== 'acknowledged'));
  // Rows are keyed by code, so that a row is not rebuilt (and its button not lost under a finger) when the
  // numbers of its text change thirty times a second.
  const codes = createMemo(() => shown().map((a) => a.alarm), [], { equals: sameCodes });
  const asideCodes = createMemo(() => aside().map((a) => a.alarm), [], { equals: sameCodes });
  const find = (code: AlarmCode | null) => shown().find((a) => a.alarm === code);
  const [all, setAll] = createSignal(false);
  const many = () => codes().length + asideCodes().length > 1;
  const expanded = () => all() && many();
  const rows = createMemo(() => (expanded() ? codes() : codes().slice(0, 1)), [], { equals: sameCodes });
  const rest = createMemo(() => (expanded() ? [] : codes().slice(1)), [], { equals: sameCodes });
  createEffect(() => {
    if (!many()) setAll(false);
  });
  // An alarm that is raised anew is another one to whoever presses, though its row is the same; the same one with
  // other numbers is not.
  const front = createMemo(() => {
    const first = find(rows()[0] ?? null);
    return first === undefined ? undefined : `${first.alarm} ${first.occurrence}`;
  });
  let swappedAt = Number.NEGATIVE_INFINITY;
  createEffect(
    on(front, (now, before) => {
      if (before !== undefined && now !== undefined) swappedAt = performance.now();
    }),
  );
  /** The pressed button goes with its alarm: the focus stays with the list, not at the top of the page. */
  let list!: HTMLElement;
  const act = (work: () => void) => {
    work();
    setTimeout(() => keepFocus(list), FOCUS_MS);
  };
  const meant = () => performance.now() - swappedAt >= SWAP_GUARD_MS;
  const spoken = createMemo(
    () =>
      open()
        .map((a) => `${alarmLine(a.alarm, a.priority)}.`)
        .join(' '),
    '',
  );
  return (
    <section
      class="alarms"
      ref={list}
      tabIndex={-1}
      classList={{ expanded: expanded() }}
      aria-label={UI.alarms}
      data-testid="alarms"
    >
      <div class="visually-hidden" role="alert" aria-live="assertive">
        {spoken()}
      </div>
      <div class="alarms-line">
        <Show when={codes().length === 0}>
          <p class="alarms-none" data-testid="no-alarms">
            {props.silent ? UI.notLive : UI.noAlarms} <span>{NO_WARNING}</span>
          </p>
        </Show>
        <Show when={rest().length > 0}>
          <ul class="marks alarm-rest" aria-label={UI.moreAlarms}>
            <For each={rest()}>
              {(code) => (
                <Show when={find(code)}>
                  {(alarm) => (
                    <li
                      class="alarm-mark"
                      classList={{
                        [alarm().priority]: true,
                        waiting: alarm().state === 'unacknowledged',
                        over: alarm().state === 'returned',
                      }}
                      data-testid={`alarm-${code}`}
                      data-state={alarm().state}
                      data-priority={alarm().priority}
                    >
                      <AlarmShape priority={alarm().priority} size={18} />
                      {ALARM_TITLE[code]}
                    </li>
                  )}
                </Show>
              )}
            </For>
          </ul>
        </Show>
        {props.children}
        <Show when={!expanded() && codes().length > 0 && asideCodes().length > 0}>
          <span class="mark">
            {UI.shelvedMark}: {asideCodes().length}
          </span>
        </Show>
      </div>
      <Show when={codes().length > 0}>
        <ul class="alarm-rows">
          <For each={rows()}>
            {(code, i) => (
              <Show when={find(code)}>
                {(alarm) => (
                  <li
                    class="alarm-row"
                    classList={{
                      [alarm().priority]: true,
                      waiting: alarm().state === 'unacknowledged',
                      over: alarm().state === 'returned',
                      settled: alarm().state === 'acknowledged',
                    }}
                    data-testid={`alarm-${code}`}
                    data-state={alarm().state}
                    data-priority={alarm().priority}
                  >
                    <AlarmShape priority={alarm().priority} size={36} />
                    <div class="alarm-words">
                      <p class="alarm-title">
                        <span class="alarm-priority">{PRIORITY[alarm().priority]}</span>{' '}
                        <span>{ALARM_TITLE[code]}</span>
                        <Show when={props.at}>
                          {(at) => (
                            <For each={VERBS[code](alarm(), at(), props.units).verb}>
                              {(line) => <strong class="alarm-verb"> {line}</strong>}
                            </For>
                          )}
                        </Show>
                        <span class="alarm-meta">
                          {ALARM_STATE[alarm().state]}, {duration((props.nowUs - alarm().sinceUs) / 1e6)}
                        </span>
                      </p>
                      <p class="alarm-text">{alarmSentence(alarm(), props.units)}</p>
                    </div>
                    <div class="alarm-buttons">
                      <Show when={alarm().state === 'unacknowledged' || alarm().state === 'returned'}>
                        <button
                          type="button"
                          class="button alarm-button"
                          data-testid={`acknowledge-${code}`}
                          aria-label={`${UI.acknowledge}: ${ALARM_TITLE[code]}`}
                          onClick={() => meant() && act(() => props.onAcknowledge([alarm()]))}
                        >
                          {UI.acknowledge}
                        </button>
                      </Show>
                      <Show when={alarm().state === 'acknowledged' && alarm().shelvable && props.onShelve}>
                        {(shelve) => (
                          <button
                            type="button"
                            class="button alarm-button"
                            data-testid={`shelve-${code}`}
                            onClick={() => meant() && shelve()(code)}
                          >
                            {UI.shelve}
                          </button>
                        )}
                      </Show>
                      <Show when={i() === 0 && many()}>
                        <button
                          type="button"
                          class="button alarm-button"
                          data-testid="alarms-all"
                          aria-expanded={expanded()}
                          onClick={() => setAll(!all())}
                        >
                          {expanded() ? UI.alarmsFirst : UI.alarmsAll(codes().length + asideCodes().length)}
                        </button>
                      </Show>
                    </div>
                  </li>
                )}
              </Show>
            )}
          </For>
        </ul>
        <Show when={expanded() && open().length > 1}>
          <button
            type="button"
            class="button wide"
            data-testid="acknowledge"
            onClick={() => act(() => props.onAcknowledge(open()))}
          >
            {UI.acknowledgeAll}
          </button>
        </Show>
      </Show>
      <Show when={asideCodes().length > 0 && (expanded() || codes().length === 0)}>
        <ul class="marks" aria-label={UI.shelved}>
          <For each={asideCodes()}>
            {(code) => (
              <li>
                <button
                  type="button"
                  class="button"
                  data-testid={`unshelve-${code}`}
                  onClick={() => props.onUnshelve?.(code)}
                >
                  {UI.shelvedMark}: {ALARM_TITLE[code]}
                </button>
              </li>
            )}
          </For>
        </ul>
      </Show>
    </section>
  );
}

function sameCodes(a: readonly AlarmCode[], b: readonly AlarmCode[]): boolean {
  return a.length === b.length && a.every((code, i) => code === b[i]);
}
