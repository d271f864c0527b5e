import { createMemo, createSignal, For, Match, Show, Switch } from 'solid-js';
import { PRACTICE_CODES } from '../../engine/messages.ts';
import type { JobBundle, Named } from '../../job/bundle.ts';
import { mainQuantity } from '../../job/codes.ts';
import type { PackerDocument } from '../../job/packer-document.ts';
import { NumberField } from '../../widgets/NumberField.tsx';
import { dateTime, pressure } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { LINK_STATE, STOP_TRYING, TRYING } from '../../words/link.ts';
import { LIVE, PRACTICE_SITE } from '../../words/live.ts';
import { refusalText } from '../../words/refusals.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import { MayBeFull } from '../runs/MayBeFull.tsx';
import { SecondAdapter } from './SecondAdapter.tsx';
import type { Start } from './start.ts';
import { ZeroStep } from './ZeroStep.tsx';

/** All well at the usual one is one press; these are beside it. */
const SITES = PRACTICE_CODES.filter((code) => code !== 'practice');

/** Connect, packer, zero: one question at a time, each answered by one press. */
export function StartPanel(props: { start: Start }) {
  return (
    <div class="start">
      <ol class="start-steps" aria-hidden="true">
        <For each={['connect', 'packer', 'zero'] as const}>
          {(s, i) => (
            <li classList={{ now: props.start.step() === s, past: order(props.start.step()) > i() }}>
              {[LIVE.connectTitle, LIVE.packerStep, LIVE.zeroTitle][i()]}
            </li>
          )}
        </For>
      </ol>
      <Switch>
        <Match when={props.start.step() === 'connect'}>
          <Connect start={props.start} />
        </Match>
        <Match when={props.start.step() === 'packer'}>
          <Packer start={props.start} />
        </Match>
        <Match when={props.start.step() === 'zero'}>
          <ZeroStep start={props.start} />
        </Match>
      </Switch>
    </div>
  );
}

const order = (step: ReturnType<Start['step']>): number =>
  ['connect', 'packer', 'zero', 'running'].indexOf(step);

