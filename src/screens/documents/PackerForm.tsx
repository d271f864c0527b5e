import { Part } from '../../widgets/Fields.tsx';
import { PLATE } from '../../words/fields.ts';
import { CYCLES } from '../../words/history.ts';
import { DOCS } from '../../words/jobs.ts';
import { FormChoice, FormNumber, FormText, FormTick } from './FormFields.tsx';
import { FormRows } from './FormRows.tsx';
import type { Form } from './form.ts';
import { PackerHistory } from './PackerHistory.tsx';
import { PackerLog } from './PackerLog.tsx';

export function PackerForm(props: { form: Form<'packer'> }) {
  const d = () => props.form.draft();
  return (
    <>
      <Part title={DOCS.packerOne}>
        <div class="fields">
          <FormText form={props.form} at="name" label={DOCS.name} />
          <FormText form={props.form} at="serial" label={DOCS.serial} />
          <FormChoice form={props.form} at="plate" label={DOCS.plate} words={PLATE} />
          <FormNumber form={props.form} at="sizes.minMm" label={DOCS.smallest} />
          <FormNumber form={props.form} at="sizes.maxMm" label={DOCS.largest} />
        </div>
        <FormRows
          form={props.form}
          at="ratings"
          label={DOCS.ratings}
          note={DOCS.ratingsText}
          columns={{ diameterMm: DOCS.diameter, ratedBar: DOCS.rated }}
          blank={{ diameterMm: d().sizes.maxMm, ratedBar: 1.5 }}
        />
      </Part>
      <Part title={DOCS.more} folded>
        <FormRows
          form={props.form}
          at="usable"
          label={DOCS.usable}
          columns={{ diameterMm: DOCS.diameter, lengthMm: DOCS.length }}
          blank={{ diameterMm: d().sizes.maxMm, lengthMm: 1000 }}
        />
        <FormRows
          form={props.form}
          at="freeInflation"
          label={DOCS.free}
          columns={{ diameterMm: DOCS.diameter, bar: DOCS.pressure }}
          blank={{ diameterMm: d().sizes.maxMm, bar: 0.4 }}
        />
        <FormRows
          form={props.form}
          at="volume"
          label={DOCS.volume}
          columns={{ diameterMm: DOCS.diameter, litres: DOCS.litres }}
          blank={{ diameterMm: d().sizes.maxMm, litres: 20 }}
        />
        <FormNumber form={props.form} at="reliefBar" label={DOCS.relief} />
        <FormTick form={props.form} at="retired" label={DOCS.retired} />
        <FormText form={props.form} at="notes" label={DOCS.notes} long />
      </Part>
      <Part title={CYCLES.title}>
        <PackerHistory packer={d()} />
      </Part>
      <PackerLog form={props.form} />
    </>
  );
}
