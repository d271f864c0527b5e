import { type JSX, Show } from 'solid-js';
import type { AirSource } from '../../job/codes.ts';
import type { JobDocument } from '../../job/job-document.ts';
import { PLAIN_RATED_BAR } from '../../job/packer-document.ts';
import { Choice } from '../../widgets/Fields.tsx';
import { DOCS } from '../../words/docs.ts';
import {
  AIR_SOURCE,
  AIR_TEST,
  DEFECT,
  HEATING,
  INFILTRATION,
  PACKERS_ON_LINE,
  WETNESS,
} from '../../words/fields.ts';
import { planNumber } from '../../words/refusals.ts';
import { SHEET } from '../../words/sheet.ts';
import { LINE, LINE_MEANS, MATERIAL, TAP, TAP_MEANS } from '../../words/site.ts';
import { useServices } from '../context.ts';
import { FormChoice, FormNumber, FormText } from '../documents/FormFields.tsx';
import type { Form } from '../documents/form.ts';
import { Help } from '../help/Help.tsx';
import type { Route } from '../route.ts';
import type { Choices } from './choices.ts';

/** What a field of the sheet needs. */
export interface SheetFieldProps {
  readonly form: Form<'job'>;
  readonly choices: Choices;
  /** What the plan would work at, bar; null: not known. */
  readonly proposalBar: number | null;
  /** The sheet is left to make a document that is not there yet; for a sensor, the channel it is for. */
  readonly onNew: (kind: Extract<Route, { page: 'documents' }>['kind'], channel: number | null) => void;
}

/** What is taken of the air pressure before more is typed. */
const START_AIR: { readonly [S in AirSource]: Extract<JobDocument['air'], { source: S }> } = {
  assumed: { source: 'assumed' },
  altitude: { source: 'altitude', altitudeM: 0 },
  typed: { source: 'typed', bar: 1.013, uBar: 0.01 },
  sensor: { source: 'sensor', bar: 1.013, uBar: 0.01 },
};

function PackerField({ form, choices }: SheetFieldProps): JSX.Element {
  const id = () => form.draft().packerId;
  return (
    <Choice
      label={SHEET.packer}
      testId="job-packerId"
      issue={form.issue('packerId')}
      value={id() ?? ''}
      options={[
        { value: '', text: SHEET.noPacker },
        ...choices.packers(id()).map((p) => ({
          value: p.id,
          text: [p.document.name, p.document.serial].filter(Boolean).join(', '),
        })),
      ]}
      onValue={(next) => form.write('packerId', next === '' ? null : next)}
    />
  );
}

function ResinField({ form, choices }: SheetFieldProps): JSX.Element {
  const id = () => form.draft().resin.resinId;
  return (
    <Choice
      label={SHEET.resin}
      testId="job-resin.resinId"
      issue={form.issue('resin.resinId')}
      value={id() ?? ''}
      options={[
        { value: '', text: SHEET.noResin },
        ...choices.resins(id()).map((r) => ({ value: r.id, text: r.document.name })),
      ]}
      onValue={(next) => form.write('resin.resinId', next === '' ? null : next)}
    />
  );
}

function WorkingField(props: SheetFieldProps): JSX.Element {
  const app = useServices();
  const hint = () =>
    props.proposalBar === null
      ? SHEET.workingHint
      : SHEET.workingHintOf(planNumber(props.proposalBar, 'bar', app.units()));
  return (
    <div class="with-help">
      <FormNumber form={props.form} at="pressures.workingBar" label={SHEET.working} hint={hint()} />
      <Help about="working" of={SHEET.working} />
    </div>
  );
}

/** Too high it would hide that the other packer bears less: it is asked back. */
function OtherRatedField({ form }: SheetFieldProps): JSX.Element {
  const app = useServices();
  const question = () => {
    const bar = form.draft().otherRatedBar;
    return bar !== null && bar > PLAIN_RATED_BAR ? DOCS.readAgain(planNumber(bar, 'bar', app.units())) : null;
  };
  return <FormNumber form={form} at="otherRatedBar" label={SHEET.otherRated} question={question()} />;
}

