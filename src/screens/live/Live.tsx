import { createEffect, createMemo, createSignal, on, onCleanup, onMount, Show } from 'solid-js';
import { CureLine } from '../../widgets/CureLine.tsx';
import { keepFocusIn } from '../../widgets/keep-focus.ts';
import type { SpanChoice } from '../../widgets/lanes/spans-shown.ts';
import { createWindowSize } from '../../widgets/window-size.ts';
import { FACE } from '../../words/face.ts';
import { LIVE } from '../../words/live.ts';
import { PRESSURE_SLOT } from '../../words/orders.ts';
import { stageName } from '../../words/terms.ts';
import { useServices } from '../context.ts';
import { createActions } from './actions.ts';
import { createLiveChecklist } from './checklist.ts';
import { createFace } from './face.ts';
import { LinkNote } from './LinkNote.tsx';
import { LiveLanes } from './LiveLanes.tsx';
import { drawerOver, layoutOf, orderRect, SHARE } from './layout.ts';
import { Pressure } from './lead/Pressure.tsx';
import { digitSize } from './lead/sizes.ts';
import { Time } from './lead/Time.tsx';
import { Drawer } from './more/Drawer.tsx';
import { createMore } from './more/state.ts';
import { sayOperator } from './operator.ts';
import { OrderZone } from './order/OrderZone.tsx';
import { place, placeAtMost } from './place.ts';
import { createStart } from './start.ts';
import { TakeDevice } from './TakeDevice.tsx';

const sameJson = { equals: (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b) };

/**
 * The live page: one instrument on one screen. Zones stand where the window's shape puts them (layout.ts) and keep their places
 * in every stage; what they show is made of the moment (face.ts). In the order of a reader: pressure, time, order, the rest.
 */
export function Live(props: { jobId: string | null }) {
  const app = useServices();
  const { live } = app;
  const start = createStart(app, () => props.jobId);
  const more = createMore();
  const checklist = createLiveChecklist(app);
  const face = createFace(app, start, checklist);
  sayOperator(app, () => start.step() === 'running');
  const actions = createActions(app, start, more, checklist);
  const [span, setSpan] = createSignal<SpanChoice>('stage');

  const size = createWindowSize();
  // By itself: the link tells its counts with each moment, and all zones hang on the layout.
  const practice = createMemo(() => live.link()?.kind === 'rig' || live.run()?.practice === true);
  const stage = createMemo(() => live.view()?.stage ?? 'prepare');
  const layout = createMemo(() =>
    layoutOf(size().width, size().height, practice(), stage() === 'hold' ? SHARE.hold : SHARE.fill),
  );

  // A drawing of one window and one scale: whatever is under it stays where it is.
  document.documentElement.classList.add('live-page');
  onCleanup(() => document.documentElement.classList.remove('live-page'));

  const urgent = createMemo(() => {
    const a = face.alarms().block;
    return a?.priority === 'urgent' && a.state === 'unacknowledged' ? `${a.alarm} ${a.occurrence}` : null;
  });
  // What is being looked up gives way to an urgent alarm, each time it is raised.
  // The hands of a practice rig are none to be looked up: who trains must be able to do what is ordered.
  createEffect(on(urgent, (now) => now !== null && more.tab() !== 'rig' && more.close(), { defer: true }));
  // Another step has another panel.
  createEffect(on(start.step, () => more.close(), { defer: true }));
  createEffect(() => {
    if (start.unwritten() !== null) more.open('run');
  });

  const tab = () => more.tab() ?? 'start';
  const drawerOpen = () => more.tab() !== null || (start.step() !== 'running' && urgent() === null);
  const cureSeen = () => {
    const { form } = face.alarms();
    return form === null || (form !== 'urgent' && layout().mode === 'wide');
  };
  const drawerRect = createMemo(
    () => drawerOver(layout(), orderRect(layout(), face.alarms().form)),
    undefined,
    sameJson,
  );
  const lanesSize = createMemo(
    () => {
      const { w, h, ladderW, ribbonH, tempH, axisH, small } = layout().lanes;
      return { w, h, ladderW, ribbonH, tempH, axisH, small };
    },
    undefined,
    sameJson,
  );
  const unit = () => face.pressure().unit;
  const pressurePx = () =>
    digitSize(face.pressure(), unit(), {
      rect: layout().pressure,
      pad: layout().pad,
      small: layout().small,
    });
  const cureRoom = createMemo(
    () => ({ w: layout().cure.w, h: layout().cure.h, small: layout().small }),
    undefined,
    sameJson,
  );

  let element!: HTMLElement;
  onMount(() =>
    keepFocusIn(element, {
      drawer: () => element.querySelector<HTMLElement>('.drawer'),
      home: () => element.querySelector<HTMLElement>('.order'),
    }),
  );

  return (
    <div
      class="face"
      ref={(el) => {
        element = el;
      }}
      data-testid={start.step() === 'running' ? 'stage' : undefined}
      data-stage={stage()}
      classList={{ small: layout().small, [layout().mode]: true, practice: practice() }}
      style={{
        width: `${layout().w}px`,
        height: `${layout().h}px`,
        transform: layout().zoom === 1 ? 'none' : `scale(${layout().zoom})`,
      }}
    >
      <h1 class="visually-hidden">{LIVE.title}</h1>
      <section
        class="zone zone-pressure"
        data-face={face.pressure().face}
        style={place(layout().pressure)}
        aria-label={PRESSURE_SLOT.line}
        data-testid="zone-pressure"
      >
        <Pressure slot={face.pressure()} trust={face.scene().trust} layout={layout()} unit={unit()} />
      </section>
      <section
        class="zone zone-time"
        style={place(layout().time)}
        aria-label={FACE.timeLabel}
        data-testid="zone-time"
      >
        {/* Drawn in the ribbon over the trace; who listens is told it where it matters. */}
        <p class="visually-hidden">{stageName(stage(), live.view()?.attempt ?? 1)}</p>
        <Time slot={face.time()} layout={layout()} pressurePx={pressurePx()} />
      </section>
      <OrderZone face={face} layout={layout()} actions={actions} more={more} />
      <div class="zone zone-lanes" style={place(layout().lanes)}>
        <LiveLanes
          size={lanesSize()}
          calm={face.view()}
          span={span()}
          onOpen={() => more.open('spans')}
          covered={drawerOpen()}
          openLabel={FACE.tabs.spans}
        />
      </div>
      <Drawer
        tab={tab()}
        open={drawerOpen()}
        more={more}
        start={start}
        actions={actions}
        checklist={checklist}
        at={drawerRect()}
        small={layout().small}
        span={span()}
        onSpan={setSpan}
      />
      <div class="face-note" style={placeAtMost(drawerRect())}>
        {/* In a drawer that is open it stands in its flow: over its tabs nothing could be chosen. */}
        <Show when={live.run() !== null && !drawerOpen()}>
          <LinkNote />
          <TakeDevice />
        </Show>
      </div>
      <Show when={cureSeen()}>
        <div class="zone zone-cure" style={place(layout().cure)} data-testid="zone-cure">
          <CureLine
            size={cureRoom()}
            cure={face.view()?.cure ?? null}
            cup={face.view()?.cup ?? null}
            hasResin={live.setup()?.resin !== null && live.setup() !== null}
            isLightCured={live.setup()?.resin?.curedBy === 'light'}
            stage={stage()}
            asksSample={face.time().code === 'cure-reached'}
            nowUtcMs={face.nowMs()}
            units={app.units()}
          />
        </div>
      </Show>
    </div>
  );
}
