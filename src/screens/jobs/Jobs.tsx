import { createMemo, createResource, createSignal, For, Match, Show, Switch } from 'solid-js';
import type { RunSummary, StoreFaults } from '../../engine/messages.ts';
import type { JobDocument } from '../../job/job-document.ts';
import { Confirm } from '../../widgets/Dialog.tsx';
import { Loading, NoAnswer } from '../../widgets/Loading.tsx';
import { bytes, dateTime, duration, pressure } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { ENGINE_ERROR } from '../../words/link.ts';
import { failed, useServices } from '../context.ts';
import { keep, loadAll, newId } from '../documents/store.ts';
import { PRACTICE_RIG } from '../live/practice.ts';
import { OpenJobFile } from './OpenJobFile.tsx';

/** The first page: what was left open, one way to start, the sheets and the runs. */
export function Jobs() {
  const app = useServices();
  const [jobs, { refetch: readJobs }] = createResource(() => loadAll(app, 'job').catch(failed(app)));
  const [runs, { refetch }] = createResource(() => app.ask({ q: 'runs' }).catch(failed(app)));
  const [storage] = createResource(() => app.ask({ q: 'storage' }).catch(() => null));
  const [closing, setClosing] = createSignal<RunSummary | null>(null);
  const running = () => app.live.run() !== null;
  const newest = createMemo(() => [...(runs() ?? [])].sort((a, b) => b.openedUtcMs - a.openedUtcMs));

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
    app.ask({ q: 'connect', port: PRACTICE_RIG }).then(() => app.go({ page: 'live', jobId: null }), app.fail);
  };
  const close = (run: RunSummary) => {
    setClosing(null);
    app.ask({ q: 'close-interrupted', runId: run.runId }).then(() => {
      app.forgetOpenRun(run.runId);
      void refetch();
    }, app.fail);
  };

  return (
    <div class="page jobs">
      <h1>{JOBS.title}</h1>
      <StoreFaultNotes faults={storage()?.faults ?? null} />
      <For each={running() ? [] : app.openRuns()}>
        {(run) => (
          <section class="panel attention" data-testid={`open-run-${run.runId}`}>
            <Show when={!run.practice}>
              <p class="note strong" role="alert" data-testid="maybe-full">
                <strong>{JOBS.maybeFull}</strong> {JOBS.maybeFullTodo}
              </p>
            </Show>
            <h2>{JOBS.openTitle}</h2>
            <p>
              <strong>{run.title}</strong>, {dateTime(run.openedUtcMs)}, {duration(run.seconds)}
            </p>
            <p class="muted">
              {JOBS.openText} {JOBS.resumeText}
            </p>
            <div class="row">
              <a class="button primary" href="#/live" data-testid={`resume-open-${run.runId}`}>
                {JOBS.resume}
              </a>
              <button
                type="button"
                class="button"
                data-testid={`close-${run.runId}`}
                onClick={() => setClosing(run)}
              >
                {JOBS.closeInterrupted}
              </button>
            </div>
          </section>
        )}
      </For>
      <div class="jobs-actions">
        <a
          class="button"
          classList={{ primary: running() || app.openRuns().length === 0 }}
          href="#/live"
          data-testid="start-live"
        >
          {running() ? JOBS.backToLive : JOBS.start}
        </a>
        <Show when={!running()}>
          <button type="button" class="button practice-edge" data-testid="practice" onClick={practice}>
            {JOBS.practice}
          </button>
        </Show>
        <button
          type="button"
          class="button"
          data-testid="new-job"
          onClick={() => void blank().catch(app.fail)}
        >
          {JOBS.newJob}
        </button>
        <OpenJobFile />
        <Show when={(jobs()?.kept.length ?? 0) > 0}>
          <button type="button" class="button" data-testid="same-as-last" onClick={same}>
            {JOBS.same}
          </button>
        </Show>
      </div>

      <div class="jobs-lists">
        <section>
          <h2>{JOBS.runs}</h2>
          <Show
            when={newest().length > 0}
            fallback={<Empty data={runs()} text={JOBS.noRuns} onRetry={() => void refetch()} />}
          >
            <ul class="list">
              <For each={newest()}>
                {(run) => (
                  <li>
                    <a class="list-row" href={`#/run/${run.runId}`} data-testid={`run-${run.runId}`}>
                      <span class="list-main">{run.title}</span>
                      <span class="list-side">
                        <Show when={run.practice}>
                          <span class="tag practice-tag">{JOBS.practiceTag}</span>
                        </Show>
                        <Show when={run.sealedUtcMs !== undefined}>
                          <span class="tag">{JOBS.sealedTag}</span>
                        </Show>
                        <Show when={run.state !== 'ended'}>
                          <span class="tag">
                            {run.state === 'open' ? JOBS.stateOpen : JOBS.stateInterrupted}
                          </span>
                        </Show>
                      </span>
                      <span class="list-more">
                        {dateTime(run.openedUtcMs)}, {duration(run.seconds)},{' '}
                        {JOBS.peak(pressure(run.peakBar, app.units()))}
                        {run.gaps > 0 ? `, ${JOBS.gaps(run.gaps)}` : ''}
                        {run.alarms > 0 ? `, ${JOBS.alarms(run.alarms)}` : ''}
                      </span>
                    </a>
                  </li>
                )}
              </For>
            </ul>
          </Show>
        </section>
        <section>
          <h2>{JOBS.sheets}</h2>
          <Show
            when={(jobs()?.kept.length ?? 0) > 0}
            fallback={<Empty data={jobs()} text={JOBS.noSheets} onRetry={() => void readJobs()} />}
          >
            <ul class="list">
              <For each={jobs()?.kept}>
                {(job) => (
                  <li>
                    <a class="list-row" href={`#/job/${job.id}`} data-testid={`job-${job.id}`}>
                      <span class="list-main">{job.document.title}</span>
                      <span class="list-more">
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
      </div>
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
