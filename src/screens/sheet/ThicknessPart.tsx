import { Show } from 'solid-js';
import type { JobDocument, ThicknessInputs } from '../../job/job-document.ts';
import { Part, Tick } from '../../widgets/Fields.tsx';
import { NumberField } from '../../widgets/NumberField.tsx';
import { CAUTION } from '../../words/cautions.ts';
import { SHEET } from '../../words/sheet.ts';
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
export function ThicknessPart(props: { form: Form<JobDocument> }) {
  const t = () => props.form.draft().thickness;
  const field = (key: keyof ThicknessInputs, label: string, unit: string, lo: number, hi: number) => (
    <NumberField
      label={label}
      unit={unit}
      value={t()?.[key] ?? null}
      rules={{ lo, hi }}
      onValue={(v) => {
        const now = t();
        if (v !== null && now !== null) props.form.change({ thickness: { ...now, [key]: v } });
      }}
    />
  );
  return (
    <Part title={SHEET.partThickness} folded note={CAUTION['engineer-design']}>
      <Tick
        label={SHEET.thicknessOn}
        checked={t() !== null}
        onChecked={(on) => props.form.change({ thickness: on ? START : null })}
      />
      <Show when={t() !== null}>
        <div class="fields">
          {field('thicknessMm', SHEET.thickness, 'mm', 0.1, 200)}
          {field('modulusMPa', SHEET.modulus, 'MPa', 100, 100_000)}
          {field('strengthMPa', SHEET.strength, 'MPa', 1, 1000)}
          {field('longTermShare', SHEET.longTerm, '', 0.05, 1)}
          {field('safetyFactor', SHEET.safetyFactor, '', 1, 10)}
          {field('poisson', SHEET.poisson, '', 0, 0.49)}
          {field('enhancement', SHEET.enhancement, '', 1, 20)}
          {field('ovalityPercent', SHEET.ovality, '%', 0, 20)}
        </div>
      </Show>
    </Part>
  );
}
