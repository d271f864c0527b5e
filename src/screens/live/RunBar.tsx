import { createSignal, lazy, Show, Suspense } from 'solid-js';
import type { DeviceGuardState } from '../../link/frames.ts';
import { loadWords } from '../../words/chosen.ts';
import { bytes, duration, pressure } from '../../words/format.ts';
import { LINK_STATE } from '../../words/link.ts';
import { LIVE } from '../../words/live.ts';
import { DEVICE_GUARD } from '../../words/terms.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import { EndRun } from './EndRun.tsx';
import { SecondAdapter } from './SecondAdapter.tsx';
import type { Start } from './start.ts';

/** Not a part of the live page's own code: it is wanted once a run, and never in a hurry. */
const CheckpointCode = lazy(async () => {
  await loadWords('further');
  return { default: (await import('../witness/CheckpointCode.tsx')).CheckpointCode };
});

/** What the record does, and the ways out: end the run, disconnect. */
export function RunBar(props: { start: Start }) {
  const app = useServices();
  const { live } = app;
  const [coded, setCoded] = createSignal(false);
  const run = live.run;
  const savedAgo = () => {
    const r = run();
    const v = live.view();
    return r === null || v === null ? null : Math.max(0, (v.tUs - r.savedUs) / 1e6);
  };
  const guardText = (state: DeviceGuardState, limitMbar: number | null) =>
    limitMbar === null || state === 'unarmed'
      ? LIVE.deviceGuard(DEVICE_GUARD[state])
      : LIVE.deviceGuardAt(DEVICE_GUARD[state], pressure(limitMbar / 1000, app.units()));
  return (
    <div class="runbar">
      <p class="small" data-testid="saved">
        <span data-testid="link-state">{LINK_STATE[live.link()?.state ?? 'idle']}</span>.{' '}
        <Show when={run()} fallback={LIVE.notRecording}>
          {(r) => (
            <>
              {LIVE.recording(bytes(r().bytes), duration(savedAgo()))}
              <Show when={r().resumed}>. {LIVE.resumedRun}</Show>
            </>
          )}
        </Show>
      </p>
      <SecondAdapter />
      <Show when={live.link()?.deviceGuard}>
        {(guard) => (
          <p class="small" data-testid="device-guard" data-state={guard().state}>
            {guardText(guard().state, guard().limitMbar)}
          </p>
        )}
      </Show>
      <Show when={live.link()?.deviceGuard?.sounder === 1}>
        <button
          type="button"
          class="button"
          data-testid="device-silence"
          onClick={() => void app.ask({ q: 'device-silence' }).catch(app.fail)}
        >
          {LIVE.deviceSilence}
        </button>
      </Show>
      <Show when={run() !== null && !app.awake()}>
        <p class="small muted">{LIVE.asleep}</p>
      </Show>
      <Show when={run() !== null}>
        <button
          type="button"
          class="button"
          data-testid="show-code"
          aria-expanded={coded()}
          onClick={() => setCoded(!coded())}
        >
          {LIVE.checkpointCode}
        </button>
        <Show when={coded()}>
          <Suspense>
            <CheckpointCode />
          </Suspense>
        </Show>
      </Show>
      <div class="row">
        <Show when={run()?.jobId}>
          {(id) => (
            <a class="button" href={`#/job/${id()}`} data-testid="to-sheet">
              {LIVE.toSheet}
            </a>
          )}
        </Show>
        <a
          class="button"
          href={run()?.jobId == null ? '#/card' : `#/card/${run()?.jobId}`}
          data-testid="to-card"
        >
          {UI.card}
        </a>
        <Show
          when={run()}
          fallback={
            <button
              type="button"
              class="button"
              data-testid="disconnect"
              disabled={props.start.busy()}
              onClick={() => props.start.disconnect()}
            >
              {LIVE.disconnect}
            </button>
          }
        >
          <EndRun start={props.start} />
        </Show>
      </div>
    </div>
  );
}