function Connect(props: { start: Start }) {
  const app = useServices();
  const state = () => app.live.link()?.state ?? 'idle';
  /** What a real packer hangs on comes before a practice that was left open, and is told where it cannot be resumed too. */
  const left = () => props.start.resumable()[0] ?? app.openRuns()[0];
  /** The speed that is tried, where one after the other is. */
  const trying = () => (state() === 'greeting' ? (app.live.link()?.baudRate ?? null) : null);
  const failed = () => app.live.link()?.kind === 'serial' || app.live.link()?.error != null;
  return (
    <div class="stack">
      {/* After a restart in mid-run this is the page that the crew sees: what may be full is said before anything else. */}
      <MayBeFull />
      <Show when={left()}>
        {(run) => (
          <>
            <p data-testid="open-run-note">
              {JOBS.openTitle}
              {UI.colon} <strong>{run().title}</strong>, {dateTime(run().openedUtcMs)}. {JOBS.resumeText}
            </p>
            <Show when={app.reconnecting()}>
              {(what) => (
                <p class="note" role="status" data-testid="reconnecting">
                  {JOBS.reconnecting[what()]}
                </p>
              )}
            </Show>
            <Show when={run().practice || app.serial.supported}>
              <button
                type="button"
                class="button wide"
                classList={{ primary: props.start.resumeFirst() !== null }}
                data-testid="connect-resume"
                disabled={props.start.busy()}
                onClick={() =>
                  run().practice ? props.start.connectRig(run()) : props.start.connectDevice(false, run())
                }
              >
                {JOBS.connectResume}
              </button>
            </Show>
          </>
        )}
      </Show>
      <h2>{LIVE.connectTitle}</h2>
      <p class="muted">{LIVE.connectText}</p>
      <Show when={app.serial.supported} fallback={<p class="note strong">{LIVE.noSerial}</p>}>
        <button
          type="button"
          class="button wide"
          classList={{ primary: props.start.resumeFirst() === null }}
          data-testid="connect-device"
          disabled={props.start.busy()}
          onClick={() => props.start.connectDevice(false)}
        >
          {LIVE.connectDevice}
        </button>
        <Show when={props.start.known()}>
          {(device) => (
            <p class="small muted" data-testid="known-device">
              {device().port.map === undefined
                ? LIVE.knownDevice(device().deviceId, device().baudRate)
                : LIVE.knownMap(device().port.map?.name ?? '', device().baudRate)}
            </p>
          )}
        </Show>
        <Show when={failed()}>
          <button
            type="button"
            class="button wide"
            data-testid="connect-other"
            disabled={props.start.busy()}
            onClick={() => props.start.connectDevice(true)}
          >
            {LIVE.connectOther}
          </button>
        </Show>
        <Show when={app.live.link()?.error != null}>
          <a class="button wide" href="#/bench" data-testid="connect-to-bench">
            {LIVE.toBench}
          </a>
        </Show>
        <For each={props.start.maps().filter((m) => mainQuantity(m.document) === 'pressure')}>
          {({ id, document }) => (
            <button
              type="button"
              class="button wide"
              data-testid={`connect-map-${id}`}
              disabled={props.start.busy()}
              onClick={() => props.start.connectBy(document)}
            >
              {LIVE.connectBy[document.is](document.name)}
            </button>
          )}
        </For>
      </Show>
      <button
        type="button"
        class="button wide practice-edge"
        data-testid="connect-rig"
        disabled={props.start.busy()}
        onClick={() => props.start.connectRig()}
      >
        {LIVE.connectRig}
      </button>
      <details class="practices">
        <summary>{LIVE.practices}</summary>
        <ul class="stack">
          <li class="stack">
            <a class="button wide practice-edge" href="#/practice" data-testid="to-drills">
              {LIVE.drills}
            </a>
            <p class="small muted">{LIVE.drillsText}</p>
          </li>
          <For each={SITES}>
            {(site) => (
              <li class="stack">
                <button
                  type="button"
                  class="button wide practice-edge"
                  data-testid={`connect-${site}`}
                  disabled={props.start.busy()}
                  onClick={() => props.start.connectPractice(site)}
                >
                  {PRACTICE_SITE[site].name}
                </button>
                <p class="small muted">{PRACTICE_SITE[site].text}</p>
              </li>
            )}
          </For>
        </ul>
      </details>
      <p class="small muted" data-testid="link-state" role="status">
        {LINK_STATE[state()]}
        <Show when={trying()}>{(baudRate) => <>. {TRYING(baudRate())}</>}</Show>
      </p>
      <Show when={trying() !== null}>
        <button
          type="button"
          class="button"
          data-testid="stop-trying"
          onClick={() => props.start.stopTrying()}
        >
          {STOP_TRYING}
        </button>
      </Show>
    </div>
  );
}

/** Runs that can be gone on with; the first of them is the main action where that comes before all else. */
function OpenRuns(props: { start: Start }) {
  return (
    <section class="stack" aria-label={JOBS.openTitle}>
      <h2>{JOBS.openTitle}</h2>
      <For each={props.start.resumable()}>
        {(run) => (
          <button
            type="button"
            class="button wide"
            classList={{ primary: run === props.start.resumeFirst() }}
            data-testid={`resume-${run.runId}`}
            disabled={props.start.busy()}
            onClick={() => props.start.resume(run)}
          >
            {JOBS.resumeRun(run.title, dateTime(run.openedUtcMs))}
          </button>
        )}
      </For>
    </section>
  );
}

