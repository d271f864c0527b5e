import { Show } from 'solid-js';
import type { ThicknessInputs } from '../../job/job-document.ts';
import { Part, Tick } from '../../widgets/Fields.tsx';
import { CAUTION } from '../../words/cautions.ts';
import { SHEET } from '../../words/sheet.ts';
import { FormNumber } from '../documents/FormFields.tsx';
import type { Form } from '../documents/form.ts';

/** Start values to be overwritten from the resin system's own data: none of them belongs to a product. */
const START: ThicknessInputs = {
  thicknessMm: 3,
  modulusMPa: 2000,
  strengthMPa: 40,
  longTermShare: 0.5,
  safetyFactor: 2,
  poisson: 0.3,
  enhancement: 7,
  ovalityPercent: 2,
};

/** Inputs of the thickness check after ASTM F1216, X1: a check for an engineer, not a design. */
export function ThicknessPart(props: { form: Form<'job'> }) {
  const isOn = () => props.form.draft().thickness !== null;
  return (
    <Part title={SHEET.partThickness} folded note={CAUTION['engineer-design']}>
      <Tick
        label={SHEET.thicknessOn}
        checked={isOn()}
        onChecked={(on) => props.form.change({ thickness: on ? START : null })}
      />
      <Show when={isOn()}>
        <div class="fields">
          <FormNumber form={props.form} at="thickness.thicknessMm" label={SHEET.thickness} />
          <FormNumber form={props.form} at="thickness.modulusMPa" label={SHEET.modulus} />
          <FormNumber form={props.form} at="thickness.strengthMPa" label={SHEET.strength} />
          <FormNumber form={props.form} at="thickness.longTermShare" label={SHEET.longTerm} />
          <FormNumber form={props.form} at="thickness.safetyFactor" label={SHEET.safetyFactor} />
          <FormNumber form={props.form} at="thickness.poisson" label={SHEET.poisson} />
          <FormNumber form={props.form} at="thickness.enhancement" label={SHEET.enhancement} />
          <FormNumber form={props.form} at="thickness.ovalityPercent" label={SHEET.ovality} />
        </div>
      </Show>
    </Part>
  );
}
