import { Part } from '../../widgets/Fields.tsx';
import { BASIS, CRITERION, EXOTHERM, RESIN_KIND } from '../../words/fields.ts';
import { DOCS } from '../../words/jobs.ts';
import { FormChoice, FormNumber, FormText } from './FormFields.tsx';
import { FormRows } from './FormRows.tsx';
import type { Form } from './form.ts';

export function ResinForm(props: { form: Form<'resin'> }) {
  return (
    <>
      <Part title={DOCS.resinOne}>
        <div class="fields">
          <FormText form={props.form} at="name" label={DOCS.name} />
          <FormChoice form={props.form} at="kind" label={DOCS.kind} words={RESIN_KIND} />
        </div>
        <FormRows
          form={props.form}
          at="curePoints"
          label={DOCS.cure}
          note={DOCS.cureText}
          columns={{ c: DOCS.temperature, minutes: DOCS.minutes }}
          blank={{ c: 20, minutes: 60 }}
        />
        <div class="fields">
          <FormChoice form={props.form} at="criterion" label={DOCS.criterion} words={CRITERION} />
          <FormNumber form={props.form} at="lowestC" label={DOCS.lowest} />
          <FormChoice form={props.form} at="exotherm" label={DOCS.exotherm} words={EXOTHERM} />
          <FormNumber form={props.form} at="expectedRiseK" label={DOCS.rise} />
        </div>
      </Part>
      <Part title={DOCS.pot}>
        <FormRows
          form={props.form}
          at="potLife"
          label={DOCS.pot}
          columns={{ c: DOCS.temperature, minutes: DOCS.minutes }}
          blank={{ c: 20, minutes: 25 }}
        />
        <FormNumber form={props.form} at="potMassG" label={DOCS.potMass} />
      </Part>
      <Part title={DOCS.mix} folded>
        <div class="fields">
          <FormNumber form={props.form} at="mix.resinParts" label={DOCS.resinParts} />
          <FormNumber form={props.form} at="mix.hardenerParts" label={DOCS.hardenerParts} />
          <FormChoice form={props.form} at="mix.basis" label={DOCS.basis} words={BASIS} />
          <FormNumber form={props.form} at="resinDensity" label={DOCS.resinDensity} />
          <FormNumber form={props.form} at="hardenerDensity" label={DOCS.hardenerDensity} />
          <FormNumber form={props.form} at="mixedDensity" label={DOCS.mixedDensity} />
          <FormText form={props.form} at="batch.expires" label={DOCS.expires} type="date" />
        </div>
        <FormText form={props.form} at="notes" label={DOCS.notes} long />
      </Part>
    </>
  );
}