function Packer(props: { start: Start }) {
  const app = useServices();
  const [chosen, setChosen] = createSignal<Named<PackerDocument> | null>(null);
  const [innerMm, setInnerMm] = createSignal<number | null>(null);
  const plate = (p: PackerDocument) => LIVE.plate(p.serial, p.sizes.minMm, p.sizes.maxMm);
  /** With more than one rating the diameter decides: then it is asked, else one press is enough. */
  const pick = (p: Named<PackerDocument>) => {
    if (p.document.ratings.length > 1) setChosen(p);
    else props.start.usePacker(p, null);
  };
  return (
    <div class="stack">
      <MayBeFull />
      <Show when={props.start.resumeFirst() !== null}>
        <OpenRuns start={props.start} />
      </Show>
      <Show when={app.live.link()?.hello}>
        {(hello) => (
          <p class="small muted" data-testid="connected-to" role="status">
            {LIVE.connectedTo(hello().deviceId, hello().firmware)}
          </p>
        )}
      </Show>
      <SecondAdapter />
      <h2>{LIVE.packerTitle}</h2>
      <p class="muted">{LIVE.packerText}</p>
      <Show when={app.live.view()?.limits}>
        {(limits) => (
          <p class="note" data-testid="limits-before">
            {LIVE.limitsBefore(pressure(limits().ceilingBar, app.units()))}
          </p>
        )}
      </Show>
      <Show
        when={chosen()}
        fallback={
          <>
            <Show when={props.start.job()}>
              {(bundle) => (
                <UseJob start={props.start} bundle={bundle()} main={props.start.resumeFirst() === null} />
              )}
            </Show>
            <Show when={props.start.practice()}>
              <button
                type="button"
                class="button wide practice-edge"
                classList={{ primary: !props.start.job() && props.start.resumeFirst() === null }}
                data-testid="use-practice"
                disabled={props.start.busy()}
                onClick={() => props.start.usePractice()}
              >
                {LIVE.packerPractice}
              </button>
            </Show>
            <For each={props.start.packers()}>
              {(p) => (
                <button
                  type="button"
                  class="button wide spread"
                  data-testid={`use-packer-${p.id}`}
                  disabled={props.start.busy()}
                  onClick={() => pick(p)}
                >
                  <span>{p.document.name}</span>
                  <span class="muted small">{plate(p.document)}</span>
                </button>
              )}
            </For>
            <Show when={props.start.resumeFirst() === null && props.start.resumable().length > 0}>
              <OpenRuns start={props.start} />
            </Show>
            <div class="row">
              <a class="button grow" href="#/packer/new">
                {LIVE.packerNew}
              </a>
              <button
                type="button"
                class="button grow"
                data-testid="gauge-only"
                disabled={props.start.busy()}
                onClick={() => props.start.gaugeOnly()}
              >
                {LIVE.packerNone}
              </button>
            </div>
          </>
        }
      >
        {(p) => (
          <>
            <p>
              <strong>{p().document.name}</strong>, {plate(p().document)}
            </p>
            <NumberField
              label={LIVE.diameter}
              rules={{ kind: 'length', lo: p().document.sizes.minMm, hi: p().document.sizes.maxMm }}
              units={app.units()}
              value={innerMm()}
              onValue={setInnerMm}
              testId="packer-diameter"
            />
            <button
              type="button"
              class="button primary wide"
              data-testid="use-packer"
              disabled={props.start.busy() || innerMm() === null}
              onClick={() => props.start.usePacker(p(), innerMm())}
            >
              {p().document.name}
            </button>
            <button type="button" class="button quiet" onClick={() => setChosen(null)}>
              {JOBS.back}
            </button>
          </>
        )}
      </Show>
    </div>
  );
}

/** The packer of the sheet. What the plan refuses stands in the way before mixing, and only then. */
function UseJob(props: { start: Start; bundle: JobBundle; main: boolean }) {
  const app = useServices();
  const refusals = createMemo(() => props.start.refusals(props.bundle));
  const go = () => props.start.useJob(props.bundle);
  const name = () => `${props.bundle.packer?.document.name ?? LIVE.packerNone} (${props.bundle.job.title})`;
  return (
    <Show
      when={refusals().length > 0}
      fallback={
        <button
          type="button"
          class="button wide"
          classList={{ primary: props.main }}
          data-testid="use-job"
          disabled={props.start.busy()}
          onClick={go}
        >
          {name()}
        </button>
      }
    >
      <section class="stack" data-testid="refusals">
        <h3>{name()}</h3>
        <ul class="stack">
          <For each={refusals()}>{(r) => <li class="finding refuse">{refusalText(r, app.units())}</li>}</For>
        </ul>
        <a class="button wide" classList={{ primary: props.main }} href={`#/job/${props.bundle.jobId}`}>
          {LIVE.correctSheet}
        </a>
        <button type="button" class="button wide" data-testid="use-job-mixed" onClick={go}>
          {LIVE.goMixed}
        </button>
      </section>
    </Show>
  );
}
