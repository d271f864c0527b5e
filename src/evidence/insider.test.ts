import { beforeAll, describe, expect, it } from 'vitest';
import { fileOf } from '../engine/run-list.ts';
import type { JobBundle } from '../job/bundle.ts';
import type { ChannelSetup, Setup } from '../job/setup.ts';
import type { LogEntry } from '../record/log.ts';
import { reservationsOf } from '../record/reservations.ts';
import { newSigner } from '../record/testing/sealing.ts';
import type { Verification } from '../record/verify.ts';
import { CHECK_TEXT } from '../words/en/check-text.ts';
import { papersOf } from './papers.ts';
import { createInsider, type Forgery } from './testing/insider.ts';
import { createOffice, JOB_ID } from './testing/office.ts';

// Lies of somebody who has a key that is known, and has every judgement made to follow: none may be valid without a word.

let insider: ReturnType<typeof createInsider>;
let papers: JobBundle;
beforeAll(async () => {
  const office = createOffice();
  await office.keepJob();
  const runId = await office.record({ holdS: 20 });
  papers = (await papersOf(office.documents, JOB_ID)) as JobBundle;
  insider = createInsider(await office.files.readAll(fileOf(runId)), await newSigner(), papers);
}, 60_000);

const forged = async (forgery: Forgery): Promise<Verification> =>
  insider.verify(await insider.forge(forgery));

const withSetup =
  (change: (setup: Setup) => Setup) =>
  (entry: LogEntry): readonly LogEntry[] => [
    entry.l === 'setup' ? { ...entry, setup: change(entry.setup) } : entry,
  ];
const onPressure =
  (change: (ch: ChannelSetup) => Partial<ChannelSetup>) =>
  (setup: Setup): Setup => ({
    ...setup,
    channels: setup.channels.map((c) => (c.role === 'pressure' ? { ...c, ...change(c) } : c)),
  });
const isFrame = (entry: LogEntry, t: string): boolean => entry.l === 'frame' && entry.frame.t === t;

