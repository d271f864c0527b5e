import type { RunDetail } from '../../engine/messages.ts';
import type { ArchiveEntry, Debrief, Numbers, RecordView, Sketch } from '../../evidence/messages.ts';
import type { Setup } from '../../job/setup.ts';
import { benchRecord } from '../../job/testing/bench-record.ts';
import { CHECKS } from '../../practice/codes.ts';
import { type Account, OPEN_POINTS } from '../../record/account.ts';
import { ALARMS, STANDINGS, type Stage } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { AlarmView, WatchView } from '../../watch/view.ts';
import { DEMO } from '../../words/testing/demo.ts';

/** A tablet full of things to be told about, so that every page says what it can say. Texts that people typed are marked. */

/** What people typed: no words of the catalogue, and none of another language's. */
export const TYPED = ['TYPED', 'A.B.'] as const;
const at = (value: number) => ({ value, low: value * 0.9, high: value * 1.1 });
export const RUN = 'run-0001';
export const KEY = 'ab'.repeat(32);
export const DATA: readonly string[] = [
  ...TYPED,
  RUN,
  KEY,
  Array(16).fill('ABAB').join(' '),
  'RIG-0001',
  'rig 1',
  'PP-017',
  'R-1204',
  'H-0877',
  'T-2207',
  'job.steadybar.zip',
  'Steadybar 0.1.0',
];

const named = <T extends { readonly name: string }>(document: T): T => ({ ...document, name: TYPED[0] });
export const DOCUMENTS: Readonly<Record<string, Readonly<Record<string, unknown>>>> = {
  job: {
    [DEMO.jobId]: {
      ...DEMO.job,
      title: TYPED[0],
      site: TYPED[0],
      client: TYPED[0],
      reference: TYPED[0],
      crew: TYPED[1],
      notes: TYPED[0],
      checks: [],
      pressures: { ...DEMO.job.pressures, workingBar: 2.4 },
    },
  },
  bench: {
    'bench-1': benchRecord({
      deviceId: 'RIG-0001',
      firmware: 'rig 1',
      by: TYPED[1],
      notes: TYPED[0],
      origin: 'file',
      practice: true,
    }),
  },
  packer: {
    [DEMO.packer!.id]: {
      ...named(DEMO.packer!.document),
      conditions: [
        {
          date: '2026-04-01',
          what: 'cycle',
          peakBar: 1.5,
          leakMbarPerMin: 0.4,
          minutes: 90,
          by: 'A.B.',
          note: '',
          runId: RUN,
        },
        {
          date: '2026-04-02',
          what: 'damage',
          peakBar: null,
          leakMbarPerMin: null,
          minutes: null,
          by: 'A.B.',
          note: TYPED[0],
        },
      ],
    },
  },
  resin: { [DEMO.resin!.id]: named(DEMO.resin!.document) },
  sensor: Object.fromEntries(
    DEMO.sensors.map((s) => [
      s.id,
      {
        ...named(s.document),
        calibration:
          s.document.calibration === null ? null : { ...s.document.calibration, reference: TYPED[0] },
      },
    ]),
  ),
};

const limits = {
  ratedBar: 1.8,
  ceilingBar: 1.78,
  workingBar: 1.5,
  floorBar: 0.7,
  seatBar: 0.6,
  uBar: 0.02,
  cue: true,
  headBar: 0.1,
  freeInflationBar: 0.4,
  seatingMarginBar: 0.2,
  noMargin: null,
};
export const SETUP = {
  number: 1,
  limits,
  resin: { points: [{ c: 10, minutes: 240 }], lowestC: null, potLifeMin: 30 },
  ground: { c: 12, uC: 1 },
  channels: [],
} as unknown as Setup;
export const summary = {
  runId: RUN,
  jobId: DEMO.jobId,
  title: TYPED[0],
  practice: false,
  openedUtcMs: 1e12,
  endedUtcMs: 1e12 + 1e6,
  state: 'interrupted',
  seconds: 4000,
  readings: 123_456,
  peakBar: 1.52,
  gaps: 2,
  alarms: 1,
  bytes: 5e6,
  sealedUtcMs: 1e12,
} as const;

