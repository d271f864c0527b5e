/** An engine and an evidence worker over the same stores in Node: runs are recorded, then sealed and looked into. */

import type { RigControl } from '../../engine/deps.ts';
import type { RigHand } from '../../engine/messages.ts';
import { openRig } from '../../engine/rig-feed.ts';
import { createHostBench, createTestLocks, practiceSetup } from '../../engine/testing/bench.ts';
import type { CuredBy } from '../../job/codes.ts';
import type { Limits, ResinSetup, Setup } from '../../job/setup.ts';
import { createRecordCrypto } from '../../record/signing.ts';
import { createMemoryDocuments } from '../../record/stores/memory-documents.ts';
import { createMemoryStore } from '../../record/stores/testing/memory.ts';
import { loadCatalogue } from '../../words/catalogue.ts';
import { DEMO } from '../../words/testing/demo.ts';
import type { EvidenceDeps } from '../deps.ts';
import { createEvidenceHost } from '../host.ts';
import type { EvidenceAnswers, EvidenceRequest, FromEvidence } from '../messages.ts';

export const JOB_ID = 'job-1';

/** A resin that is hard before a test has to wait for it. */
const QUICK: ResinSetup = {
  name: 'Quick resin of the test',
  criterion: 'let-down',
  points: [
    { c: 5, minutes: 3 },
    { c: 25, minutes: 1 },
  ],
  lowestC: 0,
  potLifeMin: null,
  exotherm: 'low',
  expectedRiseK: null,
};

/** What the practice site's sensor leaves, as a plan has it: its reading is sure to so much at the rated pressure. */
const SURE = { uBar: 0.05, ceilingBar: 1.75 } as const satisfies Partial<Limits>;

export function createOffice(
  more: Partial<Pick<EvidenceDeps, 'handles' | 'catalogueOf' | 'software' | 'reduce'>> = {},
) {
  const files = createMemoryStore();
  const documents = createMemoryDocuments();
  const locks = createTestLocks();
  // The simulated site behind a port that the engine takes for a real line: off a rig nothing is ever sealed.
  let site: RigControl | null = null;
  const bench = createHostBench({
    files,
    documents,
    locks,
    ...(more.software === undefined ? {} : { software: more.software }),
    async openPort(choice, timers) {
      const rig =
        choice.kind === 'rig' ? choice.options : ({ scenario: 'practice', seed: 11, speed: 1 } as const);
      const opened = openRig(rig, timers);
      site = opened.rig;
      return choice.kind === 'rig' ? opened : { ...opened, rig: null };
    },
  });
  const hand = (does: RigHand): void => site?.hand(does);
  const posted: FromEvidence[] = [];
  const { subtle } = globalThis.crypto;
  const host = createEvidenceHost({
    utcMs: () => bench.wall.ms + bench.timers.nowUs() / 1000,
    pause: async () => undefined,
    files,
    documents,
    locks,
    subtle,
    crypto: createRecordCrypto(subtle),
    post: (message) => posted.push(message),
    software: 'test 1',
    catalogueOf: loadCatalogue,
    ...more,
  });
  let id = 0;

  async function ask<R extends EvidenceRequest>(request: R): Promise<EvidenceAnswers[R['q']]> {
    const mine = ++id;
    host.receive({ id: mine, request });
    for (;;) {
      const answer = posted.find((m) => m.m === 'answer' && m.id === mine);
      if (answer?.m === 'answer') {
        if (answer.ok) return answer.value as EvidenceAnswers[R['q']];
        throw Object.assign(new Error(answer.detail), { code: answer.code });
      }
      await new Promise((resolve) => setTimeout(resolve, 1));
    }
  }

  /** The demo's papers as documents of this tablet, under other names, with the resin of the runs. */
  async function keepJob(changes: Partial<typeof DEMO.job> = {}): Promise<void> {
    const put = (kind: 'job' | 'packer' | 'resin' | 'sensor', docId: string, body: unknown) =>
      documents.put({ kind, id: docId, revision: 0, savedUtcMs: 1, body });
    await put('job', JOB_ID, { ...DEMO.job, title: 'Crack at 12.4 m', ...changes });
    if (DEMO.packer !== null) await put('packer', DEMO.packer.id, DEMO.packer.document);
    if (DEMO.resin !== null)
      await put('resin', DEMO.resin.id, {
        ...DEMO.resin.document,
        name: QUICK.name,
        curedBy: 'time',
        countsFrom: 'unstated',
        criterion: QUICK.criterion,
        curePoints: QUICK.points,
        lowestC: QUICK.lowestC,
        exotherm: QUICK.exotherm,
        expectedRiseK: QUICK.expectedRiseK,
      });
    // The run's channels are the device's own suggestion: the sensors' papers say nothing else.
    for (const s of DEMO.sensors)
      await put('sensor', s.id, { ...s.document, accuracy: null, perKelvin: null });
  }

  /** A run on the simulated site, as a real line unless it is a practice. */
  async function record(
    options: {
      readonly practice?: boolean;
      readonly holdS?: number;
      readonly end?: boolean;
      readonly limits?: Partial<Limits>;
      /** What else differs in the run's Setup. */
      readonly setup?: Partial<Setup>;
      readonly curedBy?: CuredBy;
      /** What goes on in the middle of the hold. */
      readonly during?: (bench: ReturnType<typeof createHostBench>, site: RigControl) => Promise<void>;
    } = {},
  ): Promise<string> {
    const practice = options.practice ?? false;
    if (practice) await bench.connectRig('practice', 11);
    else
      await bench.ask({
        q: 'connect',
        port: { kind: 'serial', index: 0, usbVendorId: null, usbProductId: null },
      });
    await bench.run(2000);
    const { channels } = bench.moment().link;
    const base = practiceSetup({ rateHz: 20, practice }, channels);
    const setup = {
      ...base,
      ...options.setup,
      limits: base.limits === null ? null : { ...base.limits, ...SURE, ...options.limits },
      resin: {
        ...QUICK,
        ...(options.curedBy === undefined ? {} : { curedBy: options.curedBy }),
      },
    };
    const { runId } = await bench.ask({
      q: 'open-run',
      jobId: JOB_ID,
      title: 'Crack at 12.4 m',
      practice,
      setup,
    });
    await bench.run(2000);
    const command = (c: Parameters<typeof bench.ask>[0] & { q: 'command' }) => bench.ask(c);
    await command({ q: 'command', command: { c: 'zero' } });
    await command({ q: 'command', command: { c: 'mixed' } });
    await command({ q: 'command', command: { c: 'stage', to: 'inflate' } });
    hand({ hand: 'valve', open: 1 });
    await bench.run(60_000);
    hand({ hand: 'valve', open: 0 });
    await bench.run(2000);
    await command({ q: 'command', command: { c: 'stage', to: 'hold' } });
    if (site !== null) await options.during?.(bench, site);
    await bench.run((options.holdS ?? 60) * 1000);
    await command({ q: 'command', command: { c: 'note', text: '<b>hose & "clamp"</b>' } });
    await command({ q: 'command', command: { c: 'witness', hard: true, atPipeTemperature: true } });
    await command({ q: 'command', command: { c: 'stage', to: 'let-down' } });
    hand({ hand: 'vent', open: true });
    await bench.run(30_000);
    await command({ q: 'command', command: { c: 'stage', to: 'done' } });
    if (options.end ?? true) await bench.ask({ q: 'end-run' });
    await bench.ask({ q: 'disconnect' });
    return runId;
  }

  return { bench, files, documents, locks, ask, keepJob, record };
}
