import { createResource, createSignal, For, type JSX, Show } from 'solid-js';
import { ownCopy } from '../../job/checklist-document.ts';
import type { Documents as Docs } from '../../job/documents.ts';
import { blankPacker } from '../../job/packer-document.ts';
import { blankColumnMap, blankRegisterMap } from '../../job/reading-map.ts';
import { blankResin } from '../../job/resin-document.ts';
import { blankSensor } from '../../job/sensor-document.ts';
import { Confirm } from '../../widgets/Dialog.tsx';
import { BENCH } from '../../words/bench.ts';
import { CHECKLIST } from '../../words/checklists.ts';
import { CHECK } from '../../words/checks.ts';
import { DOCS } from '../../words/docs.ts';
import { JOBS } from '../../words/jobs.ts';
import { MAPS } from '../../words/maps.ts';
import { SETTINGS } from '../../words/settings.ts';
import { UI } from '../../words/ui.ts';
import { failed, useServices } from '../context.ts';
import type { EditKind } from '../route.ts';
import { ChecklistForm } from './ChecklistForm.tsx';
import { ColumnMapForm } from './ColumnMapForm.tsx';
import { bringBack, takeUp } from './errand.ts';
import { createForm, EMPTY, type Form } from './form.ts';
import { PackerForm } from './PackerForm.tsx';
import { RegisterMapForm } from './RegisterMapForm.tsx';
import { ResinForm } from './ResinForm.tsx';
import { SensorForm } from './SensorForm.tsx';
import { type Kept, keep, loadAll, loadOne, newId } from './store.ts';

const TITLE: Record<EditKind, string> = {
  packer: SETTINGS.packers,
  resin: SETTINGS.resins,
  sensor: SETTINGS.sensors,
  registers: SETTINGS.registers,
  columns: SETTINGS.columns,
  checklist: SETTINGS.checklists,
};
const ONE: Record<EditKind, string> = {
  packer: DOCS.packerOne,
  resin: DOCS.resinOne,
  sensor: DOCS.sensorOne,
  registers: MAPS.registersOne,
  columns: MAPS.columnsOne,
  checklist: CHECKLIST.one,
};
/** New documents hold no number that nobody typed: what must be filled says so. */
const BLANK: { readonly [K in EditKind]: () => Docs[K] } = {
  packer: () => ({
    ...blankPacker(''),
    sizes: { minMm: EMPTY, maxMm: EMPTY },
    ratings: [{ diameterMm: EMPTY, ratedBar: EMPTY }],
  }),
  resin: () => {
    const blank = blankResin('');
    return { ...blank, mix: { ...blank.mix, resinParts: EMPTY, hardenerParts: EMPTY } };
  },
  sensor: () => blankSensor('', ''),
  registers: () => blankRegisterMap(''),
  columns: () => blankColumnMap(''),
  checklist: () => ownCopy('', CHECK),
};

const FORM: { readonly [K in EditKind]: (props: { form: Form<K> }) => JSX.Element } = {
  packer: PackerForm,
  resin: ResinForm,
  sensor: SensorForm,
  registers: RegisterMapForm,
  columns: ColumnMapForm,
  checklist: ChecklistForm,
};

const nameplate = (d: Docs[EditKind]): string =>
  'serial' in d ? d.serial : 'deviceId' in d ? d.deviceId : '';

/** Packers, resins, sensors, maps, checklists: the list of a kind, or one of them open for editing. */
export function Documents(props: { kind: EditKind; id: string | null }) {
  return (
    <div class="page documents">
      <Show when={props.id} fallback={<List kind={props.kind} />} keyed>
        {(id) => <Editor kind={props.kind} id={id} />}
      </Show>
    </div>
  );
}

