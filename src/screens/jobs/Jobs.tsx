import {
  createEffect,
  createMemo,
  createResource,
  createSignal,
  For,
  lazy,
  Match,
  Show,
  Suspense,
  Switch,
} from 'solid-js';
import type { RunSummary, StoreFaults } from '../../engine/messages.ts';
import { withDeviceOf } from '../../job/again.ts';
import type { JobDocument } from '../../job/job-document.ts';
import { dayOf, moved } from '../../plan/day.ts';
import { Confirm } from '../../widgets/Dialog.tsx';
import { Loading, NoAnswer } from '../../widgets/Loading.tsx';
import { loadWords } from '../../words/chosen.ts';
import { DAY } from '../../words/day.ts';
import { bytes, dateTime, day as dayText, duration } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { ENGINE_ERROR } from '../../words/link.ts';
import { WELCOME } from '../../words/welcome.ts';
import { failed, useServices } from '../context.ts';
import { type Kept, keep, loadAll, newId } from '../documents/store.ts';
import { keepOverRatedOf } from '../live/over-rated-log.ts';
import { practiceRig } from '../live/practice.ts';
import { MayBeFull } from '../runs/MayBeFull.tsx';
import { createSketches } from '../runs/sketches.ts';
import { keepOrder, readOrder } from './day-order.ts';
import { FirstOfDay } from './FirstOfDay.tsx';
import { setInUse, wasInUse } from './known.ts';
import { LadderGuide } from './LadderGuide.tsx';
import { LastRun } from './LastRun.tsx';
import { OpenFile } from './OpenFile.tsx';
import { type DayKeys, isDone, OtherSheets, type SheetDay, type SheetRepair, TodayList } from './Today.tsx';

/** What is due and the day's resin need the planner, the dialog its words: they come behind the page. */
const DueParts = lazy(async () => {
  await loadWords('further');
  return { default: (await import('./Due.tsx')).DueParts };
});
const SameAgain = lazy(async () => {
  await loadWords('further');
  return { default: (await import('./SameAgain.tsx')).SameAgain };
});

/** Runs shown here; all of them stand in the archive. */
const MOST_RUNS = 6;

