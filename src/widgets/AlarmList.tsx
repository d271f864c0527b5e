import { createMemo, For, Show } from 'solid-js';
import type { AlarmCode } from '../watch/codes.ts';
import type { AlarmView } from '../watch/view.ts';
import { ALARM_STATE, ALARM_TITLE, alarmText, NO_WARNING, PRIORITY } from '../words/alarms.ts';
import { type DisplayUnits, duration } from '../words/format.ts';
import { UI } from '../words/ui.ts';
import { AlarmShape } from './AlarmShape.tsx';

/** Ceiling and lost reading are never put aside. */
const NEVER_SHELVED: readonly AlarmCode[] = ['ceiling', 'rising', 'pressure-lost', 'device-trip'];

export function maybeShelved(alarm: AlarmCode): boolean {
  return !NEVER_SHELVED.includes(alarm);
}

/** Alarms that want the eye: raised or waiting for an acknowledgement, not shelved, not children. */
export function visibleAlarms(alarms: readonly AlarmView[]): readonly AlarmView[] {
  return alarms.filter((a) => a.state !== 'normal' && a.state !== 'shelved' && a.state !== 'suppressed');
}

export function AlarmList(props: {
  alarms: readonly AlarmView[];
  nowUs: number;
  units: DisplayUnits;
  /** The engine fell silent: then the absence of alarms says nothing. */
  silent?: boolean;
  onAcknowledge(alarm: AlarmCode | 'all'): void;
  onShelve?(alarm: AlarmCode): void;
  onUnshelve?(alarm: AlarmCode): void;
}) {
  const shown = createMemo(() => visibleAlarms(props.alarms));
  const aside = createMemo(() => props.alarms.filter((a) => a.state === 'shelved'));
  const open = createMemo(() => shown().filter((a) => a.state !== 'acknowledged'));
  // Rows are keyed by code, so that a row is not rebuilt (and its button not lost under a finger) when the
  // numbers of its text change thirty times a second.
  const codes = createMemo(() => shown().map((a) => a.alarm), [], { equals: sameCodes });
  const find = (code: AlarmCode) => shown().find((a) => a.alarm === code);
  const spoken = createMemo(
    () =>
      open()
        .map((a) => `${PRIORITY[a.priority]}: ${ALARM_TITLE[a.alarm]}.`)
        .join(' '),
    '',
  );
  return (
    <section class="alarms" aria-label={UI.alarms} data-testid="alarms">
      <div class="visually-hidden" role="alert" aria-live="assertive">
        {spoken()}
      </div>
      <Show
        when={codes().length > 0}
        fallback={
          <p class="alarms-none" data-testid="no-alarms">
            {props.silent ? UI.notLive : UI.noAlarms} <span>{NO_WARNING}</span>
          </p>
        }
      >
        <ul class="alarm-rows">
          <For each={codes()}>
            {(code) => (
              <Show when={find(code)}>
                {(alarm) => (
                  <li
                    class="alarm-row"
                    classList={{
                      [alarm().priority]: true,
                      waiting: alarm().state === 'unacknowledged',
                      over: alarm().state === 'returned',
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
                      </p>
                      <p class="alarm-text">{alarmText(code, alarm().values, props.units)}</p>
                      <p class="alarm-meta">
                        {ALARM_STATE[alarm().state]}, {duration((props.nowUs - alarm().sinceUs) / 1e6)}
                      </p>
                    </div>
                    <div class="alarm-buttons">
                      <Show when={alarm().state === 'unacknowledged' || alarm().state === 'returned'}>
                        <button
                          type="button"
                          class="button alarm-button"
                          data-testid={`acknowledge-${code}`}
                          aria-label={`${UI.acknowledge}: ${ALARM_TITLE[code]}`}
                          onClick={() => props.onAcknowledge(code)}
                        >
                          {UI.acknowledge}
                        </button>
                      </Show>
                      <Show when={alarm().state === 'acknowledged' && maybeShelved(code) && props.onShelve}>
                        {(shelve) => (
                          <button
                            type="button"
                            class="button alarm-button"
                            data-testid={`shelve-${code}`}
                            onClick={() => shelve()(code)}
                          >
                            {UI.shelve}
                          </button>
                        )}
                      </Show>
                    </div>
                  </li>
                )}
              </Show>
            )}
          </For>
        </ul>
        <Show when={open().length > 1}>
          <button
            type="button"
            class="button wide"
            data-testid="acknowledge"
            onClick={() => props.onAcknowledge('all')}
          >
            {UI.acknowledgeAll}
          </button>
        </Show>
      </Show>
      <Show when={aside().length > 0}>
        <ul class="marks" aria-label={UI.shelved}>
          <For each={aside()}>
            {(alarm) => (
              <li>
                <button
                  type="button"
                  class="button"
                  data-testid={`unshelve-${alarm.alarm}`}
                  onClick={() => props.onUnshelve?.(alarm.alarm)}
                >
                  {UI.shelvedMark}: {ALARM_TITLE[alarm.alarm]}
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
