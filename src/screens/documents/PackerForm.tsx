import { Show } from 'solid-js';
import { highestRating, PLAIN_RATED_BAR } from '../../job/packer-document.ts';
import { Part, Tick } from '../../widgets/Fields.tsx';
import { DOCS, PACKER } from '../../words/docs.ts';
import { PLATE } from '../../words/fields.ts';
import { quantity } from '../../words/format.ts';
import { CYCLES } from '../../words/history.ts';
import { useServices } from '../context.ts';
import { FormChoice, FormNumber, FormText, FormTick } from './FormFields.tsx';
import { FormRows } from './FormRows.tsx';
import type { Form } from './form.ts';
import { Members, type MembersOf } from './Members.tsx';
import { PackerHistory } from './PackerHistory.tsx';
import { PackerLog } from './PackerLog.tsx';

/** Over what is usual, and not ticked as read again. */
const isUnlikely = (form: Form<'packer'>, bar: number): boolean =>
  bar > Math.max(PLAIN_RATED_BAR, form.draft().plateReadBar ?? 0);

/** The ratings by diameter; one over what is usual is asked back where it is typed. */
function Ratings(props: { form: Form<'packer'> }) {
  const app = useServices();
  return (
    <FormRows
      form={props.form}
      at="ratings"
      label={PACKER.ratings}
      note={DOCS.ratingsText}
      columns={{ diameterMm: DOCS.diameter, ratedBar: DOCS.rated }}
      asks={(key, value) =>
        key === 'ratedBar' && isUnlikely(props.form, value)
          ? DOCS.readAgain(quantity('pressure', value, app.units()))
          : null
      }
    />
  );
}

/** A rating over what is usual is ticked as read again, up to the highest one that stands. */
function PlateRead(props: { form: Form<'packer'> }) {
  const top = () => highestRating(props.form.draft());
  return (
    <Show when={top() > PLAIN_RATED_BAR}>
      <Tick
        label={PACKER.plateReadBar}
        checked={!isUnlikely(props.form, top())}
        onChecked={(on) => props.form.write('plateReadBar', on ? top() : null)}
        testId="packer-plateReadBar"
      />
    </Show>
  );
}

const MEMBERS: MembersOf<'packer', 'plate' | 'ratings' | 'more' | 'log'> = {
  version: null,
  name: { in: 'plate', edit: (form) => <FormText form={form} at="name" label={PACKER.name} /> },
  serial: { in: 'plate', edit: (form) => <FormText form={form} at="serial" label={PACKER.serial} /> },
  plate: {
    in: 'plate',
    edit: (form) => <FormChoice form={form} at="plate" label={PACKER.plate} words={PLATE} />,
  },
  sizes: {
    in: 'plate',
    edit: (form) => (
      <>
        <FormNumber form={form} at="sizes.minMm" label={DOCS.smallest} />
        <FormNumber form={form} at="sizes.maxMm" label={DOCS.largest} />
      </>
    ),
  },
  ratings: {
    in: 'ratings',
    edit: (form) => <Ratings form={form} />,
  },
  plateReadBar: { in: 'ratings', edit: (form) => <PlateRead form={form} /> },
  usable: {
    in: 'more',
    edit: (form) => (
      <FormRows
        form={form}
        at="usable"
        label={PACKER.usable}
        columns={{ diameterMm: DOCS.diameter, lengthMm: DOCS.length }}
      />
    ),
  },
  freeInflation: {
    in: 'more',
    edit: (form) => (
      <FormRows
        form={form}
        at="freeInflation"
        label={PACKER.freeInflation}
        columns={{ diameterMm: DOCS.diameter, bar: DOCS.pressure }}
      />
    ),
  },
  volume: {
    in: 'more',
    edit: (form) => (
      <FormRows
        form={form}
        at="volume"
        label={PACKER.volume}
        columns={{ diameterMm: DOCS.diameter, litres: DOCS.litres }}
      />
    ),
  },
  reliefBar: {
    in: 'more',
    edit: (form) => <FormNumber form={form} at="reliefBar" label={PACKER.reliefBar} />,
  },
  retired: { in: 'more', edit: (form) => <FormTick form={form} at="retired" label={PACKER.retired} /> },
  notes: { in: 'more', edit: (form) => <FormText form={form} at="notes" label={PACKER.notes} long /> },
  conditions: { in: 'log', edit: (form) => <PackerLog form={form} /> },
  earlierCycles: null, // counts what the log has no more room for
};

export function PackerForm(props: { form: Form<'packer'> }) {
  return (
    <>
      <Part title={DOCS.packerOne}>
        <div class="fields">
          <Members form={props.form} of={MEMBERS} in="plate" />
        </div>
        <Members form={props.form} of={MEMBERS} in="ratings" />
      </Part>
      <Part title={DOCS.more} folded>
        <Members form={props.form} of={MEMBERS} in="more" />
      </Part>
      <Part title={CYCLES.title}>
        <PackerHistory packer={props.form.draft()} />
      </Part>
      <Members form={props.form} of={MEMBERS} in="log" />
    </>
  );
}