/** The first page: what this is to whoever comes first, today's repairs to everybody else; the runs and the sheets. */
export function Jobs() {
  const app = useServices();
  const [jobs, { refetch: readJobs }] = createResource(() => loadAll(app, 'job').catch(failed(app)));
  const [runs, { refetch }] = createResource(() => app.ask({ q: 'runs' }).catch(failed(app)));
  // Without its order the list is in its own.
  const [order, { mutate: putOrder }] = createResource(() => readOrder(app).catch(() => []));
  const [storage] = createResource(() => app.ask({ q: 'storage' }).catch(() => null));
  const [closing, setClosing] = createSignal<RunSummary | null>(null);
  const [again, setAgain] = createSignal<JobDocument | null>(null);
  const running = () => app.live.run() !== null;
  const sketches = createSketches(app);
  const newest = createMemo(() =>
    [...(runs() ?? [])].sort((a, b) => b.openedUtcMs - a.openedUtcMs).slice(0, MOST_RUNS),
  );

  const before = wasInUse();
  const inUse = createMemo(() => {
    const [sheets, all] = [jobs(), runs()];
    // Not answered, or it could not be: as it was.
    if (sheets == null || all == null) return before;
    return sheets.kept.length > 0 || all.some((r) => !r.practice);
  });
  createEffect(() => {
    if (jobs() != null && runs() != null) setInUse(inUse());
  });

  const today = createMemo(() => dayText(app.nowMs()));
  const sinceUtcMs = createMemo(() => new Date(`${today()}T00:00`).getTime());
  const runId = createMemo(() => app.live.run()?.runId ?? null);
  const cureReached = createMemo(() => (app.live.view()?.cure?.low ?? 0) >= 1);
  const day = createMemo<SheetDay>((last) => {
    const run = runId() === null ? null : app.live.run();
    const now = {
      today: today(),
      sinceUtcMs: sinceUtcMs(),
      running: run === null || run.practice ? null : { runId: run.runId, jobId: run.jobId },
      cureReached: cureReached(),
    };
    const made = dayOf(jobs()?.kept ?? [], runs() ?? [], now, order() ?? []);
    // A row whose repair is what it was stays the same row, as it is opened.
    const known = [...(last?.repairs ?? []), ...(last?.others ?? [])];
    const same = (r: SheetRepair) =>
      known.find((k) => k.sheet === r.sheet && k.run === r.run && k.state === r.state) ?? r;
    return { repairs: made.repairs.map(same), others: made.others.map(same) };
  });

  /** New sheets stand behind those that are there. */
  const begin = (document: JobDocument) => {
    const id = newId('job');
    keep(app, 'job', id, 0, document)
      .then(() => keepOrder(app, [...day().repairs.map((r) => r.sheet.id), id]).catch(() => undefined))
      .then(() => app.go({ page: 'sheet', jobId: id }), app.fail);
  };
  const last = () => jobs()?.kept[0]?.document;
  const blank = async () => {
    const { blankJob } = await import('../../job/job-document.ts');
    const { listInForce } = await import('../checklist/in-use.ts');
    const made = { ...blankJob(JOBS.newTitle), date: today(), checklist: await listInForce(app) };
    const before = last();
    begin(before === undefined ? made : withDeviceOf(made, before));
  };
  const change = (work: Promise<unknown>) => work.then(() => void readJobs(), app.fail);
  const put = (sheet: Kept<JobDocument>, document: JobDocument) =>
    keep(app, 'job', sheet.id, sheet.revision, document);
  const keys: DayKeys = {
    again: ({ sheet }) => setAgain(sheet.document),
    move: (id, by) => {
      const next = moved(
        day().repairs.map((r) => r.sheet.id),
        id,
        by,
      );
      if (next === null) return;
      putOrder(next);
      keepOrder(app, next).catch(app.fail);
      // The row was moved, and whoever moves it goes on by key.
      const key = (name: string) =>
        document.querySelector<HTMLButtonElement>(`[data-testid="${name}-${id}"]`);
      queueMicrotask(() => {
        const [same, other] = by < 0 ? [key('up'), key('down')] : [key('down'), key('up')];
        (same?.disabled === true ? other : same)?.focus();
      });
    },
    date: ({ sheet }, date) => {
      const changed = put(sheet, { ...sheet.document, date });
      void change(changed);
      if (date !== null) return;
      const back = () => void changed.then((kept) => change(put(kept, sheet.document)), app.fail);
      app.say(DAY.taken(sheet.document.title), back);
    },
    remove: ({ sheet }) => {
      const { id, document } = sheet;
      void change(app.ask({ q: 'remove-document', kind: 'job', id }));
      app.say(DAY.removed(document.title), () => void change(keep(app, 'job', id, 0, document)));
    },
  };
  const practice = () => {
    app
      .ask({ q: 'connect', port: practiceRig('practice') })
      .then(() => app.go({ page: 'live', jobId: null }), app.fail);
  };
  const close = (run: RunSummary) => {
    setClosing(null);
    app.ask({ q: 'close-interrupted', runId: run.runId }).then(() => {
      app.forgetOpenRun(run.runId);
      void refetch();
      keepOverRatedOf(app, run).catch(app.fail);
    }, app.fail);
  };

  return (
    <div class="page start">
      <div class="start-main">
        <Show
          when={inUse()}
          fallback={
            <header class="start-what">
              <h1>{WELCOME.what}</h1>
              <p>{WELCOME.lead}</p>
            </header>
          }
        >
          <header class="row start-day">
            <h1 class="grow">{DAY.head(today())}</h1>
            <p class="muted" data-testid="day-count">
              {DAY.count(day().repairs.filter(isDone).length, day().repairs.length)}
            </p>
          </header>
        </Show>
        <StoreFaultNotes faults={storage()?.faults ?? null} />
        <MayBeFull />
        <For each={running() ? [] : app.openRuns()}>
          {(run) => <LeftOpen run={run} onClose={() => setClosing(run)} />}
        </For>
        <div class="doors" classList={{ small: inUse() }}>
          <a
            class="door"
            classList={{ primary: running() || app.openRuns().length === 0 }}
            href="#/live"
            data-testid="start-live"
          >
            <strong>{running() ? JOBS.backToLive : JOBS.start}</strong>
            <span>{running() ? WELCOME.doors.back : WELCOME.doors.live}</span>
          </a>
          <Show when={!running()}>
            <button type="button" class="door practice-edge" data-testid="practice" onClick={practice}>
              <strong>{WELCOME.practise}</strong>
              <span>{WELCOME.doors.practice}</span>
            </button>
            <a class="door practice-edge" href="#/practice" data-testid="drills">
              <strong>{WELCOME.drills}</strong>
              <span>{WELCOME.doors.drills}</span>
            </a>
          </Show>
          <button
            type="button"
            class="door"
            data-testid="new-job"
            onClick={() => void blank().catch(app.fail)}
          >
            <strong>{JOBS.newJob}</strong>
            <span>{WELCOME.doors.sheet}</span>
          </button>
          <OpenFile />
        </div>

        <Show when={!running() && runs()}>{(all) => <FirstOfDay runs={all()} />}</Show>
        <Show when={inUse()}>
          <section class="start-list" aria-label={DAY.today}>
            <Show
              when={jobs() != null}
              fallback={<Empty data={jobs()} text="" onRetry={() => void readJobs()} />}
            >
              <TodayList day={day()} today={today()} keys={keys} isRunning={running()} />
            </Show>
            <Show when={day().repairs.length === 0 && last()}>
              {(document) => (
                <button
                  type="button"
                  class="button wide"
                  data-testid="same-as-last"
                  onClick={() => setAgain(document())}
                >
                  {JOBS.same}
                </button>
              )}
            </Show>
          </section>
          <Show when={jobs()}>
            {(sheets) => (
              <Suspense>
                <DueParts
                  sheets={sheets().kept}
                  runs={runs() ?? []}
                  repairs={day().repairs}
                  today={today()}
                  onChanged={() => void refetch()}
                />
              </Suspense>
            )}
          </Show>
        </Show>
        <section class="start-list">
          <div class="row">
            <h2 class="grow">{WELCOME.lastRuns}</h2>
            <Show when={newest().length > 0}>
              <a href="#/archive">{WELCOME.allRuns}</a>
            </Show>
          </div>
          <Show
            when={newest().length > 0}
            fallback={<Empty data={runs()} text={WELCOME.empty} onRetry={() => void refetch()} />}
          >
            <ul class="plates">
              <For each={newest()}>{(run) => <LastRun run={run} sketches={sketches} />}</For>
            </ul>
          </Show>
        </section>
        <Show when={!inUse() || day().others.length > 0 || (jobs()?.refused ?? 0) > 0}>
          <section class="start-list">
            <h2>{inUse() ? DAY.others : JOBS.sheets}</h2>
            <Show
              when={day().others.length > 0}
              fallback={
                <Show when={!inUse()}>
                  <Empty data={jobs()} text={JOBS.noSheets} onRetry={() => void readJobs()} />
                </Show>
              }
            >
              <OtherSheets day={day()} today={today()} keys={keys} isRunning={running()} />
            </Show>
            <Show when={(jobs()?.refused ?? 0) > 0}>
              <p class="note">{JOBS.refused(jobs()!.refused)}</p>
            </Show>
          </section>
        </Show>
        <p class="start-never">{WELCOME.never}</p>
        <Show when={storage()}>
          {(s) => (
            <p class="small muted" data-testid="storage">
              <Show when={s().persisted !== null}>
                {s().persisted ? JOBS.storageKept : JOBS.storageNotKept}
              </Show>
              <Show when={s().roomBytes !== null}> {JOBS.storageRoom(bytes(s().roomBytes))}</Show>
            </p>
          )}
        </Show>
      </div>
      <LadderGuide />
      <Show when={again()}>
        {(from) => (
          <Suspense>
            <SameAgain
              from={from()}
              today={today()}
              titles={jobs()?.kept.map((k) => k.document.title) ?? []}
              onMake={(made) => {
                setAgain(null);
                begin(made);
              }}
              onClose={() => setAgain(null)}
            />
          </Suspense>
        )}
      </Show>
      <Confirm
        open={closing() !== null}
        title={JOBS.closeTitle}
        text={JOBS.closeText}
        yes={JOBS.closeInterrupted}
        onYes={() => {
          const run = closing();
          if (run !== null) close(run);
        }}
        onNo={() => setClosing(null)}
      />
    </div>
  );
}