/** Empty is 'no hose': its bore is asked for once there is one. */
function HoseField({ form }: SheetFieldProps): JSX.Element {
  return (
    <FormNumber
      form={form}
      at="hose.lengthM"
      label={SHEET.hoseLength}
      onValue={(lengthM) =>
        form.change({
          hose: lengthM === null ? null : { ...(form.draft().hose ?? { innerMm: 8 }), lengthM },
        })
      }
    />
  );
}

function AirField({ form }: SheetFieldProps): JSX.Element {
  return (
    <FormChoice
      form={form}
      at="air.source"
      label={SHEET.air}
      words={AIR_SOURCE}
      onValue={(source) => form.change({ air: START_AIR[source] })}
    />
  );
}

/** The rest of the air pressure, by where it comes from. */
function AirMoreField({ form }: SheetFieldProps): JSX.Element {
  return (
    <>
      <Show when={form.draft().air.source === 'altitude'}>
        <FormNumber form={form} at="air.altitudeM" label={SHEET.altitude} />
      </Show>
      <Show when={form.draft().air.source === 'typed'}>
        <FormNumber
          form={form}
          at="air.bar"
          label={SHEET.airBar}
          onValue={(bar) => bar !== null && form.change({ air: { source: 'typed', bar, uBar: 0.005 } })}
        />
      </Show>
    </>
  );
}

