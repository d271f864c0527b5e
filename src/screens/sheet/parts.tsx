import { Show } from 'solid-js';
import type { JobDocument } from '../../job/job-document.ts';
import { Choice, optionsOf, Part, TextField } from '../../widgets/Fields.tsx';
import { NumberField } from '../../widgets/NumberField.tsx';
import { AIR_TEST, DEFECT, INFILTRATION } from '../../words/fields.ts';
import { SHEET } from '../../words/sheet.ts';
import { MATERIAL } from '../../words/terms.ts';
import { useServices } from '../context.ts';
import type { Form } from '../documents/form.ts';
import type { Shelf } from './shelf.ts';

type JobForm = Form<JobDocument>;

export function WhatPart(props: { form: JobForm }) {
  const app = useServices();
  const d = () => props.form.draft();
  const change = (part: Partial<JobDocument>) => props.form.change(part);
  const text = (key: 'title' | 'site' | 'client' | 'reference' | 'crew', label: string) => (
    <TextField
      label={label}
      value={d()[key]}
      onValue={(v) => change({ [key]: v } as Partial<JobDocument>)}
      issue={props.form.issue(key)}
      testId={`job-${key}`}
    />
  );
  return (
    <Part title={SHEET.partWhat}>
      <div class="fields">
        {text('title', SHEET.jobTitle)}
        <TextField
          label={SHEET.date}
          type="date"
          value={d().date ?? ''}
          onValue={(v) => change({ date: v === '' ? null : v })}
          issue={props.form.issue('date')}
        />
        {text('site', SHEET.site)}
        {text('client', SHEET.client)}
        {text('reference', SHEET.reference)}
        {text('crew', SHEET.crew)}
        <Choice
          label={SHEET.defect}
          value={d().defect.kind}
          options={optionsOf(DEFECT)}
          onValue={(kind) => change({ defect: { ...d().defect, kind } })}
        />
        <NumberField
          label={SHEET.chainage}
          kind="distance"
          units={app.units()}
          value={d().defect.chainageM}
          rules={{ lo: 0, hi: 10_000 }}
          onValue={(chainageM) => change({ defect: { ...d().defect, chainageM } })}
        />
        <NumberField
          label={SHEET.defectLength}
          kind="length"
          units={app.units()}
          value={d().defect.lengthMm}
          rules={{ lo: 0, hi: 20_000 }}
          onValue={(lengthMm) => change({ defect: { ...d().defect, lengthMm } })}
        />
        <Choice
          label={SHEET.infiltration}
          hint={SHEET.infiltrationHint}
          value={d().defect.infiltration}
          options={optionsOf(INFILTRATION)}
          onValue={(infiltration) => change({ defect: { ...d().defect, infiltration } })}
          testId="job-infiltration"
        />
      </div>
    </Part>
  );
}

export function PipePart(props: { form: JobForm }) {
  const app = useServices();
  const d = () => props.form.draft();
  const pipe = (part: Partial<JobDocument['pipe']>) => props.form.change({ pipe: { ...d().pipe, ...part } });
  const ground = (part: Partial<JobDocument['ground']>) =>
    props.form.change({ ground: { ...d().ground, ...part } });
  return (
    <Part title={SHEET.partPipe}>
      <div class="fields">
        <NumberField
          label={SHEET.inner}
          hint={SHEET.innerHint}
          kind="length"
          units={app.units()}
          value={d().pipe.innerMm}
          rules={{ lo: 30, hi: 2000 }}
          onValue={(innerMm) => pipe({ innerMm })}
          testId="job-innerMm"
        />
        <NumberField
          label={SHEET.dn}
          value={d().pipe.dn}
          rules={{ lo: 40, hi: 2000, whole: true }}
          onValue={(dn) => pipe({ dn })}
          testId="job-dn"
        />
        <NumberField
          label={SHEET.wall}
          kind="length"
          units={app.units()}
          value={d().pipe.wallMm}
          rules={{ lo: 0.5, hi: 300 }}
          onValue={(wallMm) => pipe({ wallMm })}
        />
        <Choice
          label={SHEET.material}
          value={d().pipe.material}
          options={optionsOf(MATERIAL)}
          onValue={(material) => pipe({ material })}
        />
        <NumberField
          label={SHEET.water}
          hint={SHEET.waterHint}
          kind="distance"
          units={app.units()}
          value={d().ground.waterM}
          rules={{ lo: 0, hi: 30 }}
          onValue={(waterM) => ground({ waterM })}
          testId="job-waterM"
        />
        <NumberField
          label={SHEET.groundC}
          kind="temperature"
          units={app.units()}
          value={d().ground.temperatureC}
          rules={{ lo: -10, hi: 50 }}
          onValue={(temperatureC) => ground({ temperatureC })}
          testId="job-groundC"
        />
        <NumberField
          label={SHEET.groundU}
          kind="temperatureDifference"
          units={app.units()}
          value={d().ground.uC}
          rules={{ lo: 0, hi: 15 }}
          onValue={(uC) => ground({ uC })}
        />
      </div>
    </Part>
  );
}

