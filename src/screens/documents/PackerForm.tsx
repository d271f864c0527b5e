import type { PackerDocument } from '../../job/packer-document.ts';
import { Choice, optionsOf, Part, TextField, Tick } from '../../widgets/Fields.tsx';
import { NumberField } from '../../widgets/NumberField.tsx';
import { PLATE } from '../../words/fields.ts';
import { CYCLES } from '../../words/history.ts';
import { DOCS } from '../../words/jobs.ts';
import { useServices } from '../context.ts';
import type { Form } from './form.ts';
import { PackerHistory } from './PackerHistory.tsx';
import { PackerLog } from './PackerLog.tsx';
import { Rows } from './Rows.tsx';

const DIAMETER = {
  key: 'diameterMm',
  label: DOCS.diameter,
  kind: 'length',
  rules: { lo: 20, hi: 2000 },
} as const;

export function PackerForm(props: { form: Form<PackerDocument> }) {
  const app = useServices();
  const d = () => props.form.draft();
  const change = (part: Partial<PackerDocument>) => props.form.change(part);
  const issue = (path: string) => props.form.issue(path);
  return (
    <>
      <Part title={DOCS.packerOne}>
        <div class="fields">
          <TextField
            label={DOCS.name}
            value={d().name}
            onValue={(name) => change({ name })}
            issue={issue('name')}
            testId="doc-name"
          />
          <TextField
            label={DOCS.serial}
            value={d().serial}
            onValue={(serial) => change({ serial })}
            issue={issue('serial')}
            testId="doc-serial"
          />
          <Choice
            label={DOCS.plate}
            value={d().plate}
            options={optionsOf(PLATE)}
            onValue={(plate) => change({ plate })}
          />
          <NumberField
            label={DOCS.smallest}
            kind="length"
            units={app.units()}
            value={d().sizes.minMm}
            rules={{ lo: 20, hi: 2000 }}
            onValue={(v) => v !== null && change({ sizes: { ...d().sizes, minMm: v } })}
            testId="doc-min"
          />
          <NumberField
            label={DOCS.largest}
            kind="length"
            units={app.units()}
            value={d().sizes.maxMm}
            rules={{ lo: 20, hi: 2000 }}
            onValue={(v) => v !== null && change({ sizes: { ...d().sizes, maxMm: v } })}
            issue={issue('sizes.maxMm')}
            testId="doc-max"
          />
        </div>
        <Rows
          label={DOCS.ratings}
          note={DOCS.ratingsText}
          rows={d().ratings}
          columns={[
            DIAMETER,
            { key: 'ratedBar', label: DOCS.rated, kind: 'pressure', rules: { lo: 0.05, hi: 20 } },
          ]}
          blank={{ diameterMm: d().sizes.maxMm, ratedBar: 1.5 }}
          onRows={(ratings) => change({ ratings })}
          issue={issue}
          path="ratings"
          testId="ratings"
        />
      </Part>
      <Part title={DOCS.more} folded>
        <Rows
          label={DOCS.usable}
          rows={d().usable}
          columns={[
            DIAMETER,
            { key: 'lengthMm', label: DOCS.length, kind: 'length', rules: { lo: 10, hi: 20_000 } },
          ]}
          blank={{ diameterMm: d().sizes.maxMm, lengthMm: 1000 }}
          onRows={(usable) => change({ usable })}
          issue={issue}
          path="usable"
        />
        <Rows
          label={DOCS.free}
          rows={d().freeInflation}
          columns={[
            DIAMETER,
            { key: 'bar', label: DOCS.pressure, kind: 'pressure', rules: { lo: 0, hi: 10 } },
          ]}
          blank={{ diameterMm: d().sizes.maxMm, bar: 0.4 }}
          onRows={(freeInflation) => change({ freeInflation })}
          issue={issue}
          path="freeInflation"
        />
        <Rows
          label={DOCS.volume}
          rows={d().volume}
          columns={[
            DIAMETER,
            { key: 'litres', label: DOCS.litres, kind: 'volume', rules: { lo: 0.01, hi: 20_000 } },
          ]}
          blank={{ diameterMm: d().sizes.maxMm, litres: 20 }}
          onRows={(volume) => change({ volume })}
          issue={issue}
          path="volume"
        />
        <NumberField
          label={DOCS.relief}
          kind="pressure"
          units={app.units()}
          value={d().reliefBar}
          rules={{ lo: 0.05, hi: 25 }}
          onValue={(reliefBar) => change({ reliefBar })}
        />
        <Tick label={DOCS.retired} checked={d().retired} onChecked={(retired) => change({ retired })} />
        <TextField
          label={DOCS.notes}
          value={d().notes}
          onValue={(notes) => change({ notes })}
          issue={issue('notes')}
          long
        />
      </Part>
      <Part title={CYCLES.title}>
        <PackerHistory packer={d()} />
      </Part>
      <PackerLog form={props.form} />
    </>
  );
}
