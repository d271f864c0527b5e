import { createEffect, createMemo, ErrorBoundary, For, on, Show } from 'solid-js';
import { ServicesContext } from '../screens/context.ts';
import type { Route } from '../screens/route.ts';
import { AlarmShape } from '../widgets/AlarmShape.tsx';
import { Glance } from '../widgets/Glance.tsx';
import { alarmLine } from '../words/alarm-titles.ts';
import { clockTime } from '../words/format.ts';
import { JOBS } from '../words/jobs.ts';
import { LINK_STATE } from '../words/link.ts';
import { NO_SOUND } from '../words/sound.ts';
import { UI } from '../words/ui.ts';
import { BRAND_MARK } from './brand.ts';
import { Page } from './Page.tsx';
import type { AppServices } from './services.ts';
import type { Update } from './update.ts';

const NAV: readonly { readonly page: Route['page']; readonly href: string; readonly text: string }[] = [
  { page: 'jobs', href: '#/jobs', text: UI.jobs },
  { page: 'live', href: '#/live', text: UI.live },
  { page: 'archive', href: '#/archive', text: UI.archive },
  { page: 'settings', href: '#/settings', text: UI.settings },
  { page: 'about', href: '#/about', text: UI.about },
];

/** The frame round every page: name, pages, the marks that must be seen everywhere. */
export function Shell(props: { services: AppServices; update: Update }) {
  const app = props.services;
  const { live } = app;
  let main!: HTMLElement;
  const route = app.route;
  const practice = () => live.link()?.kind === 'rig' || live.run()?.practice === true;
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
  // The tab's own name tells of an alarm, for when another tab is in front.
  const waiting = createMemo(
    () => live.silent() || live.view()?.alarms.some((a) => a.state === 'unacknowledged'),
  );
  createEffect(() => {
    const page = NAV.find((n) => n.page === route().page)?.text ?? UI.jobs;
    document.title = `${waiting() ? '(!) ' : ''}${UI.app}, ${page}`;
  });
  // The guard runs without a run too, and what it would sound must be heard.
  const watching = () => live.silent() || live.run() !== null || live.link()?.state === 'streaming';
  // A page that was reloaded in mid-run may come up anywhere; the jobs and the live page say it themselves.
  const leftOpen = () =>
    live.run() === null &&
    route().page !== 'live' &&
    route().page !== 'jobs' &&
    app.openRuns().some((r) => !r.practice);
  // Away from the live page an alarm still shows, and leads back.
  const elsewhere = () => {
    if (route().page === 'live') return undefined;
    return live.view()?.alarms.find((a) => a.state === 'unacknowledged' || a.state === 'acknowledged');
  };
  return (
    <ServicesContext.Provider value={app}>
      <div class="shell" classList={{ practice: practice() }}>
        <button type="button" class="skip" onClick={() => main.focus()}>
          {UI.skip}
        </button>
        <div>
          <header class="shell-head">
            <div class="shell-name">
              <div innerHTML={BRAND_MARK} />
              <span>{UI.app}</span>
            </div>
            <div class="shell-state" role="status">
              <Show when={!live.silent() && live.link() !== null && live.link()?.state !== 'idle'}>
                <span data-testid="shell-link">{LINK_STATE[live.link()!.state]}</span>
                <Show when={route().page !== 'live'}>
                  <Glance view={live.view()} silent={live.silent()} units={app.units()} />
                </Show>
                <span>{clockTime(app.nowMs())}</span>
              </Show>
            </div>
            <nav class="shell-nav" aria-label={UI.mainNav}>
              <For each={NAV}>
                {(n) => (
                  <a
                    href={n.href}
                    data-testid={`nav-${n.page}`}
                    aria-current={route().page === n.page ? 'page' : undefined}
                  >
                    {n.text}
                  </a>
                )}
              </For>
            </nav>
          </header>
          <Show when={practice()}>
            <section class="practice-banner" data-testid="practice-banner" aria-label={UI.practiceWord}>
              <span>{UI.practiceBanner}</span>
            </section>
          </Show>
          <Show when={props.update.ready() && live.run() === null}>
            <div class="strip update" data-testid="update-ready">
              <span>{UI.update}</span>
              <button type="button" class="button" onClick={() => props.update.apply()}>
                {UI.updateNow}
              </button>
            </div>
          </Show>
        </div>
        {/* Over the page, not in it: what comes and goes here must not move what is being pressed. */}
        <div class="shell-over">
          <Show when={live.silent()}>
            <div class="silent" role="alert" data-testid="engine-silent">
              <AlarmShape priority="urgent" size={40} />
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
          <Show when={elsewhere()}>
            {(alarm) => (
              <a class={`strip alarm-strip ${alarm().priority}`} href="#/live" data-testid="alarm-elsewhere">
                <AlarmShape priority={alarm().priority} size={28} />
                <strong class="grow">{alarmLine(alarm().alarm, alarm().priority)}</strong>
                <span>{UI.live}</span>
              </a>
            )}
          </Show>
          <Show when={leftOpen()}>
            <a class="strip" href="#/live" data-testid="left-open">
              <p class="grow">
                <strong>{JOBS.maybeFull}</strong> {JOBS.maybeFullTodo}
              </p>
              <span>{JOBS.resume}</span>
            </a>
          </Show>
          <Show when={watching() && app.soundBlocked()}>
            {(block) => (
              <p class="strip" role="status" data-testid="sound-blocked">
                {NO_SOUND[block()]}
              </p>
            )}
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
            <Page route={route()} />
          </ErrorBoundary>
        </main>
        <Show when={app.toast()}>
          {(t) => (
            <div class="toast" role="status" data-testid="toast">
              <span>{t().text}</span>
              <Show when={t().undo}>
                {(undo) => (
                  <button
                    type="button"
                    class="button"
                    onClick={() => {
                      undo()();
                      app.dismiss();
                    }}
                  >
                    {UI.undo}
                  </button>
                )}
              </Show>
            </div>
          )}
        </Show>
      </div>
    </ServicesContext.Provider>
  );
}
