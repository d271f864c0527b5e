import { Show } from 'solid-js';
import { Choice, Part } from '../../widgets/Fields.tsx';
import { AIR_TEST, DEFECT, HEATING, INFILTRATION } from '../../words/fields.ts';
import { SHEET } from '../../words/sheet.ts';
import { MATERIAL } from '../../words/site.ts';
import { FormChoice, FormNumber, FormText } from '../documents/FormFields.tsx';
import type { Form } from '../documents/form.ts';
import type { Choices } from './choices.ts';

export function WhatPart(props: { form: Form<'job'> }) {
  return (
    <Part title={SHEET.partWhat}>
      <div class="fields">
        <FormText form={props.form} at="title" label={SHEET.jobTitle} />
        <FormText form={props.form} at="date" label={SHEET.date} type="date" />
        <FormText form={props.form} at="site" label={SHEET.site} />
        <FormText form={props.form} at="client" label={SHEET.client} />
        <FormText form={props.form} at="reference" label={SHEET.reference} />
        <FormText form={props.form} at="crew" label={SHEET.crew} />
        <FormChoice form={props.form} at="defect.kind" label={SHEET.defect} words={DEFECT} />
        <FormNumber form={props.form} at="defect.chainageM" label={SHEET.chainage} />
        <FormNumber form={props.form} at="defect.lengthMm" label={SHEET.defectLength} />
        <FormChoice
          form={props.form}
          at="defect.infiltration"
          label={SHEET.infiltration}
          hint={SHEET.infiltrationHint}
          words={INFILTRATION}
        />
      </div>
    </Part>
  );
}

export function PipePart(props: { form: Form<'job'> }) {
  return (
    <Part title={SHEET.partPipe}>
      <div class="fields">
        <FormNumber form={props.form} at="pipe.innerMm" label={SHEET.inner} hint={SHEET.innerHint} />
        <FormNumber form={props.form} at="pipe.dn" label={SHEET.dn} />
        <FormNumber form={props.form} at="pipe.wallMm" label={SHEET.wall} />
        <FormChoice form={props.form} at="pipe.material" label={SHEET.material} words={MATERIAL} />
        <FormNumber form={props.form} at="ground.waterM" label={SHEET.water} hint={SHEET.waterHint} />
        <FormNumber form={props.form} at="ground.temperatureC" label={SHEET.groundC} />
        <FormNumber form={props.form} at="ground.uC" label={SHEET.groundU} />
      </div>
    </Part>
  );
}

export function ResinPart(props: { form: Form<'job'>; choices: Choices }) {
  const d = () => props.form.draft();
  return (
    <Part title={SHEET.partPacker}>
      <div class="fields">
        <Choice
          label={SHEET.packer}
          testId="job-packerId"
          value={d().packerId ?? ''}
          options={[
            { value: '', text: SHEET.noPacker },
            ...props.choices.packers(d().packerId).map((p) => ({
              value: p.id,
              text: [p.document.name, p.document.serial].filter(Boolean).join(', '),
            })),
          ]}
          onValue={(id) => props.form.write('packerId', id === '' ? null : id)}
        />
        <Choice
          label={SHEET.resin}
          testId="job-resin.resinId"
          value={d().resin.resinId ?? ''}
          options={[
            { value: '', text: SHEET.noResin },
            ...props.choices.resins(d().resin.resinId).map((r) => ({ value: r.id, text: r.document.name })),
          ]}
          onValue={(id) => props.form.write('resin.resinId', id === '' ? null : id)}
        />
        <FormText form={props.form} at="resin.resinBatch" label={SHEET.resinBatch} />
        <FormText form={props.form} at="resin.hardenerBatch" label={SHEET.hardenerBatch} />
        <FormNumber form={props.form} at="resin.mixC" label={SHEET.mixC} />
        <FormNumber form={props.form} at="handlingMin" label={SHEET.handling} />
        <FormChoice
          form={props.form}
          at="heating.by"
          label={SHEET.heating}
          hint={SHEET.heatingHint}
          words={HEATING}
        />
        <FormNumber form={props.form} at="heating.toC" label={SHEET.heatedTo} />
      </div>
      <div class="row">
        <a class="button" href="#/packer/new">
          {SHEET.newPacker}
        </a>
        <a class="button" href="#/resin/new">
          {SHEET.newResin}
        </a>
      </div>
    </Part>
  );
}

export function SleevePart(props: { form: Form<'job'> }) {
  return (
    <>
      <Part title={SHEET.partSleeve} folded>
        <div class="fields">
          <FormNumber form={props.form} at="sleeve.endOverlapMm" label={SHEET.overlap} />
          <FormNumber form={props.form} at="sleeve.lapMm" label={SHEET.lap} />
          <FormNumber form={props.form} at="sleeve.layers" label={SHEET.layers} />
          <FormNumber form={props.form} at="sleeve.layerMm" label={SHEET.layerMm} />
          <FormNumber form={props.form} at="sleeve.fabricGM2" label={SHEET.fabric} />
          <FormNumber form={props.form} at="sleeve.resinRatio" label={SHEET.resinRatio} />
          <FormNumber form={props.form} at="sleeve.wastePercent" label={SHEET.waste} />
          <FormChoice form={props.form} at="airTest.method" label={SHEET.airTestMethod} words={AIR_TEST} />
          <Show when={props.form.draft().airTest.method !== 'none'}>
            <FormNumber form={props.form} at="airTest.lengthM" label={SHEET.testLength} />
          </Show>
        </div>
      </Part>
      <Part title={SHEET.notes} folded>
        <FormText form={props.form} at="notes" label={SHEET.notes} long />
      </Part>
    </>
  );
}
