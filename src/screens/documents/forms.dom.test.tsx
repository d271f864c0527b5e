import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { createRoot, createSignal, type JSX } from 'solid-js';
import { afterEach, describe, expect, it } from 'vitest';
import { type ChecklistDocument, ownCopy } from '../../job/checklist-document.ts';
import { codesAt, type Documents, FIELDS, type JobDocumentKind, numberAt } from '../../job/documents.ts';
import type { JobDocument } from '../../job/job-document.ts';
import { blankSensor } from '../../job/sensor-document.ts';
import { defaultSettings } from '../../job/settings-defaults.ts';
import { busMap, lineMap } from '../../job/testing/maps.ts';
import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import { boundText } from '../../units/bound.ts';
import { METRIC, UNITS } from '../../units/display.ts';
import { readNumber } from '../../widgets/NumberField.tsx';
import { CHECK } from '../../words/checks.ts';
import { DEMO } from '../../words/testing/demo.ts';
import { type Services, ServicesContext } from '../context.ts';
import { Settings } from '../settings/Settings.tsx';
import { FieldPart } from '../sheet/parts.tsx';
import { PARTS } from '../sheet/steps.ts';
import { ThicknessPart } from '../sheet/ThicknessPart.tsx';
import { ChecklistForm } from './ChecklistForm.tsx';
import { ColumnMapForm } from './ColumnMapForm.tsx';
import { createForm, type Form } from './form.ts';
import { PackerForm } from './PackerForm.tsx';
import { RegisterMapForm } from './RegisterMapForm.tsx';
import { ResinForm } from './ResinForm.tsx';
import { SensorForm } from './SensorForm.tsx';

afterEach(cleanup);

/** A bench record is what was found of a device: nobody edits it. */
type FormKind = Exclude<JobDocumentKind, 'bench'>;

/** What no form edits by a field of its own name, and who does. */
const ELSEWHERE: Readonly<Record<FormKind, readonly string[]>> = {
  job: [
    'version',
    'device.deviceId', // taken from the device
    'device.channels',
    'device.channels.*.channel',
    'device.channels.*.role', // choices a channel
    'device.channels.*.place',
    'device.channels.*.sensorId',
    'air.uBar', // follows from the source
    // The list comes whole from its own document, answers are given row by row (ChecklistRows).
    ...[...FIELDS.job.keys()].filter((path) => /^(checklist|answers)(\.|$)/.test(path)),
    'cautions',
    'cautions.*',
  ],
  packer: [
    'version',
    'conditions', // the log: by hand under its own heading, by a run that is put away
    'conditions.*.date',
    'conditions.*.what',
    'conditions.*.peakBar',
    'conditions.*.leakMbarPerMin',
    'conditions.*.minutes',
    'conditions.*.by',
    'conditions.*.note',
    'conditions.*.runId',
    'plateReadBar', // a tick beside a rating that is seldom met
    'earlierCycles', // entries that the log has no more room for
  ],
  resin: [
    'version',
    'batch.resin', // the batches are noted on the job sheet
    'batch.hardener',
    'cupMarks.*.runId', // a link to the run that a mark is of
  ],
  sensor: [
    'version',
    'calibration.by',
    ...[...FIELDS.sensor.keys()].filter((path) => path.startsWith('earlier')), // calibrations replaced
  ],
  settings: [
    'version',
    'language', // which there are the catalogue knows, not the schema
    'sound.volume', // a slider
    'dialGauge.spanBar', // DialGaugePart: a usual gauge stands where none is entered
    'dialGauge.class',
    'firm',
    // The mark is drawn from a file, people and who is here are lists with keys of their own: their tests stand beside them.
    ...[...FIELDS.settings.keys()].filter((path) => /^(mark|people|here)(\.|$)/.test(path)),
  ],
  registers: ['version', 'is'],
  columns: ['version', 'is'],
  checklist: ['version', 'is', 'items', 'items.*.id'],
};

/** Its first item wants a number, so that every field of an item is there. */
const numberFirst = (list: ChecklistDocument): ChecklistDocument => ({
  ...list,
  items: list.items.map((item, i) => (i === 0 ? { ...item, wants: 'number', unit: '%' } : item)),
});

const job = (part: Partial<JobDocument>): JobDocument => ({
  ...DEMO.job,
  // Each key checks the whole sheet: no longer a list than is needed.
  checklist: { ...DEMO.job.checklist, items: DEMO.job.checklist.items.slice(0, 1) },
  answers: DEMO.job.answers.slice(0, 1),
  hose: { lengthM: 10, innerMm: 8 },
  thickness: {
    thicknessMm: 3,
    modulusMPa: 2000,
    strengthMPa: 40,
    longTermShare: 0.5,
    safetyFactor: 2,
    poisson: 0.3,
    enhancement: 7,
    ovalityPercent: 2,
  },
  airTest: { method: 'LB', lengthM: 20 },
  ...part,
});

/** Documents that have every part between them. */
const FILLED: { readonly [K in FormKind]: readonly Documents[K][] } = {
  job: [
    job({ air: { source: 'typed', bar: 1, uBar: 0 } }),
    job({ air: { source: 'altitude', altitudeM: 0 } }),
  ],
  packer: [DEMO.packer!.document],
  resin: [DEMO.resin!.document],
  sensor: [
    DEMO.sensors[0]!.document,
    {
      ...blankSensor('x', '1'),
      quantity: 'temperature',
      signal: 'thermocouple',
      thermocouple: 'K',
      thermocoupleClass: 2,
      span: null,
    },
  ],
  settings: [{ ...defaultSettings(), dialGauge: { spanBar: 4, class: 1.6 } }],
  registers: [busMap()],
  columns: [lineMap()],
  checklist: [numberFirst(ownCopy('Our list', CHECK))],
};