const alarms = ALARMS.map(
  (alarm, i): AlarmView => ({
    alarm,
    priority: i < 3 ? 'urgent' : i < 9 ? 'high' : 'low',
    state: (['unacknowledged', 'acknowledged', 'returned', 'shelved'] as const)[i % 4]!,
    occurrence: 1,
    sinceUs: 1e6,
    begunUs: 1e6,
    shelvable: true,
    values: { bar: 1.5, ceilingBar: 1.46, inS: 12, place: 'sleeve', cause: 'port' },
  }),
);

export function watchView(stage: Stage, more: Partial<WatchView> = {}): WatchView {
  return {
    tUs: 9e7,
    firstUs: 0,
    bar: 1.5,
    ageS: 0.1,
    overBar: null,
    stale: false,
    uBar: 0.015,
    flags: 0,
    temps: [
      { channel: 1, place: 'sleeve', c: 12.5, uC: 0.5, flags: 0 },
      { channel: 2, place: null, c: null, uC: 0.5, flags: 0 },
    ],
    setup: 1,
    limits,
    tap: 'hose',
    line: 'closed',
    standing: STANDINGS,
    stage,
    attempt: 2,
    stageSinceUs: 0,
    guard: {
      restBar: at(1.2),
      rateBarPerS: 0.01,
      settleBar: at(1.4),
      ceilingInS: at(30),
      closeInS: at(12),
      tooFast: stage === 'inflate' ? { lateBar: 0.25, rateBarPerS: 0.7, mostBarPerS: 0.38 } : null,
    },
    hold: {
      sinceS: 100,
      minutesInBand: 5.5,
      minBar: 1.3,
      maxBar: 1.5,
      still: true,
      leak: { verdict: 'leaking', mbarPerMin: 2, low: 1.5, high: 2.5, paM3PerS: null, reason: null },
      bandExit: { direction: 'down', inS: at(5000) },
      lift: { peakBar: at(1.6), ceilingInS: at(900), adviceLowBar: null, adviceHighBar: 1.3 },
    },
    cure: {
      sinceS: 100,
      progress: 0.4,
      low: 0.3,
      high: 0.5,
      equivalentAgeMin: 30,
      coldest: at(9),
      source: 'air-model',
      metInS: at(3000),
      metAtS: null,
      exotherm: { peakInS: at(600), peakC: at(40) },
    },
    alarms,
    airNotWanted: null,
    fillStands: false,
    ventOpen: false,
    question: 'let-down-or-loss',
    rebound: { sinceUs: 8.5e7, needS: 30, startBar: 0 },
    supply: null,
    airTest: null,
    second: null,
    cup: null,
    mixedUs: 1e6,
    potLifeLeftS: 700,
    peakBar: 1.55,
    ...more,
  };
}

const numbers: Numbers = {
  holdS: 3600,
  inBandS: 3500,
  floorKnown: false,
  lowestHoldBar: 1.3,
  highestHoldBar: 1.5,
  leak: {
    verdict: 'cannot-tell',
    mbarPerMin: null,
    low: null,
    high: null,
    paM3PerS: null,
    reason: 'settling',
  },
  peakBar: 1.5,
  cureMetS: 3000,
  coldest: { c: 9, source: 'pipe' },
  gaps: 2,
  gapS: 30,
  alarms: { urgent: 1, high: 2, low: 3 },
  heldFromS: 600,
  overrides: 2,
};

