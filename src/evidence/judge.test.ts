import { beforeAll, describe, expect, it } from 'vitest';
import { fileOf } from '../engine/run-list.ts';
import { joinBytes } from '../record/bytes.ts';
import { HEAD } from '../record/testing/arbitrary.ts';
import { JOB, newSigner } from '../record/testing/sealing.ts';
import { zipBytes } from '../record/testing/zips.ts';
import { createPageWriter } from '../record/writer.ts';
import type { WatchEvent } from '../watch/events.ts';
import { judgeFile } from './checked-files.ts';
import { judge } from './judge.ts';
import { createInsider } from './testing/insider.ts';
import { createOffice, JOB_ID } from './testing/office.ts';

let insider: ReturnType<typeof createInsider>;
beforeAll(async () => {
  const office = createOffice();
  const runId = await office.record({ holdS: 20 });
  const pages = await office.files.readAll(fileOf(runId));
  insider = createInsider(pages, await newSigner(), { ...JOB, jobId: JOB_ID });
}, 60_000);

/** The same input log with other events, its pages and their chain made anew, signed by a key that is known. */
const signedWith = (change: (event: WatchEvent) => WatchEvent, engine?: number): Promise<Uint8Array> =>
  insider.forge({
    events: (list) => list.map(change),
    ...(engine === undefined ? {} : { head: { engine } }),
  });

const verify = (...args: Parameters<typeof insider.verify>) => insider.verify(...args);

describe('the judgements of a record', () => {
  it('that follow from its input log are valid without a word', async () => {
    const v = await verify(await signedWith((e) => e));
    expect([v.verdict, v.findings, v.remarks]).toEqual(['valid', [], [{ r: 'not-logged' }]]);
  });

  it('that do not are found, whoever signed them: a hold of seconds made four hours long', async () => {
    const v = await verify(await signedWith((e) => (e.e === 'hold' ? { ...e, minutesInBand: 240 } : e)));
    expect([v.verdict, v.findings]).toEqual([
      'changed',
      [{ f: 'judgement', recorded: 1, again: 1, kinds: ['hold'], moved: 0 }],
    ]);
  });

  it('of another engine are left to whoever signed them, and that is said', async () => {
    const v = await verify(await signedWith((e) => e, 99));
    expect([v.verdict, v.remarks]).toEqual([
      'not-derived',
      [{ r: 'not-judged', why: 'engine' }, { r: 'not-logged' }],
    ]);
  });

  it('of a run of days in which hardly anything was read are not gone through, and that is said', async () => {
    const insert = (days: number) => {
      let i = 0;
      return insider.forge({
        entry: (e) => (++i > 60 ? [{ ...e, tUs: e.tUs + days * 86_400e6 }] : [e]),
        events: (list) => list.filter((e) => e.tUs < 1e6),
      });
    };
    const v = await verify(await insert(3), { sense: null });
    expect(v.verdict).toBe('not-derived');
    expect(v.remarks).toContainEqual({ r: 'not-judged', why: 'too-long' });
  });

  it('may be made elsewhere meanwhile, and count as if they were made here; what was not is made here', async () => {
    const file = await signedWith((e) => e);
    let here = 0;
    const judging = (elsewhere: () => Promise<readonly WatchEvent[] | null>) => ({
      judge: {
        engine: judge.engine,
        events: (...args: Parameters<typeof judge.events>) => {
          here++;
          return judge.events(...args);
        },
        elsewhere,
      },
    });
    // As the other worker does it: from the file alone.
    const there = () => judgeFile(new Blob([file as Uint8Array<ArrayBuffer>]), async () => undefined);
    expect((await verify(file, judging(there))).findings).toEqual([]);
    expect(here).toBe(0);
    expect(
      (
        await verify(
          file,
          judging(async () => (await there()).slice(1)),
        )
      ).verdict,
    ).toBe('changed');
    expect(
      (
        await verify(
          file,
          judging(async () => null),
        )
      ).verdict,
    ).toBe('valid');
    expect(here).toBe(1);
    // Of what can't be judged nobody is asked.
    let asked = 0;
    const v = await verify(
      await signedWith((e) => e, 99),
      judging(async () => {
        asked++;
        return [];
      }),
    );
    expect([v.verdict, asked]).toEqual(['not-derived', 0]);
  });

  it('are made elsewhere of sound pages of this engine alone, and of no run of years', async () => {
    const judged = (file: Uint8Array) =>
      judgeFile(new Blob([file as Uint8Array<ArrayBuffer>]), async () => undefined);
    const good = await signedWith((e) => e);
    expect(await judged(good)).not.toEqual([]);
    const bad = good.slice();
    bad[Buffer.from(good).indexOf('Sbarpage') + 400]! ^= 1;
    await expect(judged(bad)).rejects.toMatchObject({ code: 'refused' });
    await expect(judged(await signedWith((e) => e, 99))).rejects.toMatchObject({ code: 'refused' });
    await expect(judged(new Uint8Array(100))).rejects.toMatchObject({ code: 'refused' });
    // Two hundred years between two pages, or seven days in which nothing was read: nobody goes through them tick by tick.
    for (const tUs of [6.3e15, 7 * 86_400e6]) {
      const writer = createPageWriter({ ...HEAD, engine: judge.engine });
      const note = { c: 'note', text: 'x' } as const;
      writer.addEntry({ l: 'command', tUs: 0, command: note });
      const first = writer.cut(1)!;
      writer.addEntry({ l: 'command', tUs, command: note });
      const pages = joinBytes([first, writer.finish(2, 'ended')]);
      const long = zipBytes([{ name: 'pages.bin', bytes: pages }]);
      await expect(judged(long)).rejects.toMatchObject({ code: 'refused' });
    }
  });
});