/** A run that an earlier session left open. */
function LeftOpen(props: { run: RunSummary; onClose(): void }) {
  return (
    <section class="panel attention" data-testid={`open-run-${props.run.runId}`}>
      <h2>{JOBS.openTitle}</h2>
      <p>
        <strong>{props.run.title}</strong>, {dateTime(props.run.openedUtcMs)}, {duration(props.run.seconds)}
      </p>
      <p class="muted">
        {JOBS.openText} {JOBS.resumeText}
      </p>
      <div class="row">
        <a class="button primary" href="#/live" data-testid={`resume-open-${props.run.runId}`}>
          {JOBS.resume}
        </a>
        <button
          type="button"
          class="button"
          data-testid={`close-${props.run.runId}`}
          onClick={() => props.onClose()}
        >
          {JOBS.closeInterrupted}
        </button>
      </div>
    </section>
  );
}

/** What cannot be kept, before anybody enters it. */
function StoreFaultNotes(props: { faults: StoreFaults | null }) {
  const notes = () => [
    { part: 'files', code: props.faults?.files ?? null, text: JOBS.filesFault },
    { part: 'documents', code: props.faults?.documents ?? null, text: JOBS.documentsFault },
  ];
  return (
    <For each={notes()}>
      {({ part, code, text }) => (
        <Show when={code}>
          {(why) => (
            <section class="panel attention" role="alert" data-testid={`store-fault-${part}`}>
              <p class="note strong">
                <strong>{ENGINE_ERROR[why()].title}.</strong> {text}
              </p>
              <p>{ENGINE_ERROR[why()].todo}</p>
            </section>
          )}
        </Show>
      )}
    </For>
  );
}

/** An empty list is called empty only when the answer is there: not while it is on its way, nor when it failed. */
function Empty(props: { data: unknown; text: string; onRetry: () => void }) {
  return (
    <Switch fallback={<p class="muted">{props.text}</p>}>
      <Match when={props.data === undefined}>
        <Loading onRetry={props.onRetry} />
      </Match>
      <Match when={props.data === null}>
        <NoAnswer onRetry={props.onRetry} />
      </Match>
    </Switch>
  );
}
