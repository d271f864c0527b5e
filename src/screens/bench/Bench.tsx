import { createResource, createSignal, Show } from 'solid-js';
import { recordOf } from '../../bench/record.ts';
import { listenedS } from '../../bench/traffic.ts';
import { isWanted } from '../../link/status.ts';
import { TextField } from '../../widgets/Fields.tsx';
import { BENCH } from '../../words/bench.ts';
import { duration } from '../../words/format.ts';
import { LINK_STATE, STOP_TRYING, TRYING } from '../../words/link.ts';
import { LIVE } from '../../words/live.ts';
import { useServices } from '../context.ts';
import { keep, newId } from '../documents/store.ts';
import { knownDevices } from '../live/known-devices.ts';
import { LinkNote } from '../live/LinkNote.tsx';
import { practiceRig } from '../live/practice.ts';
import { RigPanel } from '../live/RigPanel.tsx';
import { Findings } from './Findings.tsx';
import { KeptRecords } from './KeptRecords.tsx';
import { Lines } from './Lines.tsx';
import { BenchRecord } from './Record.tsx';
import { type BenchState, createBenchState } from './state.ts';
import { Tries } from './Tries.tsx';

/** A device is tried before it guards a packer; or the kept record of one. */
export function Bench(props: { id: string | null }) {
  return (
    <div class="page bench">
      <Show when={props.id} fallback={<Trial />} keyed>
        {(id) => <BenchRecord id={id} />}
      </Show>
    </div>
  );
}

function Trial() {
  const app = useServices();
  return (
    <>
      <h1>{BENCH.title}</h1>
      <p>{BENCH.lead}</p>
      <Show
        when={app.live.run() === null}
        fallback={
          <p class="note strong" role="status" data-testid="bench-in-run">
            {BENCH.inRun} <a href="#/live">{BENCH.toLive}</a>
          </p>
        }
      >
        <OnBench />
      </Show>
      <KeptRecords />
    </>
  );
}

function OnBench() {
  const app = useServices();
  const state = createBenchState(app);
  const link = () => app.live.link();
  const isConnected = () => isWanted(link()?.state ?? 'idle');
  /** A packer that may be full is guarded: nothing is tried beside it. */
  const isGuarding = () => app.live.view()?.limits != null;
  return (
    <>
      <Connection />
      <Show when={isConnected() && isGuarding()}>
        <p class="note strong" role="status" data-testid="bench-guarding">
          {BENCH.limitSet}
        </p>
      </Show>
      <Show when={isConnected()}>
        <section aria-label={BENCH.points}>
          <div class="row">
            <h2 class="grow">{BENCH.points}</h2>
            <span class="small muted" data-testid="bench-listened">
              {BENCH.listened(duration(listenedS(state.bench().traffic)))}
            </span>
            <button type="button" class="button quiet" data-testid="bench-again" onClick={state.again}>
              {BENCH.again}
            </button>
          </div>
          <Findings findings={state.findings()} />
        </section>
        <Show when={!isGuarding()}>
          <Tries state={state} />
        </Show>
        <Show when={app.live.rig() !== null}>
          <RigPanel />
        </Show>
        <KeepPart state={state} />
      </Show>
      <Lines lines={state.lines()} open={!isConnected() && state.lines().length > 0} />
    </>
  );
}

function Connection() {
  const app = useServices();
  const [busy, setBusy] = createSignal(false);
  const [known] = createResource(() => knownDevices(app), { initialValue: [] });
  const link = () => app.live.link();
  const linkState = () => link()?.state ?? 'idle';
  const trying = () => (linkState() === 'greeting' ? (link()?.baudRate ?? null) : null);
  const during = (work: () => Promise<unknown>) => {
    setBusy(true);
    work()
      .catch(app.fail)
      .finally(() => setBusy(false));
  };
  const connect = (another: boolean) => {
    // The chooser must open in the press itself.
    const chosen = app.serial.choose(
      another,
      known.latest.map((k) => k.port),
    );
    during(async () => {
      const port = await chosen;
      if (port !== null) await app.ask({ q: 'connect', port });
    });
  };
  return (
    <section class="stack" aria-label={BENCH.connectTitle}>
      <Show
        when={link()?.hello}
        fallback={
          <>
            <h2>{BENCH.connectTitle}</h2>
            <Show when={app.serial.supported} fallback={<p class="note strong">{LIVE.noSerial}</p>}>
              <div class="row">
                <button
                  type="button"
                  class="button primary grow"
                  data-testid="bench-connect"
                  disabled={busy()}
                  onClick={() => connect(false)}
                >
                  {BENCH.connect}
                </button>
                <Show when={link()?.error != null}>
                  <button
                    type="button"
                    class="button grow"
                    data-testid="bench-connect-other"
                    disabled={busy()}
                    onClick={() => connect(true)}
                  >
                    {BENCH.connectOther}
                  </button>
                </Show>
              </div>
            </Show>
            <button
              type="button"
              class="button practice-edge"
              data-testid="bench-practice"
              disabled={busy()}
              onClick={() => during(() => app.ask({ q: 'connect', port: practiceRig('practice') }))}
            >
              {BENCH.practice}
            </button>
          </>
        }
      >
        {(hello) => (
          <div class="row">
            <strong class="grow" data-testid="bench-device">
              {BENCH.listening(hello().deviceId, hello().firmware)}
            </strong>
            <button
              type="button"
              class="button quiet"
              data-testid="bench-disconnect"
              disabled={busy()}
              onClick={() => during(() => app.ask({ q: 'disconnect' }))}
            >
              {BENCH.disconnect}
            </button>
          </div>
        )}
      </Show>
      <p class="small muted" role="status" data-testid="bench-link">
        {LINK_STATE[linkState()]}
        <Show when={trying()}>{(baud) => <> {TRYING(baud())}</>}</Show>
      </p>
      <Show when={trying()}>
        <button
          type="button"
          class="button quiet"
          onClick={() => void app.ask({ q: 'disconnect' }).catch(app.fail)}
        >
          {STOP_TRYING}
        </button>
      </Show>
      <LinkNote />
    </section>
  );
}

function KeepPart(props: { state: BenchState }) {
  const app = useServices();
  const [by, setBy] = createSignal('');
  const [notes, setNotes] = createSignal('');
  const keepIt = async () => {
    const practice = app.live.link()?.kind === 'rig';
    const record = recordOf(props.state.bench(), props.state.findings(), {
      practice,
      utcMs: Date.now(),
      baudRate: app.live.link()?.baudRate ?? null,
      by: by().trim(),
      notes: notes().trim(),
    });
    if (record === null) {
      app.say(BENCH.nobody);
      return;
    }
    const { id } = await keep(app, 'bench', newId('bench'), 0, record);
    app.say(practice ? BENCH.keptPractice : BENCH.kept);
    app.go({ page: 'bench', id });
  };
  return (
    <section class="panel stack" aria-label={BENCH.keepTitle}>
      <h2>{BENCH.keepTitle}</h2>
      <TextField label={BENCH.by} value={by()} onValue={setBy} testId="bench-by" />
      <TextField label={BENCH.notes} value={notes()} onValue={setNotes} long testId="bench-notes" />
      <div class="row end">
        <button
          type="button"
          class="button primary"
          data-testid="bench-keep"
          onClick={() => void keepIt().catch(app.fail)}
        >
          {BENCH.keep}
        </button>
      </div>
    </section>
  );
}
