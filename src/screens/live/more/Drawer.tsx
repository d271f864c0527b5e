import { createEffect, createMemo, createSignal, For, on, Show } from 'solid-js';
import type { Stage } from '../../../watch/codes.ts';
import type { SpanChoice } from '../../../widgets/lanes/spans-shown.ts';
import { CAUTION, CAUTIONS_AT } from '../../../words/cautions.ts';
import { FACE } from '../../../words/face.ts';
import { useServices } from '../../context.ts';
import { AirTestTask } from '../AirTestTask.tsx';
import type { Actions } from '../actions.ts';
import { ChecklistTask } from '../ChecklistTask.tsx';
import type { LiveChecklist } from '../checklist.ts';
import { Facts } from '../Facts.tsx';
import { LinkNote } from '../LinkNote.tsx';
import type { Rect } from '../layout.ts';
import { place } from '../place.ts';
import { RigPanel } from '../RigPanel.tsx';
import { RunBar } from '../RunBar.tsx';
import { SoundTest } from '../SoundTest.tsx';
import { StartPanel } from '../StartPanel.tsx';
import { OutletStood, SupplyProof } from '../SupplyProof.tsx';
import type { Start } from '../start.ts';
import { TakeDevice } from '../TakeDevice.tsx';
import { GaugeCheck, Note, WarmCheck, Witness } from '../Tasks.tsx';
import { ZeroSecond } from '../ZeroSecond.tsx';
import { Alarms } from './Alarms.tsx';
import { Spans } from './Spans.tsx';
import { Stages, Why } from './Stages.tsx';
import type { More, Tab } from './state.ts';

/** Which cautions stand beside the checks of a stage. */
const CAUTIONED: Record<Stage, 'prepare' | 'inflate' | 'let-down' | 'air-test'> = {
  prepare: 'prepare',
  seat: 'inflate',
  inflate: 'inflate',
  hold: 'let-down',
  'let-down': 'let-down',
  done: 'let-down',
  'air-test': 'air-test',
  abandoned: 'let-down',
};

/** What is seen of the tab before the chosen one, px. */
const BESIDE_TAB_PX = 36;

/** Panels with fields stay where they are when another one is looked at: what was typed is kept. */
const KEPT: readonly Tab[] = ['checks', 'checklist', 'note', 'alarms', 'why'];

/**
 * More: over the trace, and over nothing else. It holds what is not needed at a glance, and before a run the steps to one.
 * An urgent alarm closes it; what was typed is there when it is opened again.
 */