describe('an insider', () => {
  it('who changes nothing has a valid record', async () => {
    const v = await forged({});
    expect([v.verdict, v.findings]).toEqual(['valid', []]);
    expect(reservationsOf(v.verdict, v.remarks)).toBeNull();
  });

  it('can’t put one judgement before another: the last word on the witness sample is what counts', async () => {
    const soft: LogEntry = {
      l: 'command',
      tUs: 0,
      command: { c: 'witness', hard: false, atPipeTemperature: false },
    };
    const entry = (e: LogEntry): readonly LogEntry[] =>
      e.l === 'command' && e.command.c === 'witness' ? [e, { ...soft, tUs: e.tUs }] : [e];
    const honest = await forged({ entry });
    expect(honest.verdict).toBe('valid');
    const list = [...honest.manifest!.events];
    const at = list.findIndex((e) => e.e === 'witness');
    list.splice(at, 2, list[at + 1]!, list[at]!);
    const v = await forged({ entry, events: () => list });
    expect([v.verdict, v.findings]).toEqual([
      'changed',
      [{ f: 'judgement', recorded: 0, again: 0, kinds: ['witness'], moved: 2 }],
    ]);
  });

  it('can’t bend a calibration away from its own points', async () => {
    const points = [
      { indicated: 0, reference: 0 },
      { indicated: 4, reference: 4 },
    ];
    const calibration = {
      deviceId: 'RIG-0001',
      channel: 0,
      sensorSerial: 'S-1',
      date: '2026-01-01',
      asFound: points,
      asLeft: [],
      offset: 0,
      gain: 0.95,
      uReference: 0.005,
      uResidual: (0.001 * 4) / Math.sqrt(3),
    };
    const by = (gain: number) => ({
      entry: withSetup(onPressure(() => ({ calibration: { ...calibration, gain } }))),
    });
    expect((await forged(by(0.95))).findings).toEqual([
      { f: 'setup', what: 'calibration', channel: 0, page: 0, tUs: 0 },
    ]);
    expect((await forged(by(1))).findings).toEqual([]);
  });

  it('can’t lay the ceiling over what the reading is sure of', async () => {
    const v = await forged({
      entry: withSetup((s) =>
        s.limits === null ? s : { ...s, limits: { ...s.limits, ceilingBar: s.limits.ratedBar } },
      ),
    });
    expect(v.findings).toEqual([expect.objectContaining({ f: 'setup', what: 'ceiling', channel: null })]);
  });

  it('can’t read by another converter by taking the device’s lines out', async () => {
    for (const gone of [['C'], ['C', 'H']]) {
      const v = await forged({
        entry: (e) =>
          gone.some((t) => isFrame(e, t)) ? [] : withSetup(onPressure((c) => ({ elHi: c.elHi * 0.7 })))(e),
      });
      expect(v.verdict).toBe('changed');
      expect(v.findings).toContainEqual(expect.objectContaining({ f: 'scale', channel: 0 }));
    }
  });

  it('who reads by another span is told by the counts that the device guarded', async () => {
    const v = await forged({ entry: withSetup(onPressure((c) => ({ spanElHi: c.spanElHi * 1.2 }))) });
    expect(v.remarks).toContainEqual(expect.objectContaining({ r: 'device-counts', mbar: 1770 }));
    expect(reservationsOf(v.verdict, v.remarks)?.apart).toEqual(['device']);
    const counts = await forged({
      entry: (e) =>
        e.l === 'frame' && e.frame.t === 'G' && e.frame.limitCounts !== null
          ? [{ ...e, frame: { ...e.frame, limitCounts: Math.round(e.frame.limitCounts * 1.1) } }]
          : [e],
    });
    expect(reservationsOf(counts.verdict, counts.remarks)?.apart).toEqual(['device']);
  });

  it('can’t name a Setup by which the papers are right when all is over', async () => {
    let last: Setup | null = null;
    const v = await forged({
      entry: (e) => {
        if (e.l === 'setup') {
          last = e.setup;
          return withSetup(onPressure((c) => ({ rangeHi: c.rangeHi * 0.7 })))(e);
        }
        const isEnd = e.l === 'notice' && e.notice.n === 'end';
        return isEnd && last !== null ? [{ l: 'setup', tUs: e.tUs, setup: { ...last, number: 99 } }, e] : [e];
      },
    });
    expect(v.remarks).toContainEqual({ r: 'papers-apart', what: ['sensor'] });
  });

  it('who seals papers of another packer, resin, pipe or site is told', async () => {
    const { job, packer, resin } = papers;
    const others: Record<string, JobBundle> = {
      packer: {
        ...papers,
        packer: {
          id: packer!.id,
          document: {
            ...packer!.document,
            ratings: packer!.document.ratings.map((r) => ({ ...r, ratedBar: r.ratedBar + 1 })),
          },
        },
      },
      resin: { ...papers, resin: { id: resin!.id, document: { ...resin!.document, name: 'Another' } } },
      pipe: { ...papers, job: { ...job, pipe: { ...job.pipe, innerMm: 148 } } },
      site: { ...papers, job: { ...job, tap: 'packer' } },
    };
    for (const [what, other] of Object.entries(others)) {
      const v = await forged({ papers: { schema: 'steadybar-job/1', ...other } });
      expect([what, v.remarks.find((r) => r.r === 'papers-apart')]).toEqual([
        what,
        { r: 'papers-apart', what: [what] },
      ]);
      expect(reservationsOf(v.verdict, v.remarks)?.apart).toEqual(['papers']);
    }
  });

  it('can’t hide that a run was drawn out behind hellos of the same start', async () => {
    const hello = insider.entries.filter((e) => isFrame(e, 'H') || isFrame(e, 'C')).slice(0, 6);
    let n = 0;
    const v = await forged({
      entry: (e) => {
        const later = { ...e, tUs: e.tUs * 4 };
        const again = isFrame(e, 'S') && ++n % 200 === 0 ? hello.map((h) => ({ ...h, tUs: later.tUs })) : [];
        return [...again, later];
      },
    });
    expect(v.remarks).toContainEqual(expect.objectContaining({ r: 'clock-apart', what: 'device' }));
  });

  it('who opens a run a month before its pages is told by their clock', async () => {
    const { openedUtcMs } = (await forged({})).manifest!;
    const v = await forged({ head: { utcMs: openedUtcMs! - 30 * 86_400e3 } });
    expect(v.remarks).toContainEqual(expect.objectContaining({ r: 'clock-apart', what: 'pages' }));
  });

  it('can’t leave the certificate out, nor sign one in a language that nobody makes again', async () => {
    const none = await forged({ deriving: { extras: async () => [] } });
    expect([none.verdict, none.findings]).toEqual([
      'incomplete',
      [{ f: 'missing', file: 'certificate.html' }],
    ]);
    const own = { name: 'certificate.html', bytes: new TextEncoder().encode('<h1>Tight</h1>') };
    const strange = await forged({
      manifest: { wording: { language: 'xx', decimal: 'point' } },
      deriving: { words: async () => CHECK_TEXT, extras: async () => [own] },
    });
    expect(strange.verdict).toBe('not-derived');
    expect(reservationsOf(strange.verdict, strange.remarks)?.notMade).toContain('certificate.html');
  });

  it('whose entries break judging has no valid record, and it is not said whose fault that is', async () => {
    const v = await insider.verify(await insider.forge({}), {
      judge: {
        engine: 0,
        events: () => Promise.reject(new Error('never asked')),
      },
    });
    expect([v.verdict, v.remarks[0]]).toEqual(['not-derived', { r: 'not-judged', why: 'engine' }]);
    // Figures past what a number holds: the engine makes none of them that JSON could tell.
    const huge: LogEntry = { l: 'command', tUs: 0, command: { c: 'gauge', bar: 1e308 } };
    const broken = await forged({
      entry: (e) => (isFrame(e, 'G') ? [e, { ...huge, tUs: e.tUs }] : [e]),
      events: (list) => list,
    });
    expect(['changed', 'not-derived']).toContain(broken.verdict);
  });
});
