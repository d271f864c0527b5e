import { createMemo, createSignal, For, Show } from 'solid-js';
import type { AlarmCode } from '../../../watch/codes.ts';
import { AlarmShape } from '../../../widgets/AlarmShape.tsx';
import { ranked } from '../../../widgets/alarm-order.ts';
import { TextField } from '../../../widgets/Fields.tsx';
import { Key } from '../../../widgets/Key.tsx';
import { ALARM_STATE, alarmTitle, PRIORITY } from '../../../words/alarm-titles.ts';
import { FACE, SHELF_REASONS } from '../../../words/face.ts';
import { duration } from '../../../words/format.ts';
import { VERBS } from '../../../words/orders.ts';
import { UI } from '../../../words/ui.ts';
import { useServices } from '../../context.ts';
import type { Actions } from '../actions.ts';

const SHELVE_S = 600;

/** All alarms that are there and all that were put aside, each with what can be done with it. */
export function Alarms(props: { actions: Actions; reason: string; onReason(text: string): void }) {
  const app = useServices();
  const { live } = app;
  const [shelving, setShelving] = createSignal<AlarmCode | null>(null);
  const all = () => live.view()?.alarms ?? [];
  // By code: no row is built anew, and no key lost under a finger, when the numbers of its text change.
  const codes = createMemo(
    () => [...ranked(all()), ...all().filter((a) => a.state === 'shelved')].map((a) => a.alarm),
    [],
    { equals: (a, b) => a.join() === b.join() },
  );
  const find = (code: AlarmCode) => all().find((a) => a.alarm === code);
  const shelve = (alarm: AlarmCode, reason: string) => {
    setShelving(null);
    props.actions.command({ c: 'shelve', alarm, seconds: SHELVE_S, reason });
  };
  return (
    <div class="stack" data-testid="alarms">
      <Show when={codes().length === 0}>
        <p>{FACE.allAlarms}</p>
      </Show>
      <For each={codes()}>
        {(code) => (
          <Show when={find(code)}>
            {(alarm) => {
              const waits = () => alarm().state === 'unacknowledged' || alarm().state === 'returned';
              const view = () => live.view();
              return (
                <section
                  class="alarm-item"
                  classList={{ [alarm().priority]: true, [alarm().state]: true }}
                  data-testid={`listed-${code}`}
                >
                  <AlarmShape priority={alarm().priority} size={28} />
                  <div class="grow">
                    <h2>
                      {PRIORITY[alarm().priority]}. {alarmTitle(alarm())}
                    </h2>
                    <p class="small">
                      {ALARM_STATE[alarm().state]}, {duration(((view()?.tUs ?? 0) - alarm().sinceUs) / 1e6)}
                    </p>
                    <p>{view() === null ? '' : VERBS[code](alarm(), view()!, app.units()).sentence}</p>
                  </div>
                  <Show when={waits()}>
                    <Key
                      class="wide"
                      means={`${code} ${alarm().occurrence}`}
                      fresh
                      data-testid={`acknowledge-${code}`}
                      aria-label={`${UI.acknowledge}${UI.colon} ${alarmTitle(alarm())}`}
                      onPress={() => props.actions.acknowledge([alarm()])}
                    >
                      {UI.acknowledge}
                    </Key>
                  </Show>
                  <Show when={alarm().state === 'acknowledged' && alarm().shelvable && shelving() !== code}>
                    <Key
                      class="wide"
                      means={code}
                      data-testid={`shelve-${code}`}
                      onPress={() => setShelving(code)}
                    >
                      {UI.shelve}
                    </Key>
                  </Show>
                  <Show when={alarm().state === 'shelved'}>
                    <Key
                      class="wide"
                      means={code}
                      data-testid={`unshelve-${code}`}
                      onPress={() => props.actions.command({ c: 'unshelve', alarm: code })}
                    >
                      {FACE.takeBack}
                    </Key>
                  </Show>
                  <Show when={shelving() === code}>
                    <div class="stack wide">
                      <p>
                        <strong>{FACE.shelfTitle}</strong>. {UI.shelveText}
                      </p>
                      <For each={SHELF_REASONS}>
                        {(reason, i) => (
                          <Key
                            class="wide"
                            means={`${code} ${reason}`}
                            fresh
                            data-testid={`shelf-reason-${i()}`}
                            onPress={() => shelve(code, reason)}
                          >
                            {reason}
                          </Key>
                        )}
                      </For>
                      <TextField
                        label={FACE.ownReason}
                        value={props.reason}
                        onValue={props.onReason}
                        testId="shelf-reason"
                      />
                      <div class="row">
                        <button type="button" class="button" onClick={() => setShelving(null)}>
                          {UI.cancel}
                        </button>
                        <button
                          type="button"
                          class="button grow"
                          data-testid="shelf-send"
                          disabled={props.reason.trim() === ''}
                          onClick={() => {
                            shelve(code, props.reason.trim());
                            props.onReason('');
                          }}
                        >
                          {UI.shelve}
                        </button>
                      </div>
                    </div>
                  </Show>
                </section>
              );
            }}
          </Show>
        )}
      </For>
    </div>
  );
}