function List(props: { kind: EditKind }) {
  const app = useServices();
  const [all] = createResource(
    () => props.kind,
    (kind) => loadAll(app, kind).catch(failed(app)),
  );
  return (
    <>
      <header class="row">
        <h1 class="grow">{TITLE[props.kind]}</h1>
        <Show when={props.kind === 'sensor'}>
          <a class="button quiet" href="#/bench" data-testid="to-bench">
            {BENCH.fromSensors}
          </a>
        </Show>
        <a class="button primary" href={`#/${props.kind}/new`} data-testid={`new-${props.kind}`}>
          {DOCS.newOne}
        </a>
      </header>
      <Show
        when={(all()?.kept.length ?? 0) > 0}
        fallback={<p class="muted">{props.kind === 'checklist' ? CHECKLIST.none : DOCS.none}</p>}
      >
        <ul class="plates">
          <For each={all()?.kept ?? []}>
            {(d: Kept<Docs[EditKind]>) => (
              <li>
                <a class="plate-row" href={`#/${props.kind}/${d.id}`} data-testid={`${props.kind}-${d.id}`}>
                  <strong>{d.document.name}</strong>
                  <span class="muted">
                    {'inUse' in d.document && d.document.inUse ? CHECKLIST.inUse : nameplate(d.document)}
                  </span>
                </a>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <Show when={(all()?.refused ?? 0) > 0}>
        <p class="note">{JOBS.refused(all()!.refused)}</p>
      </Show>
    </>
  );
}

function Editor(props: { kind: EditKind; id: string }) {
  const app = useServices();
  const [kept] = createResource(
    () => props.id,
    async (id) => {
      if (id === 'new') {
        takeUp(props.kind);
        return { id: newId(props.kind), revision: 0, savedUtcMs: 0, document: BLANK[props.kind]() };
      }
      return loadOne(app, props.kind, id).catch(failed(app));
    },
  );
  return (
    <Show when={kept()} fallback={<Show when={!kept.loading}>{DOCS.gone}</Show>} keyed>
      {(k) => <Edit kind={props.kind} kept={k} />}
    </Show>
  );
}

function Edit<K extends EditKind>(props: { kind: K; kept: Kept<Docs[K]> }) {
  const app = useServices();
  // The kind is fixed for the life of this component: it is keyed by its document.
  const first = props.kept;
  const form = createForm(props.kind, first.document, app.units, first.revision === 0);
  const Fields = FORM[props.kind];
  const [revision, setRevision] = createSignal(first.revision);
  const [removing, setRemoving] = createSignal(false);
  const [refused, setRefused] = createSignal(false);
  let fields!: HTMLDivElement;
  const save = () => {
    setRefused(!form.ok());
    if (!form.ok()) {
      form.insist();
      const first = fields.querySelector<HTMLElement>('[aria-invalid=true]');
      // A field in a folded part is unfolded before it is pointed at.
      for (let part = first?.closest('details'); part; part = part.parentElement?.closest('details'))
        part.open = true;
      first?.focus();
      return;
    }
    keep(app, props.kind, first.id, revision(), form.draft()).then((k) => {
      if (revision() === 0) bringBack(k.id);
      setRevision(k.revision);
      form.settle();
      app.say(UI.saved);
      history.back();
    }, app.fail);
  };
  const remove = () => {
    setRemoving(false);
    const before = form.draft();
    app.ask({ q: 'remove-document', kind: props.kind, id: first.id }).then(() => {
      app.say(JOBS.removed, () => void keep(app, props.kind, first.id, 0, before).catch(app.fail));
      app.go({ page: 'documents', kind: props.kind, id: null });
    }, app.fail);
  };
  return (
    <>
      <h1>
        {ONE[props.kind]}
        {form.draft().name === '' ? '' : `${UI.colon} ${form.draft().name}`}
      </h1>
      <div class="stack" ref={fields}>
        <Fields form={form} />
      </div>
      <div class="row end save-row">
        <Show when={revision() > 0}>
          <button type="button" class="button quiet" onClick={() => setRemoving(true)}>
            {UI.remove}
          </button>
        </Show>
        <Show when={refused() && !form.ok()}>
          <p class="small grow" role="alert" data-testid="not-saved">
            {DOCS.notSaved}
          </p>
        </Show>
        <button type="button" class="button primary" data-testid="save-document" onClick={save}>
          {UI.save}
        </button>
      </div>
      <Confirm
        open={removing()}
        title={DOCS.removeTitle}
        text={DOCS.removeText}
        yes={UI.remove}
        onYes={remove}
        onNo={() => setRemoving(false)}
      />
    </>
  );
}
