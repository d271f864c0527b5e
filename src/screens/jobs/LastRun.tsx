import { For, Match, Show, Switch } from 'solid-js';
import type { RunSummary } from '../../engine/messages.ts';
import { dateTime, duration, pressure } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { WELCOME } from '../../words/welcome.ts';
import { useServices } from '../context.ts';
import { RunPictures } from '../runs/RunPictures.tsx';
import type { Sketches } from '../runs/sketches.ts';

export function LastRun(props: { run: RunSummary; sketches: Sketches }) {
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
