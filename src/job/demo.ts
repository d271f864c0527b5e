import type { JobBundle } from './bundle.ts';
import { BUILT_IN, CHECKS } from './checklist.ts';
import { blankJob, type JobDocument } from './job-document.ts';
import { blankPacker, type PackerDocument } from './packer-document.ts';
import { blankResin, type ResinDocument } from './resin-document.ts';
import { blankSensor, type SensorDocument } from './sensor-document.ts';

/** What the invented things are called; the catalogue knows. */
export interface DemoNames {
  readonly title: string;
  readonly site: string;
  readonly client: string;
  readonly notes: string;
  readonly packer: string;
  /** A note in the packer's log. */
  readonly leakCheck: string;
  readonly resin: string;
  readonly transducer: string;
  /** The instrument that the transducer was calibrated against. */
  readonly reference: string;
  readonly sleeveProbe: string;
  readonly airProbe: string;
  readonly pipeProbe: string;
}

/**
 * An invented repair for practice and tests: a crack in a 150 mm clay drain with groundwater above it, closed line,
 * hose tap. Places, people, packer and resin do not exist; the resin's numbers are a generic sketch.
 */

export const DEMO_IDS = {
  job: 'demo-job',
  packer: 'demo-packer',
  resin: 'demo-resin',
  transducer: 'demo-transducer',
  sleeveProbe: 'demo-probe-sleeve',
  airProbe: 'demo-probe-air',
  pipeProbe: 'demo-probe-pipe',
} as const;

/** The device of the simulated site. */
export const DEMO_DEVICE = 'RIG-0001';

const packer = (names: DemoNames): PackerDocument => ({
  ...blankPacker(names.packer),
  serial: 'PP-017',
  sizes: { minMm: 95, maxMm: 155 },
  ratings: [
    { diameterMm: 100, ratedBar: 2.5 },
    { diameterMm: 125, ratedBar: 2.1 },
    { diameterMm: 155, ratedBar: 1.8 },
  ],
  usable: [
    { diameterMm: 100, lengthMm: 1205 },
    { diameterMm: 150, lengthMm: 1130 },
  ],
  freeInflation: [
    { diameterMm: 100, bar: 0.25 },
    { diameterMm: 150, bar: 0.45 },
  ],
  volume: [
    { diameterMm: 100, litres: 9 },
    { diameterMm: 150, litres: 22 },
  ],
  reliefBar: 1.8,
  conditions: [
    {
      date: '2026-03-02',
      what: 'inspected',
      peakBar: null,
      leakMbarPerMin: null,
      minutes: null,
      by: 'A.B.',
      note: '',
    },
    {
      date: '2026-03-02',
      what: 'leak-check',
      peakBar: 0.3,
      leakMbarPerMin: 0.2,
      minutes: 15,
      by: 'A.B.',
      note: names.leakCheck,
    },
  ],
  earlierCycles: 41,
});

const resin = (names: DemoNames): ResinDocument => ({
  ...blankResin(names.resin),
  kind: 'silicate',
  mix: { resinParts: 100, hardenerParts: 200, basis: 'volume' },
  resinDensity: 1480,
  hardenerDensity: 1150,
  mixedDensity: 1260,
  criterion: 'let-down',
  curePoints: [
    { c: 5, minutes: 210 },
    { c: 15, minutes: 110 },
    { c: 25, minutes: 60 },
  ],
  lowestC: 5,
  // What usual batches show in a cup at the practice site, mixed at 14 to 18 °C.
  cupMarks: [
    { massG: 200, mark: 0.276, riseK: 111 },
    { massG: 200, mark: 0.279, riseK: 110 },
    { massG: 200, mark: 0.267, riseK: 110 },
  ],
  potLife: [
    { c: 10, minutes: 45 },
    { c: 20, minutes: 25 },
    { c: 30, minutes: 13 },
  ],
  potMassG: 500,
  exotherm: 'low',
  expectedRiseK: 6,
  batch: { resin: 'R-1204', hardener: 'H-0877', expires: '2027-05-31' },
});

