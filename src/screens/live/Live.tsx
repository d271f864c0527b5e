import { createEffect, createMemo, createSignal, For, on, Show } from 'solid-js';
import type { AlarmCode } from '../../watch/codes.ts';
import type { AlarmView } from '../../watch/view.ts';
import { AlarmList } from '../../widgets/AlarmList.tsx';
import { ranked, visibleAlarms } from '../../widgets/alarm-order.ts';
import { BigNumber } from '../../widgets/BigNumber.tsx';
import { CureLine } from '../../widgets/CureLine.tsx';
import { FOCUS_MS, keepFocus } from '../../widgets/focus.ts';
import { Ladder } from '../../widgets/Ladder.tsx';
import { createSize } from '../../widgets/size.ts';
import { viewTrust } from '../../widgets/trust.ts';
import { LIVE } from '../../words/live.ts';
import { STANDING } from '../../words/terms.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import { Cue } from './Cue.tsx';
import { Facts } from './Facts.tsx';
import { LinkNote } from './LinkNote.tsx';
import { LiveTrace } from './LiveTrace.tsx';
import { RigPanel } from './RigPanel.tsx';
import { RunBar } from './RunBar.tsx';
import { Shelve } from './Shelve.tsx';
import { StagePanel } from './StagePanel.tsx';
import { StartPanel } from './StartPanel.tsx';
import { createStart } from './start.ts';
import { TakeDevice } from './TakeDevice.tsx';
import { Question } from './Tasks.tsx';

/** The live screen: pressure huge, ladder, alarms, stage with its one next action, trace, cure line. */
export function Live(props: { jobId: string | null }) {
  const app = useServices();
  const { live } = app;
  const start = createStart(app, () => props.jobId);
  const [shelving, setShelving] = createSignal<AlarmCode | null>(null);

  // On a phone alarms and ladder share one room of fixed height: what one takes the other gives.
  const alarmSize = createSize();
  // A step's button goes with its step: the focus of a keyboard stays with the panel that follows.
  let stageSection!: HTMLElement;
  const panelNow = createMemo(() => [start.step(), live.view()?.stage, live.view()?.mixedUs == null].join());
  createEffect(on(panelNow, () => setTimeout(() => keepFocus(stageSection), FOCUS_MS), { defer: true }));
  const view = live.view;
  const connected = () => {
    const state = live.link()?.state;
    return state === 'streaming' || state === 'stopped' || state === 'lost' || state === 'retrying';
  };
  const trust = createMemo(() => viewTrust(view(), live.silent()));
  const urgent = createMemo(() =>
    visibleAlarms(view()?.alarms ?? []).some((a) => a.priority === 'urgent' && a.state !== 'returned'),
  );
  const waiting = createMemo(
    () => {
      const first = ranked(view()?.alarms ?? [])[0];
      return first?.state === 'unacknowledged' ? { alarm: first.alarm, priority: first.priority } : null;
    },
    null,
    { equals: (a, b) => a?.alarm === b?.alarm && a?.priority === b?.priority },
  );
  const standing = createMemo(() => (view()?.standing ?? []).filter((s) => s !== 'practice'), [], {
    equals: (a, b) => a.join() === b.join(),
  });
  const acknowledge = (shown: readonly AlarmView[]) => {
    for (const { alarm, occurrence } of shown)
      void app.ask({ q: 'command', command: { c: 'acknowledge', alarm, occurrence } }).catch(app.fail);
  };

  return (
    <div
      class="live"
      classList={{ starting: start.step() !== 'running' }}
      style={{ '--alarms-high': `${alarmSize.height()}px` }}
    >
      <h1 class="visually-hidden">{LIVE.title}</h1>
      <div class="live-alarms" ref={alarmSize.ref}>
        <AlarmList
          alarms={view()?.alarms ?? []}
          nowUs={view()?.tUs ?? 0}
          units={app.units()}
          silent={live.silent()}
          at={view() ?? undefined}
          onAcknowledge={acknowledge}
          onShelve={setShelving}
          onUnshelve={(alarm) =>
            void app.ask({ q: 'command', command: { c: 'unshelve', alarm } }).catch(app.fail)
          }
        >
          <Show when={standing().length > 0}>
            <ul class="marks" aria-label={LIVE.standing}>
              <For each={standing()}>
                {(code) => (
                  <li
                    class="mark"
                    data-testid={code === 'no-limit' ? 'no-limit' : `standing-${code}`}
                    title={STANDING[code].means}
                  >
                    {STANDING[code].mark}
                  </li>
                )}
              </For>
            </ul>
          </Show>
        </AlarmList>
      </div>

      <section class="live-number panel" aria-label={UI.pressure}>
        <BigNumber
          bar={view()?.bar ?? null}
          uBar={view()?.uBar ?? null}
          trust={trust()}
          ageS={live.silent() ? null : (view()?.ageS ?? null)}
          overBar={view()?.overBar ?? null}
          units={app.units()}
          alarm={waiting()}
        />
        <Ladder
          bar={view()?.overBar ?? view()?.bar ?? null}
          trust={trust()}
          limits={view()?.limits ?? null}
          settle={view()?.guard.settleBar ?? null}
          units={app.units()}
          alarmed={urgent()}
        />
        <div class="live-ask">
          <Cue />
          <Question />
        </div>
      </section>

      <div class="live-side">
        <section class="live-stage panel" aria-label={UI.stageNow} tabIndex={-1} ref={stageSection}>
          <Show when={start.step() === 'running'} fallback={<StartPanel start={start} />}>
            <StagePanel onEnd={() => start.endRun()} />
          </Show>
          <LinkNote />
          <TakeDevice />
        </section>

        <Show when={connected() || live.run() !== null}>
          <section class="live-facts panel" aria-label={LIVE.facts}>
            <Facts />
            <RunBar start={start} />
          </section>
        </Show>
      </div>

      <Show when={connected() || live.run() !== null}>
        <section class="live-trace panel" aria-label={LIVE.traceLabel}>
          <LiveTrace />
          <Show when={live.run() !== null}>
            <CureLine
              cure={view()?.cure ?? null}
              hasResin={live.setup()?.resin !== null && live.setup() !== null}
              isLightCured={live.setup()?.resin?.curedBy === 'light'}
              stage={view()?.stage ?? 'prepare'}
              nowUtcMs={(live.rig()?.speed ?? 1) === 1 ? app.nowMs() : null}
              units={app.units()}
            />
          </Show>
        </section>
      </Show>
      <Show when={live.link()?.kind === 'rig' && connected()}>
        <RigPanel />
      </Show>
      <Shelve alarm={shelving()} onDone={() => setShelving(null)} />
    </div>
  );
}
