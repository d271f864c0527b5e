import { beforeAll, describe, expect, it } from 'vitest';
import { fileOf } from '../engine/run-list.ts';
import type { JobBundle } from '../job/bundle.ts';
import type { ChannelSetup, Setup } from '../job/setup.ts';
import type { LogEntry } from '../record/log.ts';
import { reservationsOf } from '../record/reservations.ts';
import { newSigner } from '../record/testing/sealing.ts';
import { unzip } from '../record/testing/zips.ts';
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

const forge = (forgery: Forgery): Promise<Uint8Array> => insider.forge(forgery);
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

  it('can’t call the reading surer than sensor and calibration leave it', async () => {
    const v = await forged({
      entry: withSetup((s) =>
        s.limits === null
          ? s
          : { ...s, limits: { ...s.limits, uBar: 0.01, ceilingBar: s.limits.ratedBar - 0.01 } },
      ),
    });
    expect([v.verdict, v.findings]).toEqual([
      'changed',
      [{ f: 'setup', what: 'uncertainty', channel: null, page: 0, tUs: expect.any(Number) }],
    ]);
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
    expect(v.remarks).toContainEqual(expect.objectContaining({ r: 'device-counts', mbar: 1750 }));
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

  it('who takes what the sheet’s time counts from, or that it cures by light, out of the Setup is told', async () => {
    const { resin } = papers;
    for (const [own, sheet] of [
      [{ countsFrom: 'mixing' as const }, 'unstated' as const],
      [{}, 'placing' as const],
      [{ curedBy: 'light' as const }, 'unstated' as const],
    ] as const) {
      const v = await forged({
        entry: withSetup((s) => (s.resin === null ? s : { ...s, resin: { ...s.resin, ...own } })),
        papers: {
          schema: 'steadybar-job/1',
          ...papers,
          resin: { id: resin!.id, document: { ...resin!.document, countsFrom: sheet } },
        },
      });
      expect(v.remarks, sheet).toContainEqual({ r: 'papers-apart', what: ['resin'] });
    }
  });

  it('who gives a sensor another uncertainty than its paper has is told', async () => {
    const by = (document: object) =>
      forged({
        papers: {
          schema: 'steadybar-job/1',
          ...papers,
          sensors: papers.sensors.map((s) => ({ ...s, document: { ...s.document, ...document } })),
        },
      });
    for (const document of [{ accuracy: 0.5 }, { perKelvin: 0.3 }])
      expect((await by(document)).remarks).toContainEqual({ r: 'papers-apart', what: ['sensor'] });
  });

  it('can’t give a probe another offset than its comparison has', async () => {
    const at = (offset: number) => ({
      deviceId: 'RIG-0001',
      channel: 2,
      sensorSerial: 'T-1',
      date: '2026-01-01',
      asFound: [{ indicated: 10, reference: 10.5 }],
      asLeft: [],
      offset,
      gain: 1,
      uReference: 0.1,
      uResidual: 0.1,
    });
    const by = (offset: number) => ({
      entry: withSetup((s) => {
        const first = s.channels.findIndex((c) => c.role === 'temperature');
        return {
          ...s,
          channels: s.channels.map((c, i) => (i === first ? { ...c, calibration: at(offset) } : c)),
        };
      }),
    });
    const v = await forged(by(8));
    expect(v.findings).toContainEqual(expect.objectContaining({ f: 'setup', what: 'calibration' }));
  });

  it('can’t write another uncertainty into trace.csv, and is told of one in trace.parquet', async () => {
    const file = await forge({});
    const members = (await unzip(file)).members.map((m) => ({ ...m, bytes: m.bytes.slice() }));
    const csv = members.find((m) => m.name === 'trace.csv')!;
    const text = new TextDecoder().decode(csv.bytes);
    const column = text.split('\r\n')[0]!.split(',').indexOf('pressure_u_bar');
    const lines = text.split('\r\n').map((line, i) => {
      const fields = line.split(',');
      if (i > 0 && fields[column] !== undefined && fields[column] !== '') fields[column] = '0.001';
      return fields.join(',');
    });
    csv.bytes = new TextEncoder().encode(lines.join('\r\n'));
    const v = await insider.verify(await insider.summedAnew(members));
    expect([v.verdict, v.findings]).toEqual([
      'changed',
      [{ f: 'file', file: 'trace.csv', offset: expect.any(Number) }],
    ]);
    const parquet = (await unzip(file)).members.map((m) => ({ ...m, bytes: m.bytes.slice() }));
    const there = parquet.find((m) => m.name === 'trace.parquet')!;
    there.bytes[there.bytes.length >> 1]! ^= 1;
    const w = await insider.verify(await insider.summedAnew(parquet));
    expect(reservationsOf(w.verdict, w.remarks)?.otherwise).toEqual(['trace.parquet']);
  });

  it('who cuts three seconds out of a run is told, whichever of the clocks he forges with it', async () => {
    const isSample = (e: LogEntry) => e.l === 'frame' && e.frame.t === 'S';
    const times = insider.entries.filter(isSample).map((e) => e.tUs);
    const fromUs = times[Math.floor(times.length / 2)]!;
    const isCut = (e: LogEntry) => isSample(e) && e.tUs >= fromUs && e.tUs < fromUs + 3e6;
    const bare = await forged({ entry: (e) => (isCut(e) ? [] : [e]) });
    expect(bare.verdict).toBe('valid');
    expect(bare.remarks).toContainEqual(expect.objectContaining({ r: 'gaps', count: 1 }));
    // The numbers closed up: the device's clock still tells.
    let gone = 0;
    const numbered = await forged({
      entry: (e) => {
        if (isCut(e)) {
          gone++;
          return [];
        }
        return isSample(e) && e.l === 'frame' && e.frame.t === 'S'
          ? [{ ...e, frame: { ...e.frame, seq: e.frame.seq - gone } }]
          : [e];
      },
    });
    expect(numbered.remarks).toContainEqual(expect.objectContaining({ r: 'gaps', count: 1 }));
    // That clock set back too: the samples arrive later by it from there on.
    let out = 0;
    const ticked = await forged({
      entry: (e) => {
        if (isCut(e)) {
          out++;
          return [];
        }
        return isSample(e) && e.l === 'frame' && e.frame.t === 'S'
          ? [
              {
                ...e,
                frame: { ...e.frame, seq: e.frame.seq - out, tick: e.frame.tick - (out > 0 ? 30_000 : 0) },
              },
            ]
          : [e];
      },
    });
    expect(ticked.remarks).toContainEqual(
      expect.objectContaining({ r: 'clock-apart', what: 'device-step', seconds: expect.closeTo(3, 0) }),
    );
    expect(reservationsOf(ticked.verdict, ticked.remarks)?.apart).toEqual(['clock']);
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
        run: () => Promise.reject(new Error('never asked')),
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
