import { createSignal } from 'solid-js';
import type { LinkView, Request, RigView, RunView } from '../../engine/messages.ts';
import type { EvidenceRequest } from '../../evidence/messages.ts';
import { defaultSettings } from '../../job/settings-defaults.ts';
import type { Wording } from '../../job/wording.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { WatchView } from '../../watch/view.ts';
import { LiveBuffer } from '../../widgets/live-buffer.ts';
import { METRIC } from '../../words/create-format.ts';
import { DEMO } from '../../words/testing/demo.ts';
import type { Services } from '../context.ts';

import {
  DOCUMENTS,
  debrief,
  detail,
  entry,
  KEY,
  RUN,
  record,
  SETUP,
  sketch,
  status,
  summary,
  TYPED,
} from './told-data.ts';

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
      case 'bench-lines':
        return { connection: 1, lines: [], next: 0, missed: 0 };
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
      case 'progress':
        return (['met', 'not-met'] as const).map((outcome) => ({
          runId: RUN,
          drill: 'drill-burst',
          trainee: '',
          outcome,
          utcMs: 1e12,
        }));
      case 'debrief':
        return debrief;
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
      case 'log':
        return {
          origin: TYPED[0],
          leaves: 7,
          checkpoint: TYPED[0],
          short: TYPED[0],
          unsealed: [
            { runId: RUN, title: TYPED[0], openedUtcMs: 1e12, endedUtcMs: 1e12 },
            { runId: null, title: null, openedUtcMs: 1e12, endedUtcMs: null },
          ],
          practice: 1,
          sealedTwice: 1,
          witnesses: [
            { what: 'cosignature', fingerprint: KEY, name: null, size: 1, utcMs: 1e12 },
            { what: 'stamp', fingerprint: null, name: null, size: 7, utcMs: 1e12 },
          ],
          asWitness: KEY,
          seen: [
            {
              origin: TYPED[0],
              size: 3,
              utcMs: 1e12,
              refused: { why: 'shorter', size: 2, utcMs: 1e12 },
            },
          ],
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
    endShut: false,
    sensed: [],
    drill: null,
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
      left: () => [{ runId: RUN, title: TYPED[0], bar: 1.52, utcMs: 1e12, emptied: null }],
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
    reconnecting: () => null,
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
