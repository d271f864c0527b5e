import {
  createEffect,
  createMemo,
  createResource,
  createSignal,
  For,
  on,
  onCleanup,
  onMount,
  Show,
  Suspense,
} from 'solid-js';
import { type JobBundle, toBundle } from '../../job/bundle.ts';
import type { JobDocument } from '../../job/job-document.ts';
import { Confirm } from '../../widgets/Dialog.tsx';
import { Part } from '../../widgets/Fields.tsx';
import { eventText } from '../../words/events.ts';
import { JOBS } from '../../words/jobs.ts';
import { refusalText } from '../../words/refusals.ts';
import { SHEET } from '../../words/sheet.ts';
import { UI } from '../../words/ui.ts';
import { failed, useServices } from '../context.ts';
import { DEMO } from '../demo.ts';
import { comeBack, sendFor } from '../documents/errand.ts';
import { createForm } from '../documents/form.ts';
import { type Kept, keep, loadOne } from '../documents/store.ts';
import { EnclosedPart } from '../photos/EnclosedPart.tsx';
import { saveBytes } from '../save.ts';
import { planOf } from '../setup-of.ts';
import { Checks } from './Checks.tsx';
import { createChoices } from './choices.ts';
import type { SheetField, SheetFieldProps } from './fields.tsx';
import { MainKey } from './MainKey.tsx';
import { PlanNumbers, PlanPanel } from './PlanPanel.tsx';
import { FieldPart } from './parts.tsx';
import { FIELD_OF } from './remark-fields.ts';
import { StepForm, StepList } from './Steps.tsx';
import { PARTS, STEP_MORE, type Step, stepOf } from './steps.ts';
import { ThicknessPart } from './ThicknessPart.tsx';
import { createUndo } from './undo.ts';

/** A sheet is written this long after the last key. */
const WRITE_AFTER_MS = 500;

/** The job sheet: saved as it is filled, usable when half empty, with what the plan makes of it. */
export function Sheet(props: { jobId: string }) {
  const app = useServices();
  const [kept] = createResource(
    () => props.jobId,
    async (id): Promise<Kept<JobDocument> | null> => {
      const kept = await loadOne(app, 'job', id).catch(failed(app));
      // The practice job is there without having been stored; it is stored once it is changed.
      if (kept === null && id === DEMO.jobId) return { id, revision: 0, savedUtcMs: 0, document: DEMO.job };
      return kept;
    },
  );
  return (
    <div class="page sheet">
      <Show
        when={kept()}
        keyed
        fallback={
          <Show when={!kept.loading}>
            <h1>{SHEET.title}</h1>
            <p>{SHEET.gone}</p>
            <a class="button" href="#/jobs">
              {UI.back}
            </a>
          </Show>
        }
      >
        {(k) => <Filled kept={k} />}
      </Show>
    </div>
  );
}

