import { Part } from '../../widgets/Fields.tsx';
import { DOCS, RESIN } from '../../words/docs.ts';
import { BASIS, COUNTS_FROM, CRITERION, CURED_BY, EXOTHERM, RESIN_KIND } from '../../words/fields.ts';
import { FormChoice, FormNumber, FormText } from './FormFields.tsx';
import { FormRows } from './FormRows.tsx';
import type { Form } from './form.ts';
import { Members, type MembersOf } from './Members.tsx';

const MEMBERS: MembersOf<'resin', 'name' | 'cure' | 'end' | 'pot' | 'cup' | 'mix' | 'notes'> = {
  version: null,
  name: { in: 'name', edit: (form) => <FormText form={form} at="name" label={RESIN.name} /> },
  kind: {
    in: 'name',
    edit: (form) => <FormChoice form={form} at="kind" label={RESIN.kind} words={RESIN_KIND} />,
  },
  curedBy: {
    in: 'name',
    edit: (form) => (
      <FormChoice form={form} at="curedBy" label={RESIN.curedBy} hint={DOCS.curedByHint} words={CURED_BY} />
    ),
  },
  curePoints: {
    in: 'cure',
    edit: (form) => (
      <FormRows
        form={form}
        at="curePoints"
        label={RESIN.curePoints}
        note={DOCS.cureText}
        columns={{ c: DOCS.temperature, minutes: DOCS.minutes }}
      />
    ),
  },
  countsFrom: {
    in: 'end',
    edit: (form) => <FormChoice form={form} at="countsFrom" label={RESIN.countsFrom} words={COUNTS_FROM} />,
  },
  criterion: {
    in: 'end',
    edit: (form) => <FormChoice form={form} at="criterion" label={RESIN.criterion} words={CRITERION} />,
  },
  lowestC: { in: 'end', edit: (form) => <FormNumber form={form} at="lowestC" label={RESIN.lowestC} /> },
  exotherm: {
    in: 'end',
    edit: (form) => <FormChoice form={form} at="exotherm" label={RESIN.exotherm} words={EXOTHERM} />,
  },
  expectedRiseK: {
    in: 'end',
    edit: (form) => <FormNumber form={form} at="expectedRiseK" label={RESIN.expectedRiseK} />,
  },
  potLife: {
    in: 'pot',
    edit: (form) => (
      <FormRows
        form={form}
        at="potLife"
        label={RESIN.potLife}
        columns={{ c: DOCS.temperature, minutes: DOCS.minutes }}
      />
    ),
  },
  potMassG: { in: 'pot', edit: (form) => <FormNumber form={form} at="potMassG" label={RESIN.potMassG} /> },
  cupMarks: {
    in: 'cup',
    edit: (form) => (
      <FormRows
        form={form}
        at="cupMarks"
        label={RESIN.cupMarks}
        note={DOCS.cupText}
        columns={{ massG: DOCS.cupMass, mark: DOCS.cupMark, riseK: DOCS.cupRise }}
      />
    ),
  },
  mix: {
    in: 'mix',
    edit: (form) => (
      <>
        <FormNumber form={form} at="mix.resinParts" label={DOCS.resinParts} />
        <FormNumber form={form} at="mix.hardenerParts" label={DOCS.hardenerParts} />
        <FormChoice form={form} at="mix.basis" label={DOCS.basis} words={BASIS} />
      </>
    ),
  },
  resinDensity: {
    in: 'mix',
    edit: (form) => <FormNumber form={form} at="resinDensity" label={RESIN.resinDensity} />,
  },
  hardenerDensity: {
    in: 'mix',
    edit: (form) => <FormNumber form={form} at="hardenerDensity" label={RESIN.hardenerDensity} />,
  },
  mixedDensity: {
    in: 'mix',
    edit: (form) => <FormNumber form={form} at="mixedDensity" label={RESIN.mixedDensity} />,
  },
  batch: {
    in: 'mix', // the batches' own names are noted on the job sheet
    edit: (form) => <FormText form={form} at="batch.expires" label={DOCS.expires} type="date" />,
  },
  notes: { in: 'notes', edit: (form) => <FormText form={form} at="notes" label={RESIN.notes} long /> },
};

export function ResinForm(props: { form: Form<'resin'> }) {
  return (
    <>
      <Part title={DOCS.resinOne}>
        <div class="fields">
          <Members form={props.form} of={MEMBERS} in="name" />
        </div>
        <Members form={props.form} of={MEMBERS} in="cure" />
        <div class="fields">
          <Members form={props.form} of={MEMBERS} in="end" />
        </div>
      </Part>
      {/* Its parts are asked for: without them no resin is saved. */}
      <Part title={DOCS.mix}>
        <div class="fields">
          <Members form={props.form} of={MEMBERS} in="mix" />
        </div>
        <Members form={props.form} of={MEMBERS} in="notes" />
      </Part>
      <Part title={RESIN.potLife}>
        <Members form={props.form} of={MEMBERS} in="pot" />
      </Part>
      <Part title={RESIN.cupMarks} folded>
        <Members form={props.form} of={MEMBERS} in="cup" />
      </Part>
    </>
  );
}
