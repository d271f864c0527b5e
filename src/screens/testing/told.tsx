import type { JSX } from 'solid-js';
import { createSignal } from 'solid-js';
import { render } from 'solid-js/web';
import type { LinkView, Request, RigView, RunDetail, RunView } from '../../engine/messages.ts';
import type { ArchiveEntry, EvidenceRequest, Numbers, RecordView, Sketch } from '../../evidence/messages.ts';
import { defaultSettings } from '../../job/settings-defaults.ts';
import type { Setup } from '../../job/setup.ts';
import type { Wording } from '../../job/wording.ts';
import { type Account, OPEN_POINTS } from '../../record/account.ts';
import { ALARMS, STANDINGS, type Stage } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { AlarmView, WatchView } from '../../watch/view.ts';
import { LiveBuffer } from '../../widgets/live-buffer.ts';
import { METRIC } from '../../words/create-format.ts';
import { DEMO } from '../../words/testing/demo.ts';
import type { Services } from '../context.ts';

/** A tablet full of things to be told about, so that every page says what it can say. Texts that people typed are marked. */

/** What people typed: no words of the catalogue, and none of another language's. */
export const TYPED = ['TYPED', 'A.B.'] as const;
const at = (value: number) => ({ value, low: value * 0.9, high: value * 1.1 });
const RUN = 'run-0001';
const KEY = 'ab'.repeat(32);
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
const DOCUMENTS: Readonly<Record<string, Readonly<Record<string, unknown>>>> = {
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
const SETUP = { number: 1, limits, resin: {}, channels: [] } as unknown as Setup;
const summary = {
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
    question: 'let-down-or-loss',
    rebound: { sinceUs: 8.5e7, needS: 30, startBar: 0 },
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
  coldest: { c: 9, place: 'pipe' },
  gaps: 2,
  gapS: 30,
  alarms: { urgent: 1, high: 2, low: 3 },
};

const account: Account = {
  overRated: { byBar: 0.8, forS: 26 },
  atCeiling: true,
  cure: { state: 'met', afterS: 2400 },
  gauge: { gaugeBar: 0.4, readingBar: 0.41, agrees: true },
  witness: { hard: true, atPipeTemperature: true, atS: 3900 },
  outsideS: 100,
  open: OPEN_POINTS,
};
const limited = { ratedBar: 1.8, ceilingBar: 1.78, floorBar: 0.7 };
const sketch: Sketch = {
  course: { fromS: 0, toS: 4000, s: [0, 2000, 4000], min: [0, 1.4, 0], max: [0, 1.5, 0] },
  limits: limited,
  numbers,
  account,
};

const detail = (events: readonly WatchEvent[]): RunDetail => ({
  summary,
  firstS: 0,
  lastS: 4000,
  setups: [SETUP],
  firstUs: 0,
  utcMs: 1e12,
  events,
  hello: { deviceId: 'RIG-0001', firmware: 'rig 1' } as RunDetail['hello'],
  channels: [],
  damage: (['crc', 'torn', 'missing'] as const).flatMap((what, page) => [
    { page, what, fromS: null },
    { page, what, fromS: 12 },
  ]),
});

const status = { status: 'rejected', reason: TYPED[0], by: 'A.B.', utcMs: 1e12 } as const;
const record = (events: readonly WatchEvent[]): RecordView => ({
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
    additions: (['correction', 'note', 'status'] as const).map(
      (kind) => ({ kind, utcMs: 1e12, body: { text: TYPED[0], by: 'A.B.' }, signedBy: null }) as never,
    ),
  },
  verdict: 'valid',
  numbers,
  account,
});
const entry: ArchiveEntry = {
  ...summary,
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

/** The services of a tablet with runs, papers, keys and a device at work. */
export function services(
  wording: Wording,
  options: { readonly view?: WatchView | null; readonly events?: readonly WatchEvent[] } = {},
): Services {
  const events = options.events ?? [];
  const stored = (kind: string, id: string) => ({
    kind,
    id,
    revision: 1,
    savedUtcMs: 1e12,
    body: DOCUMENTS[kind]?.[id],
  });
  const answer = (request: Request): unknown => {
    switch (request.q) {
      case 'documents':
        return Object.keys(DOCUMENTS[request.kind] ?? {}).map((id) => stored(request.kind, id));
      case 'document':
        return DOCUMENTS[request.kind]?.[request.id] === undefined ? null : stored(request.kind, request.id);
      case 'runs':
        return [summary, { ...summary, practice: true, state: 'open' }];
      case 'storage':
        return { persisted: false, roomBytes: 5e9, faults: { files: 'silent', documents: 'silent' } };
      default:
        return null;
    }
  };
  const evidence = (request: EvidenceRequest): unknown => {
    switch (request.q) {
      case 'archive':
        return [entry, { ...entry, ref: { kind: 'run', runId: 'run-0002' }, practice: false }];
      case 'record':
        return record(events);
      case 'statuses':
        return [status, status];
      case 'sketch':
        return sketch;
      case 'key': {
        const line = {
          fingerprint: KEY,
          sinceUtcMs: 1e12,
          previous: { reason: 'changed', fingerprint: KEY },
        };
        return { state: 'ready', key: line, history: [line, line] };
      }
      case 'signers':
        return [
          {
            fingerprint: KEY,
            name: TYPED[0],
            addedUtcMs: 1e12,
            term: { fromUtcMs: 1e12, untilUtcMs: 2e12, revokedUtcMs: 2e12 },
            replacedBy: KEY,
          },
        ];
      case 'office':
        return {
          folder: { name: TYPED[0], handle: {} },
          permission: 'granted',
          waiting: [null, 'full', 'busy'].map((fault) => ({ runId: RUN, sinceUtcMs: 1e12, fault })),
        };
      default:
        return null;
    }
  };
  const link = {
    state: 'streaming',
    error: 'port-busy',
    kind: 'rig',
    hello: null,
    channels: [],
    deviceGuard: { state: 'armed', limitMbar: 1780, sounder: 1 },
    rateHz: 20,
  } as unknown as LinkView;
  const run: RunView = {
    runId: RUN,
    jobId: DEMO.jobId,
    practice: true,
    resumed: true,
    savedUs: 8e7,
    bytes: 5e5,
    storeFault: null,
  };
  const rig: RigView = {
    truePackerBar: 1.4,
    trueLineBar: 1.4,
    valveOpen: 0.5,
    ventOpen: true,
    regulatorBar: 2,
    coupled: true,
    simulatedS: 10,
    speed: 1,
  };
  return {
    ask: async (request: Request) => answer(request),
    evidence: async (request: EvidenceRequest) => evidence(request),
    runs: { detail: async () => detail(events) },
    live: {
      view: createSignal(options.view ?? null)[0],
      link: createSignal(link)[0],
      run: createSignal(run)[0],
      rig: createSignal(rig)[0],
      events: createSignal(events)[0],
      stages: createSignal([])[0],
      silent: createSignal(false)[0],
      nowS: createSignal(90)[0],
      version: createSignal(0)[0],
      buffer: new LiveBuffer(),
      setup: createSignal(SETUP)[0],
      setSetup: () => undefined,
    },
    route: () => ({ page: 'jobs' }),
    go: () => undefined,
    settings: defaultSettings,
    saveSettings: async () => undefined,
    units: () => METRIC,
    wording,
    theme: () => 'light',
    openRuns: () => [summary],
    sensorRuns: () => [
      {
        runId: RUN,
        title: TYPED[0],
        practice: false,
        utcMs: 1e12,
        checks: [{ what: 'zero', serial: 'T-2207', channel: 0, off: 0.09, agrees: false }],
      },
    ],
    serial: { supported: true, choose: async () => null },
    sound: {
      state: () => 'not-heard',
      play: () => undefined,
      test: () => null,
      answer: () => undefined,
      speech: () => 'no-voice',
      vibrates: false,
    },
    soundBlocked: () => 'not-heard',
    awake: () => false,
    nowMs: () => 1e12,
    say: () => undefined,
    fail: () => undefined,
  } as unknown as Services;
}

/** Draws a page into the document; the answer takes it away. */
export async function draw(app: Services, page: () => JSX.Element): Promise<() => void> {
  // Loaded late: it takes words, and these are the ones that the test has chosen.
  const { ServicesContext } = await import('../context.ts');
  const host = document.createElement('div');
  document.body.append(host);
  const end = render(() => <ServicesContext.Provider value={app}>{page()}</ServicesContext.Provider>, host);
  return () => {
    end();
    host.remove();
  };
}

/** Everything that the document tells, on the screen and to a screen reader. */
export function told(): readonly string[] {
  const out: string[] = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  // What is quoted as it stands (the licences of libraries) is no word of the page's.
  while (walk.nextNode())
    if (walk.currentNode.parentElement?.closest('[translate="no"]') === null)
      out.push(walk.currentNode.nodeValue ?? '');
  for (const name of ['aria-label', 'aria-valuetext', 'title', 'placeholder', 'alt', 'label'])
    for (const element of document.querySelectorAll(`[${name}]`)) out.push(element.getAttribute(name) ?? '');
  return out.filter((t) => t.trim() !== '');
}