export function ResinPart(props: { form: JobForm; shelf: Shelf }) {
  const app = useServices();
  const d = () => props.form.draft();
  const resin = (part: Partial<JobDocument['resin']>) =>
    props.form.change({ resin: { ...d().resin, ...part } });
  return (
    <Part title={`${SHEET.partPacker}, ${SHEET.partResin.toLowerCase()}`}>
      <div class="fields">
        <Choice
          label={SHEET.packer}
          testId="job-packer"
          value={d().packerId ?? ''}
          options={[
            { value: '', text: SHEET.noPacker },
            ...props.shelf.packers(d().packerId).map((p) => ({
              value: p.id,
              text: [p.document.name, p.document.serial].filter(Boolean).join(', '),
            })),
          ]}
          onValue={(id) => props.form.change({ packerId: id === '' ? null : id })}
        />
        <Choice
          label={SHEET.resin}
          testId="job-resin"
          value={d().resin.resinId ?? ''}
          options={[
            { value: '', text: SHEET.noResin },
            ...props.shelf.resins(d().resin.resinId).map((r) => ({ value: r.id, text: r.document.name })),
          ]}
          onValue={(id) => resin({ resinId: id === '' ? null : id })}
        />
        <TextField
          label={SHEET.resinBatch}
          value={d().resin.resinBatch}
          onValue={(resinBatch) => resin({ resinBatch })}
          issue={props.form.issue('resin.resinBatch')}
        />
        <TextField
          label={SHEET.hardenerBatch}
          value={d().resin.hardenerBatch}
          onValue={(hardenerBatch) => resin({ hardenerBatch })}
          issue={props.form.issue('resin.hardenerBatch')}
        />
        <NumberField
          label={SHEET.mixC}
          kind="temperature"
          units={app.units()}
          value={d().resin.mixC}
          rules={{ lo: -10, hi: 60 }}
          onValue={(mixC) => resin({ mixC })}
        />
        <NumberField
          label={SHEET.handling}
          unit="min"
          value={d().handlingMin}
          rules={{ lo: 0, hi: 600 }}
          onValue={(handlingMin) => props.form.change({ handlingMin })}
        />
      </div>
      <div class="row">
        <a class="button" href="#/packer/new">
          + {SHEET.packer}
        </a>
        <a class="button" href="#/resin/new">
          + {SHEET.resin}
        </a>
      </div>
    </Part>
  );
}

export function SleevePart(props: { form: JobForm }) {
  const app = useServices();
  const d = () => props.form.draft();
  const sleeve = (part: Partial<JobDocument['sleeve']>) =>
    props.form.change({ sleeve: { ...d().sleeve, ...part } });
  return (
    <>
      <Part title={SHEET.partSleeve} folded>
        <div class="fields">
          <NumberField
            label={SHEET.overlap}
            kind="length"
            units={app.units()}
            value={d().sleeve.endOverlapMm}
            rules={{ lo: 0, hi: 2000 }}
            onValue={(v) => v !== null && sleeve({ endOverlapMm: v })}
          />
          <NumberField
            label={SHEET.lap}
            kind="length"
            units={app.units()}
            value={d().sleeve.lapMm}
            rules={{ lo: 0, hi: 1000 }}
            onValue={(v) => v !== null && sleeve({ lapMm: v })}
          />
          <NumberField
            label={SHEET.layers}
            value={d().sleeve.layers}
            rules={{ lo: 1, hi: 12, whole: true }}
            onValue={(v) => v !== null && sleeve({ layers: v })}
          />
          <NumberField
            label={SHEET.layerMm}
            kind="length"
            units={app.units()}
            value={d().sleeve.layerMm}
            rules={{ lo: 0.1, hi: 50 }}
            onValue={(layerMm) => sleeve({ layerMm })}
          />
          <NumberField
            label={SHEET.fabric}
            unit="g/m²"
            value={d().sleeve.fabricGM2}
            rules={{ lo: 50, hi: 10_000 }}
            onValue={(fabricGM2) => sleeve({ fabricGM2 })}
          />
          <NumberField
            label={SHEET.resinRatio}
            value={d().sleeve.resinRatio}
            rules={{ lo: 0.1, hi: 10 }}
            onValue={(resinRatio) => sleeve({ resinRatio })}
          />
          <NumberField
            label={SHEET.waste}
            unit="%"
            value={d().sleeve.wastePercent}
            rules={{ lo: 0, hi: 100 }}
            onValue={(v) => v !== null && sleeve({ wastePercent: v })}
          />
          <Choice
            label={`${SHEET.partAirTest}: ${SHEET.method.toLowerCase()}`}
            value={d().airTest.method}
            options={optionsOf(AIR_TEST)}
            onValue={(method) => props.form.change({ airTest: { ...d().airTest, method } })}
          />
          <Show when={d().airTest.method !== 'none'}>
            <NumberField
              label={SHEET.testLength}
              kind="distance"
              units={app.units()}
              value={d().airTest.lengthM}
              rules={{ lo: 0.1, hi: 2000 }}
              onValue={(lengthM) => props.form.change({ airTest: { ...d().airTest, lengthM } })}
            />
          </Show>
        </div>
      </Part>
      <Part title={SHEET.notes} folded>
        <TextField
          label={SHEET.notes}
          value={d().notes}
          onValue={(notes) => props.form.change({ notes })}
          issue={props.form.issue('notes')}
          long
        />
      </Part>
    </>
  );
}
