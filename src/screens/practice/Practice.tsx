import { createMemo, createResource, createSignal, For, Show } from 'solid-js';
import { DRILLS, type DrillCode } from '../../engine/messages.ts';
import { Choice } from '../../widgets/Fields.tsx';
import { dateTime } from '../../words/format.ts';
import { DRILL, OUTCOME, PRACTICE as P } from '../../words/practice.ts';
import { UI } from '../../words/ui.ts';
import { failed, useServices } from '../context.ts';
import { drillRig, practiceRig } from '../live/practice.ts';
import { knownInitials } from '../people.ts';
import { metOf, standingOf } from './progress.ts';
import { setTrainee, traineeName, traineeOf } from './trainee.ts';

/** Where practice begins: the drills with a goal each, and how far whoever practises has come. */
export function Practice() {
  const app = useServices();
  const [results] = createResource(() => app.evidence({ q: 'progress' }).catch(failed(app)));
  const [busy, setBusy] = createSignal(false);
  const running = () => app.live.run() !== null;
  const trainee = () => traineeName(app);
  const people = createMemo(() => [
    { value: '', text: P.nobody },
    ...knownInitials(app).map((initials) => ({ value: initials, text: initials })),
  ]);
  const begin = (port: ReturnType<typeof practiceRig>) => {
    setBusy(true);
    app
      .ask({ q: 'connect', port })
      .then(() => app.go({ page: 'live', jobId: null }), app.fail)
      .finally(() => setBusy(false));
  };
  const play = (drill: DrillCode) => {
    const [seed = 1] = crypto.getRandomValues(new Uint32Array(1));
    begin(drillRig(drill, seed));
  };
  return (
    <div class="page practice-page">
      <header class="practice-head">
        <div class="grow stack">
          <h1>{P.title}</h1>
          <p class="muted">{P.lead}</p>
        </div>
        <div class="stack practice-who">
          <Choice
            label={P.who}
            value={traineeOf(app)}
            options={people()}
            testId="trainee"
            onValue={setTrainee}
          />
          <p class="small muted">{P.whoText}</p>
        </div>
      </header>
      <Show when={running()}>
        <p class="note strong" role="status">
          {P.running}
        </p>
      </Show>
      <p role="status" data-testid="progress">
        <Show when={results()}>
          {(all) => <strong>{P.progress(metOf(all(), trainee()), DRILLS.length)}</strong>}
        </Show>
      </p>
      <ol class="drills">
        <For each={DRILLS}>
          {(drill, i) => {
            const standing = createMemo(() => standingOf(results() ?? [], drill, trainee()));
            return (
              <li class="panel drill" classList={{ met: standing().met > 0 }} data-testid={drill}>
                <div class="drill-what stack">
                  <h2>
                    <span class="drill-number">{i() + 1}</span> {DRILL[drill].title}
                  </h2>
                  <p>{DRILL[drill].goal}</p>
                  <p class="small muted">
                    {standing().played === 0 ? P.notYet : P.played(standing().played, standing().met)}
                    <Show when={standing().last}>
                      {(last) => (
                        <>
                          {'. '}
                          <a href={`#/debrief/${last().runId}`}>
                            {P.last(OUTCOME[last().outcome].word, dateTime(last().utcMs))}
                          </a>
                        </>
                      )}
                    </Show>
                  </p>
                </div>
                <button
                  type="button"
                  class="button practice-edge"
                  data-testid={`play-${drill}`}
                  disabled={busy() || running()}
                  onClick={() => play(drill)}
                >
                  {standing().played === 0 ? P.play : P.again}
                </button>
              </li>
            );
          }}
        </For>
      </ol>
      <section class="panel stack" aria-label={P.free}>
        <h2>{P.free}</h2>
        <p>{P.freeText}</p>
        <div class="row">
          <button
            type="button"
            class="button practice-edge"
            data-testid="free-practice"
            disabled={busy() || running()}
            onClick={() => begin(practiceRig('practice'))}
          >
            {P.free}
          </button>
          <a class="button" href="#/card" data-testid="to-card">
            {UI.card}
          </a>
        </div>
        <p class="small muted">{P.certificateNote}</p>
      </section>
    </div>
  );
}
