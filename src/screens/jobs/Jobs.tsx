import { createMemo, createResource, createSignal, For, Match, Show, Switch } from 'solid-js';
import type { RunSummary, StoreFaults } from '../../engine/messages.ts';
import type { JobDocument } from '../../job/job-document.ts';
import { Confirm } from '../../widgets/Dialog.tsx';
import { Loading, NoAnswer } from '../../widgets/Loading.tsx';
import { bytes, dateTime, duration, pressure } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { ENGINE_ERROR } from '../../words/link.ts';
import { WELCOME } from '../../words/welcome.ts';
import { failed, useServices } from '../context.ts';
import { keep, loadAll, newId } from '../documents/store.ts';
import { keepOverRatedOf } from '../live/over-rated-log.ts';
import { practiceRig } from '../live/practice.ts';
import { MayBeFull } from '../runs/MayBeFull.tsx';
import { RunPictures } from '../runs/RunPictures.tsx';
import { createSketches, type Sketches } from '../runs/sketches.ts';
import { FirstOfDay } from './FirstOfDay.tsx';
import { LadderGuide } from './LadderGuide.tsx';
import { OpenFile } from './OpenFile.tsx';

/** Runs shown here; all of them stand in the archive. */
const MOST_RUNS = 6;

/** The first page: what this is, what was left open, four doors, the last runs and the sheets. */
export function Jobs() {
  const app = useServices();
  const [jobs, { refetch: readJobs }] = createResource(() => loadAll(app, 'job').catch(failed(app)));
  const [runs, { refetch }] = createResource(() => app.ask({ q: 'runs' }).catch(failed(app)));
  const [storage] = createResource(() => app.ask({ q: 'storage' }).catch(() => null));
  const [closing, setClosing] = createSignal<RunSummary | null>(null);
  const running = () => app.live.run() !== null;
  const sketches = createSketches(app);
  const newest = createMemo(() =>
    [...(runs() ?? [])].sort((a, b) => b.openedUtcMs - a.openedUtcMs).slice(0, MOST_RUNS),
  );

  const begin = (document: JobDocument) => {
    const id = newId('job');
    keep(app, 'job', id, 0, document).then(() => app.go({ page: 'sheet', jobId: id }), app.fail);
  };
  const blank = async () => {
    const { blankJob } = await import('../../job/job-document.ts');
    begin({ ...blankJob(JOBS.newTitle), date: today() });
  };
  const today = () => new Date().toISOString().slice(0, 10);
  const same = () => {
    const last = jobs()?.kept[0]?.document;
    if (last === undefined) return;
    // The same crew, packer, resin, sensors; another place, and nothing ticked that must be looked at again.
    begin({
      ...last,
      date: today(),
      reference: '',
      defect: { ...last.defect, chainageM: null },
      checks: [],
      cautions: [],
      notes: '',
    });
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
        <header class="start-what">
          <h1>{WELCOME.what}</h1>
          <p>{WELCOME.lead}</p>
        </header>
        <StoreFaultNotes faults={storage()?.faults ?? null} />
        <MayBeFull />
        <For each={running() ? [] : app.openRuns()}>
          {(run) => <LeftOpen run={run} onClose={() => setClosing(run)} />}
        </For>
        <div class="doors">
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
        <section class="start-list">
          <div class="row">
            <h2 class="grow">{JOBS.sheets}</h2>
            <Show when={(jobs()?.kept.length ?? 0) > 0}>
              <button type="button" class="button quiet" data-testid="same-as-last" onClick={same}>
                {JOBS.same}
              </button>
            </Show>
          </div>
          <Show
            when={(jobs()?.kept.length ?? 0) > 0}
            fallback={<Empty data={jobs()} text={JOBS.noSheets} onRetry={() => void readJobs()} />}
          >
            <ul class="plates">
              <For each={jobs()?.kept}>
                {(job) => (
                  <li>
                    <a class="plate-row" href={`#/job/${job.id}`} data-testid={`job-${job.id}`}>
                      <strong>{job.document.title}</strong>
                      <span class="muted">
                        {[job.document.date, job.document.site].filter(Boolean).join(', ')}
                      </span>
                    </a>
                  </li>
                )}
              </For>
            </ul>
          </Show>
          <Show when={(jobs()?.refused ?? 0) > 0}>
            <p class="note">{JOBS.refused(jobs()!.refused)}</p>
          </Show>
        </section>
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

function LastRun(props: { run: RunSummary; sketches: Sketches }) {
  const app = useServices();
  const { run } = props;
  const sketch = () => (run.state === 'open' ? null : props.sketches.of({ kind: 'run', runId: run.runId }));
  const more = () =>
    [
      dateTime(run.openedUtcMs),
      duration(run.seconds),
      run.peakBar === null ? '' : JOBS.peak(pressure(run.peakBar, app.units())),
      run.gaps > 0 ? JOBS.gaps(run.gaps) : '',
      run.alarms > 0 ? JOBS.alarms(run.alarms) : '',
    ].filter((t) => t !== '');
  return (
    <li>
      <a class="plate-row run-row" href={`#/run/${run.runId}`} data-testid={`run-${run.runId}`}>
        <RunPictures sketch={sketch()} />
        <span class="run-words">
          <strong>{run.title === '' ? run.runId : run.title}</strong>
          <span class="muted">
            <For each={more()}>
              {(part, i) => (
                <>
                  {i() > 0 ? ', ' : ''}
                  <span class="unbroken">{part}</span>
                </>
              )}
            </For>
          </span>
        </span>
        <span class="run-tags">
          <Switch
            fallback={
              <Show
                when={run.sealedUtcMs !== undefined}
                fallback={<span class="tag">{WELCOME.notSealed}</span>}
              >
                <span class="tag solid">{WELCOME.sealed}</span>
              </Show>
            }
          >
            <Match when={run.practice}>
              <span class="tag practice-tag">
                <span>{WELCOME.practice}</span>
              </span>
            </Match>
            <Match when={run.state === 'open'}>
              <span class="tag">{JOBS.stateOpen}</span>
            </Match>
          </Switch>
          <Show when={run.state === 'interrupted'}>
            <span class="tag">{JOBS.stateInterrupted}</span>
          </Show>
        </span>
      </a>
    </li>
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
