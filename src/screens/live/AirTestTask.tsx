import { For, Show } from 'solid-js';
import { AIR, airTestEvent } from '../../words/air-test.ts';
import { CAUTION } from '../../words/cautions.ts';
import { duration, testPressure } from '../../words/format.ts';
import { STAGE_KEY } from '../../words/orders.ts';
import { useServices } from '../context.ts';
import { Help } from '../help/Help.tsx';

/** Told of an attempt: what it ended with. */
const ENDS: readonly string[] = ['judged', 'broken-off', 'refused'];

/** Numbers of the air test and what came of every attempt. The order zone leads through it. */
export function AirTestTask() {
  const app = useServices();
  const { live } = app;
  const test = () => live.view()?.airTest ?? null;
  const attempts = () =>
    live.events().flatMap((e) => (e.e === 'air-test' && ENDS.includes(e.what) ? [e] : []));
  const hasProbe = () => (live.view()?.temps ?? []).some((p) => p.place === 'air' && p.c !== null);
  const shown = () => live.view()?.stage === 'air-test' || test() !== null;
  return (
    <Show when={shown()}>
      <fieldset class="task" data-testid="air-test-task">
        <legend>{AIR.title}</legend>
        <Show when={test()} fallback={<p class="note">{AIR.none}</p>}>
          {(t) => (
            <>
              <dl class="facts">
                <For
                  each={
                    [
                      [AIR.first, testPressure(t().spec.initialBar, app.units())],
                      [AIR.testPressure, testPressure(t().spec.startBar, app.units())],
                      [AIR.most, testPressure(t().spec.mostBar, app.units())],
                      [AIR.time, duration(t().spec.seconds)],
                      [AIR.allowed, testPressure(t().spec.dropBar, app.units())],
                    ] as const
                  }
                >
                  {([name, value]) => (
                    <div>
                      <dt>{name}</dt>
                      <dd>{value}</dd>
                    </div>
                  )}
                </For>
              </dl>
              <p class="small">{AIR.probe}</p>
              <Show when={live.view()?.stage === 'air-test' && t().phase === 'idle' && hasProbe()}>
                <button
                  type="button"
                  class="button"
                  data-testid="air-probed"
                  onClick={() =>
                    void app
                      .ask({ q: 'command', command: { c: 'air-test', said: 'begin-probed' } })
                      .catch(app.fail)
                  }
                >
                  {STAGE_KEY['air-begin-probed']}
                </button>
              </Show>
            </>
          )}
        </Show>
        <div class="with-help">
          <p class="note strong">{CAUTION.plugs}</p>
          <Help about="airTest" of={AIR.title} />
        </div>
        <p class="small">{AIR.codes}</p>
        <h3>{AIR.attempts}</h3>
        <ul data-testid="air-test-attempts">
          <For each={attempts()} fallback={<li>{AIR.noAttempt}</li>}>
            {(e) => <li>{airTestEvent(e, app.units())}</li>}
          </For>
        </ul>
      </fieldset>
    </Show>
  );
}
