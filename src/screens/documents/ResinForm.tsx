import type { ResinDocument } from '../../job/resin-document.ts';
import { Choice, optionsOf, Part, TextField } from '../../widgets/Fields.tsx';
import { NumberField } from '../../widgets/NumberField.tsx';
import { BASIS, CRITERION, EXOTHERM, RESIN_KIND } from '../../words/fields.ts';
import { DOCS } from '../../words/jobs.ts';
import { useServices } from '../context.ts';
import type { Form } from './form.ts';
import { Rows } from './Rows.tsx';

export function ResinForm(props: { form: Form<ResinDocument> }) {
  const app = useServices();
  const d = () => props.form.draft();
  const change = (part: Partial<ResinDocument>) => props.form.change(part);
  const issue = (path: string) => props.form.issue(path);
  const density = (key: 'resinDensity' | 'hardenerDensity' | 'mixedDensity', label: string) => (
    <NumberField
      label={label}
      unit="kg/m³"
      value={d()[key]}
      rules={{ lo: 500, hi: 3000 }}
      onValue={(v) => change({ [key]: v } as Partial<ResinDocument>)}
    />
  );
  return (
    <>
      <Part title={DOCS.resinOne}>
        <div class="fields">
          <TextField
            label={DOCS.name}
            value={d().name}
            onValue={(name) => change({ name })}
            issue={issue('name')}
            testId="doc-name"
          />
          <Choice
            label={DOCS.kind}
            value={d().kind}
            options={optionsOf(RESIN_KIND)}
            onValue={(kind) => change({ kind })}
          />
        </div>
        <Rows
          label={DOCS.cure}
          note={DOCS.cureText}
          rows={d().curePoints}
          columns={[
            { key: 'c', label: DOCS.temperature, kind: 'temperature', rules: { lo: -20, hi: 120 } },
            { key: 'minutes', label: DOCS.minutes, unit: 'min', rules: { lo: 1, hi: 20_000 } },
          ]}
          blank={{ c: 20, minutes: 60 }}
          onRows={(curePoints) => change({ curePoints })}
          issue={issue}
          path="curePoints"
          most={12}
          testId="cure-points"
        />
        <div class="fields">
          <Choice
            label={DOCS.criterion}
            value={d().criterion}
            options={optionsOf(CRITERION)}
            onValue={(criterion) => change({ criterion })}
          />
          <NumberField
            label={DOCS.lowest}
            kind="temperature"
            units={app.units()}
            value={d().lowestC}
            rules={{ lo: -20, hi: 60 }}
            onValue={(lowestC) => change({ lowestC })}
          />
          <Choice
            label={DOCS.exotherm}
            value={d().exotherm}
            options={optionsOf(EXOTHERM)}
            onValue={(exotherm) => change({ exotherm })}
          />
          <NumberField
            label={DOCS.rise}
            kind="temperatureDifference"
            units={app.units()}
            value={d().expectedRiseK}
            rules={{ lo: 0, hi: 100 }}
            onValue={(expectedRiseK) => change({ expectedRiseK })}
          />
        </div>
      </Part>
      <Part title={DOCS.pot}>
        <Rows
          label={DOCS.pot}
          rows={d().potLife}
          columns={[
            { key: 'c', label: DOCS.temperature, kind: 'temperature', rules: { lo: -20, hi: 80 } },
            { key: 'minutes', label: DOCS.minutes, unit: 'min', rules: { lo: 0.5, hi: 2000 } },
          ]}
          blank={{ c: 20, minutes: 25 }}
          onRows={(potLife) => change({ potLife })}
          issue={issue}
          path="potLife"
          most={12}
        />
        <NumberField
          label={DOCS.potMass}
          kind="mass"
          units={app.units()}
          value={d().potMassG}
          rules={{ lo: 1, hi: 100_000 }}
          onValue={(potMassG) => change({ potMassG })}
        />
      </Part>
      <Part title={DOCS.mix} folded>
        <div class="fields">
          <NumberField
            label={DOCS.resinParts}
            value={d().mix.resinParts}
            rules={{ lo: 0.01, hi: 1000 }}
            onValue={(v) => v !== null && change({ mix: { ...d().mix, resinParts: v } })}
          />
          <NumberField
            label={DOCS.hardenerParts}
            value={d().mix.hardenerParts}
            rules={{ lo: 0, hi: 1000 }}
            onValue={(v) => v !== null && change({ mix: { ...d().mix, hardenerParts: v } })}
          />
          <Choice
            label={DOCS.basis}
            value={d().mix.basis}
            options={optionsOf(BASIS)}
            onValue={(basis) => change({ mix: { ...d().mix, basis } })}
          />
          {density('resinDensity', DOCS.resinDensity)}
          {density('hardenerDensity', DOCS.hardenerDensity)}
          {density('mixedDensity', DOCS.mixedDensity)}
          <TextField
            label={DOCS.expires}
            type="date"
            value={d().batch.expires ?? ''}
            onValue={(v) => change({ batch: { ...d().batch, expires: v === '' ? null : v } })}
            issue={issue('batch.expires')}
          />
        </div>
        <TextField
          label={DOCS.notes}
          value={d().notes}
          onValue={(notes) => change({ notes })}
          issue={issue('notes')}
          long
        />
      </Part>
    </>
  );
}