const transducer = (names: DemoNames): SensorDocument => ({
  ...blankSensor(names.transducer, 'T-2207'),
  deviceId: DEMO_DEVICE,
  channel: 0,
  accuracy: 0.02,
  calibration: {
    date: '2026-02-11',
    asFound: [
      { indicated: 0.004, reference: 0 },
      { indicated: 1.005, reference: 1 },
      { indicated: 2.007, reference: 2 },
      { indicated: 3.006, reference: 3 },
      { indicated: 4.009, reference: 4 },
    ],
    asLeft: [
      { indicated: 0.001, reference: 0 },
      { indicated: 1.002, reference: 1 },
      { indicated: 2.001, reference: 2 },
      { indicated: 2.999, reference: 3 },
      { indicated: 4.0, reference: 4 },
    ],
    uReference: 0.002,
    reference: names.reference,
    by: 'A.B.',
  },
});

const probe = (name: string, serial: string, channel: number): SensorDocument => ({
  ...blankSensor(name, serial),
  quantity: 'temperature',
  deviceId: DEMO_DEVICE,
  channel,
  signal: 'thermocouple',
  thermocouple: 'K',
  thermocoupleClass: 1,
  gaugeKind: null,
  range: { lo: -40, hi: 200 },
  span: null,
});

/** On the morning of the practice job. */
const CHECKED_UTC_MS = Date.UTC(2026, 3, 14, 7, 20);

const job = (names: DemoNames): JobDocument => ({
  ...blankJob(names.title),
  date: '2026-04-14',
  site: names.site,
  client: names.client,
  reference: 'P-001',
  crew: 'A.B., C.D.',
  defect: { kind: 'crack', chainageM: 12.4, lengthMm: 350, infiltration: 'not-looked' },
  pipe: { dn: 150, innerMm: 150, wallMm: 18, material: 'clay' },
  ground: { waterM: 1.2, temperatureC: 10, uC: 2 },
  packerId: DEMO_IDS.packer,
  resin: { resinId: DEMO_IDS.resin, resinBatch: 'R-1204', hardenerBatch: 'H-0877', mixC: 16, cupMassG: null },
  heating: { by: 'none', toC: null },
  device: {
    deviceId: DEMO_DEVICE,
    channels: [
      { channel: 0, role: 'pressure', place: null, sensorId: DEMO_IDS.transducer },
      { channel: 1, role: 'temperature', place: 'sleeve', sensorId: DEMO_IDS.sleeveProbe },
      { channel: 2, role: 'temperature', place: 'air', sensorId: DEMO_IDS.airProbe },
      { channel: 3, role: 'temperature', place: 'pipe', sensorId: DEMO_IDS.pipeProbe },
      { channel: 4, role: 'junction', place: null, sensorId: null },
    ],
    rateHz: 20,
  },
  tap: 'hose',
  line: 'closed',
  wetness: 'dry',
  packersOnLine: 'one',
  otherRatedBar: null,
  pressures: { workingBar: 1.5, seatBar: 0.6, seatingMarginBar: 0.2, noMarginReason: null, reliefBar: 1.8 },
  hose: { lengthM: 20, innerMm: 8 },
  air: { source: 'altitude', altitudeM: 240 },
  sleeve: {
    endOverlapMm: 150,
    lapMm: 50,
    layers: 2,
    layerMm: 1.5,
    fabricGM2: 1050,
    resinRatio: 1.6,
    wastePercent: 10,
  },
  airTest: { method: 'LC', lengthM: 20 },
  handlingMin: 18,
  answers: CHECKS.filter((c) => BUILT_IN[c].at !== 'after').map((item, i) => ({
    item,
    how: 'done',
    text: '',
    atUtcMs: CHECKED_UTC_MS + i * 40_000,
    by: 'A.B.',
  })),
  cautions: [
    'stored-energy',
    'not-a-safety-device',
    'hose-whip',
    'no-warning',
    'resin-hazard',
    'confined-space',
  ],
  notes: names.notes,
});

export function demoBundle(names: DemoNames): JobBundle {
  return {
    jobId: DEMO_IDS.job,
    job: job(names),
    packer: { id: DEMO_IDS.packer, document: packer(names) },
    resin: { id: DEMO_IDS.resin, document: resin(names) },
    sensors: [
      { id: DEMO_IDS.transducer, document: transducer(names) },
      { id: DEMO_IDS.sleeveProbe, document: probe(names.sleeveProbe, 'K-01', 1) },
      { id: DEMO_IDS.airProbe, document: probe(names.airProbe, 'K-02', 2) },
      { id: DEMO_IDS.pipeProbe, document: probe(names.pipeProbe, 'K-03', 3) },
    ],
  };
}