function Filled(props: { kept: Kept<JobDocument> }) {
  const app = useServices();
  const first = props.kept;
  const form = createForm('job', first.document, app.units);
  const choices = createChoices(app);
  let revision = first.revision;
  let writing: Promise<unknown> = Promise.resolve();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const [removing, setRemoving] = createSignal(false);

  const write = () => {
    clearTimeout(timer);
    if (!form.ok() || !form.dirty()) return writing;
    const document = form.draft();
    form.settle();
    writing = writing.then(() =>
      keep(app, 'job', first.id, revision, document).then((k) => {
        revision = k.revision;
      }),
    );
    writing.catch(app.fail);
    return writing;
  };
  createEffect(
    on(
      form.draft,
      () => {
        clearTimeout(timer);
        timer = setTimeout(write, WRITE_AFTER_MS);
      },
      { defer: true },
    ),
  );
  onCleanup(() => void write());

  const running = () => app.live.run()?.jobId === first.id;
  const bundle = createMemo<JobBundle>(() => {
    const job = form.draft();
    const used = new Set(job.device.channels.flatMap((c) => (c.sensorId === null ? [] : [c.sensorId])));
    return {
      jobId: first.id,
      job,
      packer: choices.packers(job.packerId).find((p) => p.id === job.packerId) ?? null,
      resin: choices.resins(job.resin.resinId).find((r) => r.id === job.resin.resinId) ?? null,
      sensors: choices.sensors([...used]).filter((s) => used.has(s.id)),
    };
  });
  // A sheet with wrong entries keeps its last plan from being taken for the present one: none is shown.
  // One that says the same is the same: its rows stay as they are opened, and keep the focus.
  const plan = createMemo(() => (form.ok() ? planOf(app, bundle(), 1) : null), undefined, {
    equals: (a, b) => JSON.stringify(a) === JSON.stringify(b),
  });
  const apply = () => {
    const { setup } = planOf(app, bundle(), (app.live.setup()?.number ?? 1) + 1);
    const askedUs = app.live.view()?.tUs ?? 0;
    app.ask({ q: 'setup', setup }).then(() => {
      // The watch may refuse it: within a run the ceiling only falls. It says so before it answers.
      const refused = app.live.events().findLast((e) => e.e === 'setup-refused' && e.tUs >= askedUs);
      if (refused !== undefined) {
        app.say(eventText(refused));
        return;
      }
      app.live.setSetup(setup);
      app.say(SHEET.applied);
    }, app.fail);
  };
  const saveFile = () => saveBytes(`${first.id}.job.json`, JSON.stringify(toBundle(bundle()), null, 2));
  const remove = () => {
    setRemoving(false);
    const before = form.draft();
    form.settle();
    app.ask({ q: 'remove-document', kind: 'job', id: first.id }).then(() => {
      app.say(JOBS.removed, () => void keep(app, 'job', first.id, 0, before).catch(app.fail));
      app.go({ page: 'jobs' });
    }, app.fail);
  };

  const back = comeBack(first.id);
  const [step, setStep] = createSignal<Step>(back?.errand.step ?? 'run');
  const [all, setAll] = createSignal(back?.errand.all ?? false);
  // What the sheet sent for is chosen where it was missing.
  onMount(() => {
    if (back === null || back.madeId === null) return;
    const { errand, madeId } = back;
    const { device, resin } = form.draft();
    if (errand.kind === 'packer') form.change({ packerId: madeId });
    else if (errand.kind === 'resin') form.change({ resin: { ...resin, resinId: madeId } });
    else
      form.change({
        device: {
          ...device,
          channels: device.channels.map((c) =>
            c.channel === errand.channel ? { ...c, sensorId: madeId } : c,
          ),
        },
      });
  });
  const [more, setMore] = createSignal(false);
  const goTo = (next: Step) => {
    setMore(false);
    setStep(next);
  };
  /** Leads to a field, wherever it stands. */
  const showField = (field: SheetField) => {
    if (!all()) {
      setStep(stepOf(field));
      setMore(STEP_MORE[stepOf(field)].includes(field));
    }
    queueMicrotask(() => {
      const found = page.querySelector<HTMLElement>(`[data-testid="job-${field}"]`);
      // On the page with all fields its part may be folded.
      found?.closest('details')?.setAttribute('open', '');
      found?.focus({ preventScroll: true });
      found?.scrollIntoView({ block: 'center' });
    });
  };
  /** The first field that is not taken, or else the first that the plan refuses. */
  const showFirst = () => {
    const first = plan()
      ?.refusals.map((r) => FIELD_OF[r.code])
      .find((field) => field !== null);
    if (first != null) {
      showField(first);
      return;
    }
    const wrong = page.querySelector<HTMLElement>('[aria-invalid=true]');
    wrong?.focus({ preventScroll: true });
    wrong?.scrollIntoView({ block: 'center' });
  };
  const showPlan = () => {
    const panel = page.querySelector<HTMLElement>('#plan');
    panel?.focus({ preventScroll: true });
    panel?.scrollIntoView({ block: 'start' });
  };
  const undo = createUndo(form.draft, (before) => form.change(before));
  let page!: HTMLDivElement;
  /** What the plan refuses is said at its field too, behind what the schema says of the entry itself. */
  const refusedAt = (path: string): string | null => {
    const found = plan()?.refusals.find((r) => FIELD_OF[r.code] === path);
    return found === undefined ? null : refusalText(found, app.units());
  };
  const fieldsOf: SheetFieldProps = {
    form: { ...form, issue: (path) => form.issue(path) ?? refusedAt(path) },
    choices,
    onNew: (kind, channel) => {
      sendFor({ jobId: first.id, kind, channel, step: step(), all: all() });
      app.go({ page: 'documents', kind, id: 'new' });
    },
    get proposalBar() {
      return plan()?.proposalBar ?? null;
    },
  };
  // A run under way is never left for another job.
  const mayGoLive = () => app.live.run() === null || running();

  return (
    <div class="sheet-body" ref={page}>
      <header class="row sheet-head">
        <h1 class="grow">{form.draft().title}</h1>
        <p class="small muted" role="status" data-testid="sheet-state">
          {form.ok() ? SHEET.saved : SHEET.notSaved}
        </p>
        <button
          type="button"
          class="button"
          data-testid="sheet-undo"
          disabled={!undo.possible()}
          onClick={() => undo.undo()}
        >
          {UI.undo}
        </button>
        <button type="button" class="button quiet" data-testid="all-fields" onClick={() => setAll(!all())}>
          {all() ? SHEET.inSteps : SHEET.allFields}
        </button>
      </header>
      <div class="sheet-parts" classList={{ whole: all() }}>
        <Show
          when={all()}
          fallback={
            <>
              <StepList of={fieldsOf} now={step()} onStep={goTo} />
              <StepForm of={fieldsOf} now={step()} more={more()} onStep={goTo} />
            </>
          }
        >
          <div class="sheet-form">
            <For each={PARTS}>{(part) => <FieldPart part={part} of={fieldsOf} />}</For>
            <ThicknessPart form={form} />
            <Part title={SHEET.partChecks} folded>
              <Checks form={form} />
            </Part>
          </div>
        </Show>
        <PlanPanel plan={plan()} onField={showField}>
          <Show when={running()}>
            <div class="stack">
              <button
                type="button"
                class="button"
                data-testid="apply-setup"
                disabled={!form.ok()}
                onClick={apply}
              >
                {SHEET.apply}
              </button>
              <p class="small muted">{SHEET.applyText}</p>
            </div>
          </Show>
          <Show when={mayGoLive()}>
            <MainKey
              plan={plan()}
              href={running() ? '#/live' : `#/live/${first.id}`}
              isRunning={running()}
              onLeave={() => void write()}
              onFirst={showFirst}
              onPlan={showPlan}
            />
            <Show when={!running() && (plan()?.refusals.length ?? 0) > 0}>
              <a
                class="button quiet wide no-print"
                data-testid="to-live-mixed"
                href={`#/live/${first.id}`}
                onClick={() => void write()}
              >
                {SHEET.toLiveMixed}
              </a>
            </Show>
          </Show>
        </PlanPanel>
      </div>
      <Show when={plan()}>{(p) => <PlanNumbers plan={p()} />}</Show>
      <Suspense>
        <EnclosedPart beside={{ jobId: first.id, runId: null }} folded />
      </Suspense>
      <div class="row no-print">
        <button type="button" class="button" data-testid="save-job-file" onClick={saveFile}>
          {SHEET.saveFile}
        </button>
        <a class="button" data-testid="to-card" href={`#/card/${first.id}`} onClick={() => void write()}>
          {UI.card}
        </a>
        <button type="button" class="button quiet" onClick={() => setRemoving(true)}>
          {SHEET.removeSheet}
        </button>
      </div>
      <Confirm
        open={removing()}
        title={JOBS.removeTitle}
        text={JOBS.removeText}
        yes={UI.remove}
        onYes={remove}
        onNo={() => setRemoving(false)}
      />
    </div>
  );
}
