import {
  createEffect,
  createMemo,
  createResource,
  createSignal,
  ErrorBoundary,
  type JSX,
  on,
  Show,
} from 'solid-js';
import { ServicesContext } from '../screens/context.ts';
import { layoutOf, type Rect } from '../screens/live/layout.ts';
import { keepOverRated } from '../screens/live/over-rated-log.ts';
import { packersLeft } from '../screens/packers-left.ts';
import { type Route, routeHash } from '../screens/route.ts';
import { leftText } from '../screens/runs/left-text.ts';
import { AlarmShape } from '../widgets/AlarmShape.tsx';
import { dialogsGiveWay } from '../widgets/give-way.ts';
import { createWindowSize } from '../widgets/window-size.ts';
import { JOBS } from '../words/jobs.ts';
import { UI } from '../words/ui.ts';
import { NoticeBars } from './NoticeBars.tsx';
import { LivePage, Page } from './Page.tsx';
import type { AppServices } from './services.ts';
import { createAutoReturn } from './strip/auto-return.ts';
import { fetchWatch } from './strip/fetch-watch.ts';
import { NAV, navPx, Strip } from './strip/Strip.tsx';
import type { Update } from './update.ts';

/** The frame round every page: the strip, the page, and what lies over both when something is wrong. */
export function Shell(props: { services: AppServices; update: Update }) {
  const app = props.services;
  const { live } = app;
  keepOverRated(app);
  let main!: HTMLElement;
  const route = createMemo<Route>(() => app.route(), app.route(), {
    equals: (a, b) => routeHash(a) === routeHash(b),
  });
  const onLive = () => route().page === 'live';
  const liveJob = createMemo(() => {
    const r = route();
    return r.page === 'live' ? r.jobId : null;
  });
  // By itself: the link tells its counts with each moment, and the layout hangs on this.
  const practice = createMemo(() => live.link()?.kind === 'rig' || live.run()?.practice === true);
  createEffect(
    on(
      () => route().page,
      () => {
        main.focus({ preventScroll: true });
        scrollTo(0, 0);
      },
      { defer: true },
    ),
  );
  // By itself: a moment that changes nothing of it leaves a sheet's focus alone.
  const urgent = createMemo(
    () =>
      live.silent() ||
      (live.view()?.alarms.some((a) => a.priority === 'urgent' && a.state === 'unacknowledged') ?? false),
  );
  createEffect(() => dialogsGiveWay({ urgent: urgent(), onLive: onLive() }));
  // The tab's own name tells of an alarm, for when another tab is in front.
  const waiting = createMemo(
    () => live.silent() || live.view()?.alarms.some((a) => a.state === 'unacknowledged'),
  );
  createEffect(() => {
    const page = NAV.find((n) => n.page === route().page)?.text ?? UI.jobs;
    document.title = `${waiting() ? '(!) ' : ''}${UI.app}, ${page}`;
  });
  // What may be full in a pipe is said on every page; the first page and the live page say it themselves.
  const left = createMemo(() => (onLive() || route().page === 'jobs' ? [] : packersLeft(app)));

  // The page that an alarm took somebody away from stays as it is, out of sight, until it is come back to or left for another.
  const [kept, setKept] = createSignal<Route | null>(null);
  const pageRoute = createMemo<Route>(() => (onLive() ? (kept() ?? route()) : route()), route(), {
    equals: (a, b) => routeHash(a) === routeHash(b),
  });
  createEffect(on(route, (r) => r.page !== 'live' && setKept(null), { defer: true }));
  const goLive = () => {
    if (onLive()) return;
    setKept(route());
    app.go({ page: 'live', jobId: null });
  };
  const elsewhere = createMemo(() => {
    if (onLive()) return null;
    const active = (live.view()?.alarms ?? []).filter(
      (a) => a.state === 'unacknowledged' || a.state === 'acknowledged',
    );
    return (
      active.find((a) => a.priority === 'urgent') ??
      active.find((a) => a.priority === 'high' && a.state === 'unacknowledged') ??
      null
    );
  });
  createAutoReturn(() => {
    // On the bench an alarm is what is tried, by hands that are at the pump: the bar tells it, and the page stays.
    if (route().page === 'bench' && live.run() === null) return null;
    const a = elsewhere();
    return a?.priority === 'urgent' && a.state === 'unacknowledged' ? `${a.alarm} ${a.occurrence}` : null;
  }, goLive);

  const [watch] = createResource(() => live.link() !== null || live.run() !== null || undefined, fetchWatch);
  const size = createWindowSize();
  const layout = createMemo(() => layoutOf(size().width, size().height, practice()));
  /** In the window's px: the live page is drawn in its own. */
  const fixed = (r: Rect): JSX.CSSProperties => {
    const { zoom } = layout();
    return {
      position: 'fixed',
      left: `${r.x * zoom}px`,
      top: `${r.y * zoom}px`,
      width: `${r.w * zoom}px`,
      'max-height': `${r.h * zoom}px`,
    };
  };
  const stripStyle = (): JSX.CSSProperties =>
    onLive()
      ? {
          width: `${layout().w}px`,
          height: `${layout().strip.h}px`,
          transform: layout().zoom === 1 ? 'none' : `scale(${layout().zoom})`,
        }
      : {};
  const small = () => (onLive() ? layout().small : size().width < 700);
  const stripW = () => size().width / (onLive() ? layout().zoom : 1);
  const marks = createMemo(() => (live.view()?.standing ?? []).filter((s) => s !== 'practice').length);
  const counted = () => small() || (practice() && stripW() < 1100);
  /** What is said at length elsewhere is said shortly. */
  const brief = () => counted() || stripW() < 1000;
  /** On the other pages the strip has the pressure in it as soon as something is connected. */
  const isGlanced = createMemo(() => live.run() !== null || (live.link()?.state ?? 'idle') !== 'idle');
  // The live page's marks and the word of a practice come before the ways to other pages.
  // Where their names are longer than in English the strip has that much less for all else.
  const forNames = createMemo(() => stripW() - Math.max(0, navPx() - 320));
  /** The least width that the names of the pages want beside all else, px. */
  const leastForNames = () => {
    if (!onLive()) return !isGlanced() ? 800 : practice() ? 1500 : 1200;
    if (marks() > 0 || practice()) return marks() > 0 && practice() ? 1400 : 1100;
    return !isGlanced() || app.soundBlocked() !== null ? 800 : 0;
  };
  const crowded = () => forNames() < leastForNames();

  return (
    <ServicesContext.Provider value={app}>
      <div class="shell" classList={{ practice: practice(), 'on-live': onLive() }}>
        <button type="button" class="skip" onClick={() => main.focus()}>
          {UI.skip}
        </button>
        <div class="shell-top">
          <Strip
            page={route().page}
            small={small()}
            narrow={stripW() < 1100 || crowded()}
            crowded={crowded()}
            practice={practice()}
            style={stripStyle()}
            menuStyle={onLive() ? fixed(layout().drawer) : undefined}
          >
            <Show when={watch()} fallback={<div class="strip-state" />}>
              {(parts) => {
                const { StripState } = parts();
                return (
                  <StripState
                    app={app}
                    onLive={onLive()}
                    small={small()}
                    counted={counted()}
                    brief={brief()}
                  />
                );
              }}
            </Show>
          </Strip>
          <Show when={props.update.ready() && live.run() === null && !onLive()}>
            <div class="strip update" data-testid="update-ready">
              <span>{UI.update}</span>
              <button type="button" class="button" onClick={() => props.update.apply()}>
                {UI.updateNow}
              </button>
            </div>
          </Show>
          {/* In the page, not over it: it stands until somebody has looked, and would lie over what is read first. */}
          <Show when={left()[0]}>
            {(packer) => (
              <a class="strip left-strip no-print" href="#/live" data-testid="left-open">
                <p class="grow" role="alert">
                  <strong>{leftText(packer(), app.units())}</strong>{' '}
                  {packer().isOpen ? JOBS.maybeFullTodo : JOBS.leftTodo}
                </p>
                <span>{packer().isOpen ? JOBS.resume : JOBS.seeLeft}</span>
              </a>
            )}
          </Show>
        </div>
        {/* Over the page, not in it: what comes and goes here must not move what is being pressed. On the live page it lies
            where it covers neither the pressure nor the ladder. */}
        <div class="shell-over" style={onLive() ? fixed(layout().drawer) : {}}>
          <Show when={live.silent()}>
            <div
              class="silent"
              role="alert"
              data-testid="engine-silent"
              style={
                onLive() ? { ...fixed(layout().alarm), height: `${layout().alarm.h * layout().zoom}px` } : {}
              }
            >
              <AlarmShape priority="urgent" size={onLive() ? 72 : 40} />
              <Show when={onLive()}>
                <p class="silent-verb">{UI.engineSilentVerb.join(' ')}</p>
              </Show>
              <p class="grow">
                <strong>{UI.engineSilent}.</strong> {UI.engineSilentTodo}
              </p>
              <button type="button" class="button" onClick={() => location.reload()}>
                {UI.reload}
              </button>
            </div>
          </Show>
          <Show when={app.faults.now()}>
            {(fault) => (
              <div class="strip page-fault" role="alert" data-testid="page-fault">
                <AlarmShape priority="high" size={28} />
                <p class="grow">
                  <strong>{UI.pageFault}.</strong> {UI.pageFaultTodo}{' '}
                  <span class="small">({fault().detail})</span>
                </p>
                <Show when={!fault().seen}>
                  <button type="button" class="button" onClick={() => app.faults.see()}>
                    {UI.pageFaultSeen}
                  </button>
                </Show>
                <button type="button" class="button" onClick={() => location.reload()}>
                  {UI.reload}
                </button>
              </div>
            )}
          </Show>
          <Show when={watch() && elsewhere()}>
            {(alarm) => {
              const { AlarmBar } = watch()!;
              return <AlarmBar app={app} alarm={alarm()} onGo={goLive} />;
            }}
          </Show>
        </div>
        <main class="shell-main" id="main" tabIndex={-1} ref={main}>
          {/* A page that fails takes neither the alarms' sound nor the marks above down with it. */}
          <ErrorBoundary
            fallback={(error, reset) => {
              queueMicrotask(() => app.faults.tell(error));
              return (
                <div class="page" role="alert" data-testid="page-failed">
                  <h1>{UI.pageFailed}</h1>
                  <p>{UI.pageFailedTodo}</p>
                  <p class="small muted">{String((error as { message?: unknown }).message ?? error)}</p>
                  <div class="row">
                    <button
                      type="button"
                      class="button primary"
                      onClick={() => {
                        app.faults.clear();
                        reset();
                      }}
                    >
                      {UI.retry}
                    </button>
                    <button type="button" class="button" onClick={() => location.reload()}>
                      {UI.reload}
                    </button>
                  </div>
                </div>
              );
            }}
          >
            <div hidden={onLive()}>
              <Page route={pageRoute()} />
            </div>
            <Show when={onLive()}>
              <LivePage jobId={liveJob()} />
            </Show>
          </ErrorBoundary>
        </main>
        <NoticeBars notices={app.notices} place={onLive() ? fixed(layout().drawer) : {}} />
      </div>
    </ServicesContext.Provider>
  );
}
