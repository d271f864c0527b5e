import { expect, it } from 'vitest';
import { type JobBundle, toBundle } from '../job/bundle.ts';
import type { SensorDocument } from '../job/sensor-document.ts';
import { plan } from '../plan/testing/plan-of.ts';
import { DEMO } from '../words/testing/demo.ts';
import type { Manifest } from './manifest.ts';
import { papersApart } from './papers-apart.ts';

// The Setup as the plan makes it of the practice job, beside papers that were sealed with it.

const TRANSDUCER = DEMO.job.device.channels[0]!.sensorId;
const CALIBRATION = DEMO.sensors.map((s) => s.document.calibration).find((c) => c !== null)!;

const withSensor = (change: Partial<SensorDocument>): JobBundle => ({
  ...DEMO,
  sensors: DEMO.sensors.map((s) =>
    s.id === TRANSDUCER ? { ...s, document: { ...s.document, ...change } } : s,
  ),
});

function said(papers: unknown, setupOf: JobBundle = DEMO) {
  const { setup } = plan({}, setupOf);
  const setups = [{ tUs: 0, setup }];
  return papersApart({ job: papers, setups, events: [] } as unknown as Manifest).flatMap((r) => r.what);
}

it('papers that the Setup was made of say nothing, nor none, nor such as nobody can read', () => {
  expect(DEMO.sensors.find((s) => s.id === TRANSDUCER)).toBeDefined();
  expect(plan().setup.channels[0]?.sensorSerial).toBeTruthy();
  expect(said(toBundle(DEMO))).toEqual([]);
  for (const none of [null, {}, 'x', { schema: 'other' }]) expect(said(none)).toEqual([]);
  expect(papersApart({ job: toBundle(DEMO), setups: [], events: [] } as unknown as Manifest)).toEqual([]);
});

it('a manifest whose Setups are none is compared with nothing', () => {
  const { setup } = plan();
  for (const bad of [{}, { ...setup, channels: [null] }, { ...setup, channels: 'x' }, { ...setup, resin: 7 }])
    expect(
      papersApart({
        job: toBundle(DEMO),
        setups: [{ tUs: 0, setup: bad }],
        events: [],
      } as unknown as Manifest),
    ).toEqual([]);
});

it('another sensor, range or calibration is said', () => {
  expect(said(toBundle(withSensor({ serial: 'OTHER-1' })))).toEqual(['sensor']);
  expect(said(toBundle(withSensor({ range: { lo: 0, hi: 40 } })))).toEqual(['sensor']);
  const calibrated = withSensor({ calibration: CALIBRATION });
  expect(said(toBundle(calibrated), calibrated)).toEqual([]);
  const later = withSensor({ calibration: { ...CALIBRATION, date: '2020-01-02' } });
  expect(said(toBundle(later), calibrated)).toEqual(['calibration']);
});

it('another rated pressure, resin, pipe or site is said, and a lower one of another packer on the line is not', () => {
  const { job } = DEMO;
  const packer = DEMO.packer!;
  const resin = DEMO.resin!;
  const ratings = packer.document.ratings.map((r) => ({ ...r, ratedBar: r.ratedBar + 0.1 }));
  const others: Record<string, JobBundle> = {
    packer: { ...DEMO, packer: { ...packer, document: { ...packer.document, ratings } } },
    resin: { ...DEMO, resin: { ...resin, document: { ...resin.document, curePoints: [] } } },
    pipe: { ...DEMO, job: { ...job, pipe: { ...job.pipe, innerMm: 140 } } },
    site: { ...DEMO, job: { ...job, wetness: 'wet' } },
  };
  for (const [what, papers] of Object.entries(others)) expect(said(toBundle(papers))).toEqual([what]);
  expect(said(toBundle({ ...DEMO, resin: null }))).toEqual(['resin']);
  const two: JobBundle = { ...DEMO, job: { ...job, packersOnLine: 'two', otherRatedBar: 1.2 } };
  expect(said(toBundle(two), two)).toEqual([]);
});

it('another mix or witness cup than the sheet has is said, and marks that no earlier cup has shown', () => {
  const { setup } = plan();
  const { job } = DEMO;
  const resin = DEMO.resin!;
  const row = (mark: number) => ({ massG: 200, mark, riseK: 40 });
  const known: JobBundle = {
    ...DEMO,
    job: { ...job, resin: { ...job.resin, mixC: 16, cupMassG: 200 } },
    resin: { ...resin, document: { ...resin.document, cupMarks: [row(0.4), row(0.5)] } },
  };
  const mark = { age: 0.45, scatter: 0.08, riseK: 40, batches: 2 };
  const by = (used: object, papers: JobBundle = known) =>
    papersApart({
      job: toBundle(papers),
      setups: [{ tUs: 0, setup: { ...setup, resin: { ...setup.resin!, ...used } } }],
      events: [],
    } as unknown as Manifest).flatMap((r) => r.what);
  const cup = { massG: 200, mark };
  expect(by({ potC: 16, cup })).toEqual([]);
  expect(by({ potC: 16, cup: { ...cup, mark: null } })).toEqual([]);
  expect(by({ potC: 30, cup })).toEqual(['resin']);
  for (const other of [
    { massG: 400 },
    { mark: { ...mark, age: 0.2 } },
    { mark: { ...mark, batches: 9 } },
    { mark: { ...mark, riseK: 3 } },
  ])
    expect(by({ potC: 16, cup: { ...cup, ...other } })).toEqual(['resin']);
  const none = { ...known, resin: { ...resin, document: { ...resin.document, cupMarks: [] } } };
  expect(by({ potC: 16, cup }, none)).toEqual(['resin']);
});

it('counts from the Setup by which air was let in: a sheet may be filled in before, and none is set right behind', () => {
  const { setup } = plan();
  const poor = { ...setup, channels: [], limits: null, resin: null };
  const at = (setups: readonly [number, typeof setup][]) =>
    papersApart({
      job: toBundle(DEMO),
      setups: setups.map(([tUs, s]) => ({ tUs, setup: s })),
      events: [{ tUs: 100, e: 'stage', stage: 'inflate', attempt: 1, by: 'operator' }],
    } as unknown as Manifest).flatMap((r) => r.what);
  const filledAt = (tUs: number) =>
    at([
      [0, poor],
      [tUs, setup],
    ]);
  expect(filledAt(50)).toEqual([]);
  expect(filledAt(150)).toEqual(['resin']);
});

it('an air test of another method, length, size or groundwater is said', () => {
  const { job } = DEMO;
  expect(plan().setup.airTest).toBeDefined();
  const papers = (airTest: JobBundle['job']['airTest']) => toBundle({ ...DEMO, job: { ...job, airTest } });
  expect(said(papers({ ...job.airTest, method: 'LD' }))).toEqual(['air-test']);
  expect(said(papers({ method: 'none', lengthM: null }))).toEqual(['air-test']);
  expect(said(papers({ ...job.airTest, lengthM: 21 }))).toEqual(['air-test']);
  const airTest = { method: 'F1417', lengthM: 20 } as const;
  const { setup } = plan({ airTest });
  const told = (of: Partial<typeof setup>) =>
    papersApart({
      job: papers(airTest),
      setups: [{ tUs: 0, setup: { ...setup, ...of } }],
      events: [],
    } as unknown as Manifest).flatMap((r) => r.what);
  expect(setup.airTest?.method).toBe('F1417');
  expect(told({})).toEqual([]);
  for (const change of [{ headBar: 0.5 }, { mm: 300 }, { lengthM: null }])
    expect(told({ airTest: { ...setup.airTest!, ...change } })).toEqual(['air-test']);
});