/** Every field of the sheet that stands for itself, once, by its name. */
export const FIELD = {
  title: ({ form }) => <FormText form={form} at="title" label={SHEET.jobTitle} />,
  date: ({ form }) => <FormText form={form} at="date" label={SHEET.date} type="date" />,
  site: ({ form }) => <FormText form={form} at="site" label={SHEET.site} />,
  client: ({ form }) => <FormText form={form} at="client" label={SHEET.client} />,
  reference: ({ form }) => <FormText form={form} at="reference" label={SHEET.reference} />,
  crew: ({ form }) => <FormText form={form} at="crew" label={SHEET.crew} />,
  'defect.kind': ({ form }) => (
    <FormChoice form={form} at="defect.kind" label={SHEET.defect} words={DEFECT} />
  ),
  'defect.chainageM': ({ form }) => <FormNumber form={form} at="defect.chainageM" label={SHEET.chainage} />,
  'defect.lengthMm': ({ form }) => <FormNumber form={form} at="defect.lengthMm" label={SHEET.defectLength} />,
  'defect.infiltration': ({ form }) => (
    <FormChoice
      form={form}
      at="defect.infiltration"
      label={SHEET.infiltration}
      hint={SHEET.infiltrationHint}
      words={INFILTRATION}
    />
  ),
  'pipe.innerMm': ({ form }) => (
    <FormNumber form={form} at="pipe.innerMm" label={SHEET.inner} hint={SHEET.innerHint} />
  ),
  'pipe.dn': ({ form }) => <FormNumber form={form} at="pipe.dn" label={SHEET.dn} />,
  'pipe.wallMm': ({ form }) => <FormNumber form={form} at="pipe.wallMm" label={SHEET.wall} />,
  'pipe.material': ({ form }) => (
    <FormChoice form={form} at="pipe.material" label={SHEET.material} words={MATERIAL} />
  ),
  'ground.waterM': ({ form }) => (
    <FormNumber form={form} at="ground.waterM" label={SHEET.water} hint={SHEET.waterHint} />
  ),
  'ground.temperatureC': ({ form }) => (
    <FormNumber form={form} at="ground.temperatureC" label={SHEET.groundC} />
  ),
  'ground.uC': ({ form }) => <FormNumber form={form} at="ground.uC" label={SHEET.groundU} />,
  packerId: PackerField,
  'resin.resinId': ResinField,
  'resin.resinBatch': ({ form }) => <FormText form={form} at="resin.resinBatch" label={SHEET.resinBatch} />,
  'resin.hardenerBatch': ({ form }) => (
    <FormText form={form} at="resin.hardenerBatch" label={SHEET.hardenerBatch} />
  ),
  'resin.mixC': ({ form }) => <FormNumber form={form} at="resin.mixC" label={SHEET.mixC} />,
  'resin.cupMassG': ({ form }) => (
    <div class="with-help">
      <FormNumber form={form} at="resin.cupMassG" label={SHEET.cupMass} hint={SHEET.cupHint} />
      <Help about="cup" of={SHEET.cupMass} />
    </div>
  ),
  handlingMin: ({ form }) => <FormNumber form={form} at="handlingMin" label={SHEET.handling} />,
  'heating.by': ({ form }) => (
    <FormChoice form={form} at="heating.by" label={SHEET.heating} hint={SHEET.heatingHint} words={HEATING} />
  ),
  'heating.toC': ({ form }) => <FormNumber form={form} at="heating.toC" label={SHEET.heatedTo} />,
  'pressures.workingBar': WorkingField,
  'pressures.seatBar': ({ form }) => <FormNumber form={form} at="pressures.seatBar" label={SHEET.seat} />,
  'pressures.seatingMarginBar': ({ form }) => (
    <FormNumber form={form} at="pressures.seatingMarginBar" label={SHEET.margin} />
  ),
  'pressures.reliefBar': ({ form }) => (
    <FormNumber form={form} at="pressures.reliefBar" label={SHEET.relief} />
  ),
  'pressures.noMarginReason': ({ form }) => (
    <FormText form={form} at="pressures.noMarginReason" label={SHEET.noMargin} hint={SHEET.noMarginHint} />
  ),
  tap: ({ form }) => (
    <div class="with-help">
      <FormChoice form={form} at="tap" label={SHEET.tap} hint={TAP_MEANS[form.draft().tap]} words={TAP} />
      <Help about="tap" of={SHEET.tap} />
    </div>
  ),
  line: ({ form }) => (
    <FormChoice form={form} at="line" label={SHEET.line} hint={LINE_MEANS[form.draft().line]} words={LINE} />
  ),
  wetness: ({ form }) => (
    <FormChoice form={form} at="wetness" label={SHEET.wetness} hint={SHEET.wetnessHint} words={WETNESS} />
  ),
  packersOnLine: ({ form }) => (
    <FormChoice
      form={form}
      at="packersOnLine"
      label={SHEET.packersOnLine}
      hint={SHEET.packersHint}
      words={PACKERS_ON_LINE}
    />
  ),
  otherRatedBar: OtherRatedField,
  'hose.lengthM': HoseField,
  'hose.innerMm': ({ form }) => (
    <Show when={form.draft().hose !== null}>
      <FormNumber form={form} at="hose.innerMm" label={SHEET.hoseInner} />
    </Show>
  ),
  'air.source': AirField,
  'air.more': AirMoreField,
  'device.rateHz': ({ form }) => <FormNumber form={form} at="device.rateHz" label={SHEET.rate} />,
  'sleeve.endOverlapMm': ({ form }) => (
    <FormNumber form={form} at="sleeve.endOverlapMm" label={SHEET.overlap} />
  ),
  'sleeve.lapMm': ({ form }) => <FormNumber form={form} at="sleeve.lapMm" label={SHEET.lap} />,
  'sleeve.layers': ({ form }) => <FormNumber form={form} at="sleeve.layers" label={SHEET.layers} />,
  'sleeve.layerMm': ({ form }) => <FormNumber form={form} at="sleeve.layerMm" label={SHEET.layerMm} />,
  'sleeve.fabricGM2': ({ form }) => <FormNumber form={form} at="sleeve.fabricGM2" label={SHEET.fabric} />,
  'sleeve.resinRatio': ({ form }) => (
    <FormNumber form={form} at="sleeve.resinRatio" label={SHEET.resinRatio} />
  ),
  'sleeve.wastePercent': ({ form }) => (
    <FormNumber form={form} at="sleeve.wastePercent" label={SHEET.waste} />
  ),
  'airTest.method': ({ form }) => (
    <FormChoice form={form} at="airTest.method" label={SHEET.airTestMethod} words={AIR_TEST} />
  ),
  'airTest.lengthM': ({ form }) => (
    <Show when={form.draft().airTest.method !== 'none'}>
      <FormNumber form={form} at="airTest.lengthM" label={SHEET.testLength} />
    </Show>
  ),
  notes: ({ form }) => <FormText form={form} at="notes" label={SHEET.notes} long />,
} satisfies Readonly<Record<string, (props: SheetFieldProps) => JSX.Element>>;

export type SheetField = keyof typeof FIELD;