const choices = { packers: () => [], resins: () => [], sensors: () => [] };
const SHOWN: { readonly [K in FormKind]: (form: Form<K>) => JSX.Element } = {
  job: (form) => (
    <>
      {PARTS.map((part) => (
        <FieldPart part={part} of={{ form, choices, proposalBar: null, onNew: () => {} }} />
      ))}
      <ThicknessPart form={form} />
    </>
  ),
  packer: (form) => <PackerForm form={form} />,
  resin: (form) => <ResinForm form={form} />,
  sensor: (form) => <SensorForm form={form} />,
  settings: () => <Settings />,
  registers: (form) => <RegisterMapForm form={form} />,
  columns: (form) => <ColumnMapForm form={form} />,
  checklist: (form) => <ChecklistForm form={form} />,
};

/** Shows the form over a draft; what is edited is read from the draft. */
function show<K extends FormKind>(kind: K, first: Documents[K]): Form<K> {
  const form = createRoot(() => createForm(kind, first, () => METRIC));
  const services = {
    units: () => METRIC,
    settings: kind === 'settings' ? form.draft : defaultSettings,
    saveSettings: async (next: Documents[K]) => form.change(next),
    sensorRuns: () => [],
    sound: { state: () => null, test: () => null, speech: () => 'off', vibrates: true },
    soundBlocked: () => null,
    wording: PLAIN_WORDING,
    serial: { supported: true },
    live: { link: createSignal(null)[0], run: createSignal(null)[0] },
  };
  render(() => (
    <ServicesContext.Provider value={services as unknown as Services}>
      {SHOWN[kind](form)}
    </ServicesContext.Provider>
  ));
  return form;
}

const KINDS = Object.keys(FILLED) as FormKind[];
const inputAt = (kind: string, path: string) =>
  screen.queryByTestId<HTMLInputElement>(`${kind}-${path.replaceAll('*', '0')}`);

describe.each(KINDS)('form of a %s', (kind) => {
  const paths = [...FIELDS[kind]].filter(([path]) => !ELSEWHERE[kind].includes(path));

  it('shows every field that the schema has', () => {
    const missing = new Set(paths.map(([path]) => path));
    for (const document of FILLED[kind]) {
      show(kind, document);
      for (const path of missing) if (inputAt(kind, path) !== null) missing.delete(path);
      cleanup();
    }
    expect([...missing]).toEqual([]);
  });

  it('holds every number to the bounds of the schema, and says them', () => {
    let seen = 0;
    for (const document of FILLED[kind]) {
      const form = show(kind, document);
      for (const [path, field] of paths) {
        const input = inputAt(kind, path);
        if (field.is !== 'number' || input === null) continue;
        seen++;
        const type = (value: number) => {
          fireEvent.input(input, { target: { value: String(value) } });
          return input.parentElement?.querySelector('[role=alert]')?.textContent ?? '';
        };
        const at = () => form.read(path.replaceAll('*', '0'));
        const told = /^(range|calibration\.as)/.test(path)
          ? { kind: form.read('quantity') as 'pressure' | 'temperature' }
          : /^(accuracy|calibration\.u)/.test(path)
            ? { unit: form.read('quantity') === 'pressure' ? 'bar' : 'K' }
            : /^channels\.\*\.(lo|hi)$/.test(path)
              ? { kind: form.read('channels.0.quantity') as 'pressure' | 'temperature' }
              : path.startsWith('span')
                ? { unit: 'µA' }
                : field;
        for (const end of [field.lo, field.hi]) {
          type(end);
          expect(at(), `${path} takes ${end}`).toBe(end);
        }
        expect(type(field.hi + 1), path).toBe(
          `Too high: at most ${boundText(field.hi, 'most', told, METRIC)}.`,
        );
        expect(type(field.lo - 1), path).toBe(
          `Too low: at least ${boundText(field.lo, 'least', told, METRIC)}.`,
        );
        expect(at(), `${path} keeps what stood`).toBe(field.hi);
        if (field.whole === true) expect(type(field.lo + 0.5), path).toContain('whole');
        type(field.lo);
      }
      cleanup();
    }
    expect(seen).toBeGreaterThanOrEqual(paths.filter(([, f]) => f.is === 'number').length);
  });

  it('offers every code that the schema has', () => {
    for (const document of FILLED[kind]) {
      show(kind, document);
      for (const [path, field] of paths) {
        const select = inputAt(kind, path);
        if (field.is !== 'code' || select === null) continue;
        const offered = [...select.querySelectorAll('option')].map((o) => [o.value, o.textContent !== '']);
        expect(offered, path).toEqual(codesAt(kind, path).map((c) => [String(c), true]));
      }
      cleanup();
    }
  });

  it('says no bound that it would refuse, whatever the user reads', () => {
    for (const [path, field] of FIELDS[kind])
      if (field.is === 'number')
        for (const pressure of UNITS.pressure)
          for (const temperature of UNITS.temperature)
            for (const length of UNITS.length) {
              const units = { pressure, temperature, length };
              const rules = numberAt(kind, path);
              for (const [bound, side] of [
                [field.lo, 'least'],
                [field.hi, 'most'],
              ] as const) {
                const said = boundText(bound, side, rules, units);
                const typed = rules.kind === undefined ? said.split('\u00a0')[0]! : said;
                expect(readNumber(typed, rules, units), `${path}: ${said}`).toMatchObject({ ok: true });
              }
            }
  });
});
