import { beforeAll, describe, expect, it } from 'vitest';
import { fileOf } from '../engine/run-list.ts';
import type { MadeElsewhere } from '../record/judgement.ts';
import { JOB, newSigner } from '../record/testing/sealing.ts';
import type { WatchEvent } from '../watch/events.ts';
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
    const judging = (elsewhere: () => Promise<MadeElsewhere | null>) => ({
      judge: {
        engine: judge.engine,
        run: (...args: Parameters<typeof judge.run>) => {
          here++;
          return judge.run(...args);
        },
        elsewhere,
      },
    });
    const pages = (await verify(file)).files.get('pages.bin')!;
    const there = async () => ({ ...(await judge.run(pages, () => undefined)), trace: null });
    expect((await verify(file, judging(there))).findings).toEqual([]);
    expect(here).toBe(0);
    expect(
      (
        await verify(
          file,
          judging(async () => ({ ...(await there()), events: (await there()).events.slice(1) })),
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
        return null;
      }),
    );
    expect([v.verdict, asked]).toEqual(['not-derived', 0]);
  });
});