const account: Account = {
  overRated: { byBar: 0.8, forS: 26 },
  atCeiling: true,
  cure: { state: 'met', afterS: 2400 },
  supply: null,
  gauge: { gaugeBar: 0.4, readingBar: 0.41, agrees: true },
  witness: { hard: true, atPipeTemperature: true, atS: 3900 },
  underFloor: { spans: [{ fromS: 900, toS: 1320 }], when: 'before-cure' },
  outsideS: 100,
  open: OPEN_POINTS,
};
const limited = { ratedBar: 1.8, ceilingBar: 1.78, floorBar: 0.7 };
export const sketch: Sketch = {
  course: { fromS: 0, toS: 4000, s: [0, 2000, 4000], min: [0, 1.4, 0], max: [0, 1.5, 0] },
  limits: limited,
  numbers,
  account,
};

export const detail = (events: readonly WatchEvent[]): RunDetail => ({
  summary,
  firstS: 0,
  lastS: 4000,
  setups: [SETUP],
  firstUs: 0,
  utcMs: 1e12,
  events,
  hello: { deviceId: 'RIG-0001', firmware: 'rig 1' } as RunDetail['hello'],
  channels: [],
  map: null,
  damage: (['crc', 'torn', 'missing'] as const).flatMap((what, page) => [
    { page, what, fromS: null },
    { page, what, fromS: 12 },
  ]),
});

export const status = { status: 'rejected', reason: TYPED[0], by: 'A.B.', utcMs: 1e12 } as const;
export const record = (events: readonly WatchEvent[]): RecordView => ({
  ref: { kind: 'run', runId: RUN },
  detail: detail(events),
  sealed: {
    sealedUtcMs: 1e12,
    sealedBy: 'Steadybar 0.1.0',
    fingerprint: KEY,
    signer: '',
    own: true,
    previous: { reason: 'lost' } as never,
    manifestSha256: KEY,
    enclosed: null,
    additions: (['correction', 'note', 'status'] as const).map(
      (kind) => ({ kind, utcMs: 1e12, body: { text: TYPED[0], by: 'A.B.' }, signedBy: null }) as never,
    ),
  },
  verdict: 'valid',
  numbers,
  account,
});
export const entry: ArchiveEntry = {
  ...summary,
  cure: null,
  ceiling: null,
  ref: { kind: 'run', runId: RUN },
  site: TYPED[0],
  client: TYPED[0],
  packer: TYPED[0],
  crew: 'A.B.',
  practice: true,
  sealed: { utcMs: 1e12, fingerprint: KEY, signer: null },
  imported: { utcMs: 1e12, name: 'job.steadybar.zip' },
  status,
};

const done = (s: number, name: string, value: number | null) => ({ s, atS: s, name, value });
export const debrief: Debrief = {
  drill: 'drill-stuck-open',
  site: 'drill-stuck-open',
  seed: 1,
  trainee: TYPED[0],
  outcome: 'not-met',
  checks: CHECKS.map((check, i) => ({ check, ok: i % 2 === 0, value: 1.5, limit: 1.8 })),
  lastS: 90,
  faultS: 40,
  faults: [done(40, 'stuck-open', null)],
  hands: [
    done(20, 'valve', 1),
    done(44, 'valve', 0),
    done(45, 'vent', 1),
    done(46, 'vent', 0),
    done(47, 'regulator', 1.2),
    ...['couple', 'end', 'warm'].flatMap((name, i) => [done(50 + i, name, 1), done(60 + i, name, 0)]),
  ],
  signs: [
    { s: 41, by: 'instrument', alarm: 'rising', priority: 'urgent' },
    ...(['hose-blows', 'burst', 'relief-blows'] as const).map(
      (sensed) => ({ s: 42, by: 'ear', sensed }) as const,
    ),
  ],
  firstSign: { s: 41, by: 'instrument', alarm: 'rising', priority: 'urgent' },
  actionS: 44,
  peakBar: 2.1,
  ratedBar: 1.8,
  could: { shutS: 44, peakBar: 1.7 },
  packer: [
    { s: 0, bar: 0 },
    { s: 45, bar: 2.1 },
  ],
};