export function Drawer(props: {
  tab: Tab;
  open: boolean;
  more: More;
  start: Start;
  actions: Actions;
  checklist: LiveChecklist;
  at: Rect;
  /** Read from the hand. */
  small: boolean;
  span: SpanChoice;
  onSpan(span: SpanChoice): void;
}) {
  const { live } = useServices();
  const running = () => props.start.step() === 'running';
  const tabs = createMemo<readonly Tab[]>(
    () => {
      const connected = live.link()?.kind === 'rig' && live.rig() !== null;
      const own: Tab[] = running()
        ? [
            'numbers',
            'spans',
            'stages',
            'checks',
            ...(props.checklist.list() === null ? [] : (['checklist'] as const)),
            'note',
            'alarms',
            'run',
          ]
        : ['start', 'alarms', 'run'];
      return connected ? [...own, 'rig'] : own;
    },
    [],
    { equals: (a, b) => a.join() === b.join() },
  );
  const cautions = () => CAUTIONS_AT[CAUTIONED[live.view()?.stage ?? 'prepare']];
  const [visited, setVisited] = createSignal<ReadonlySet<Tab>>(new Set());
  createEffect(() => {
    const { tab } = props;
    if (KEPT.includes(tab)) setVisited((seen) => (seen.has(tab) ? seen : new Set([...seen, tab])));
  });
  const [reason, setReason] = createSignal('');
  const [shelf, setShelf] = createSignal('');
  const shown = (tab: Tab) => props.open && props.tab === tab;

  let element!: HTMLElement;
  // What was opened gets the focus, so that a keyboard and a screen reader go on from there.
  createEffect(
    on(
      () => (props.open ? `${props.tab} ${props.more.wanted() ?? ''}` : ''),
      (now, before) => {
        if (now === '' || now === before || props.more.tab() === null) return;
        const wanted = props.more.wanted();
        queueMicrotask(() => {
          const field =
            wanted === null ? null : element.querySelector<HTMLElement>(`[data-testid="${wanted}"]`);
          (field ?? element).focus({ preventScroll: true });
          field?.scrollIntoView({ block: 'nearest' });
        });
      },
      { defer: true },
    ),
  );
  // Of tabs that are moved sideways the chosen one is seen, with a little of what stands beside it.
  let row!: HTMLDivElement;
  createEffect(
    on(
      () => props.open && props.tab,
      () => {
        const chosen = row.querySelector<HTMLElement>('[aria-selected="true"]');
        if (chosen === null || row.scrollWidth <= row.clientWidth) return;
        row.scrollLeft = Math.max(0, chosen.offsetLeft - row.offsetLeft - BESIDE_TAB_PX);
      },
    ),
  );
  // Another panel or another step is read from its head.
  let body!: HTMLDivElement;
  createEffect(
    on(
      () => `${props.tab} ${props.start.step()}`,
      () => {
        body.scrollTop = 0;
      },
      { defer: true },
    ),
  );
  return (
    <section
      class="drawer"
      classList={{ practice: props.tab === 'rig' }}
      hidden={!props.open}
      style={place(props.at)}
      ref={element}
      tabIndex={-1}
      aria-label={FACE.tabs[props.tab]}
      data-testid="drawer"
      data-tab={props.tab}
      onKeyDown={(e) => e.key === 'Escape' && props.more.close()}
    >
      <div class="drawer-tabs" role="tablist" ref={row}>
        <For each={tabs()}>
          {(tab) => (
            <button
              type="button"
              role="tab"
              class="drawer-tab"
              aria-selected={props.tab === tab}
              data-testid={`more-${tab}`}
              onClick={() => props.more.open(tab)}
            >
              {tab === 'run' && props.small ? FACE.runTabShort : FACE.tabs[tab]}
            </button>
          )}
        </For>
      </div>
      <div class="drawer-body" ref={body} role="tabpanel" aria-label={FACE.tabs[props.tab]}>
        <Show when={props.open && live.run() !== null}>
          <LinkNote />
          <TakeDevice />
        </Show>
        <Show when={shown('start') && !running()}>
          <Show when={live.run() === null}>
            <LinkNote />
          </Show>
          <StartPanel start={props.start} />
        </Show>
        <Show when={shown('numbers')}>
          <Facts />
        </Show>
        <Show when={shown('spans')}>
          <Spans span={props.span} onSpan={props.onSpan} />
        </Show>
        <Show when={shown('stages')}>
          <Stages actions={props.actions} checklist={props.checklist} />
        </Show>
        <Show when={visited().has('why')}>
          <div hidden={!shown('why')}>
            <Show when={props.more.asked()}>
              {(asked) => (
                <Why
                  asked={asked()}
                  checklist={props.checklist}
                  reason={reason()}
                  onReason={setReason}
                  onSend={(why) => {
                    props.actions.sendInSpite(asked().to, asked().doubts, why);
                    setReason('');
                  }}
                  onGo={() => props.actions.go(asked().to)}
                  onBack={() => props.more.close()}
                />
              )}
            </Show>
          </div>
        </Show>
        <Show when={visited().has('checks')}>
          <div class="stack" hidden={!shown('checks')}>
            <Show when={live.view()?.stage === 'prepare'}>
              <SoundTest />
              <ZeroSecond />
              <SupplyProof />
            </Show>
            <Show when={live.view()?.stage !== 'prepare'}>
              <OutletStood />
            </Show>
            <Show when={['done', 'air-test'].includes(live.view()?.stage ?? '')}>
              <AirTestTask />
            </Show>
            <Show when={live.view()?.stage === 'hold'}>
              <Witness />
            </Show>
            <GaugeCheck more={props.more} />
            <WarmCheck />
            <ul class="cautions small">
              <For each={cautions()}>{(c) => <li>{CAUTION[c]}</li>}</For>
            </ul>
          </div>
        </Show>
        <Show when={visited().has('checklist')}>
          <div hidden={!shown('checklist')}>
            <ChecklistTask checklist={props.checklist} />
          </div>
        </Show>
        <Show when={visited().has('note')}>
          <div hidden={!shown('note')}>
            <Note />
          </div>
        </Show>
        <Show when={visited().has('alarms')}>
          <div hidden={!shown('alarms')}>
            <Alarms actions={props.actions} reason={shelf()} onReason={setShelf} />
          </div>
        </Show>
        <Show when={shown('run')}>
          <RunBar start={props.start} />
        </Show>
        <Show when={shown('rig')}>
          <RigPanel />
        </Show>
      </div>
    </section>
  );
}
