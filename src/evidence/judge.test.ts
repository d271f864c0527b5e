import { beforeAll, describe, expect, it } from 'vitest';
import { fileOf } from '../engine/run-list.ts';
import { PLAIN_WORDING } from '../job/testing/wording.ts';
import { bytesSource } from '../record/byte-source.ts';
import { joinBytes } from '../record/bytes.ts';
import { canonicalBytes } from '../record/canonical.ts';
import { toHex } from '../record/hex.ts';
import { buildJobFile } from '../record/job-file.ts';
import { contentOf, makeManifest } from '../record/manifest.ts';
import { pageEntries } from '../record/page.ts';
import { scanPages } from '../record/page-scanner.ts';
import type { Signer } from '../record/signing.ts';
import { HEAD } from '../record/testing/arbitrary.ts';
import { inMemory, JOB, newSigner, recordCrypto } from '../record/testing/sealing.ts';
import { zipBytes } from '../record/testing/zips.ts';
import { type Verification, type VerifyOptions, verifyJobFile } from '../record/verify.ts';
import { createPageWriter } from '../record/writer.ts';
import type { WatchEvent } from '../watch/events.ts';
import { loadCatalogue } from '../words/catalogue.ts';
import { judgeFile } from './checked-files.ts';
import { deriving } from './deriving.ts';
import { judge } from './judge.ts';
import { createOffice } from './testing/office.ts';

let signer: Signer;
let pages: Uint8Array;
beforeAll(async () => {
  signer = await newSigner();
  const office = createOffice();
  const runId = await office.record({ holdS: 20 });
  pages = await office.files.readAll(fileOf(runId));
}, 60_000);

/** The same input log with other events, its pages and their chain made anew, signed by a key that is known. */
async function signedWith(change: (event: WatchEvent) => WatchEvent, engine?: number): Promise<Uint8Array> {
  let writer: ReturnType<typeof createPageWriter> | null = null;
  const out: Uint8Array[] = [];
  for (const item of scanPages(pages)) {
    if (item.kind !== 'page') continue;
    const { page } = item;
    writer ??= createPageWriter({ ...page.head!, ...(engine === undefined ? {} : { engine }) });
    for (const entry of pageEntries(page)) writer.addEntry(entry);
    for (const event of page.events) writer.addEvent(change(event));
    const last = (page.header.flags & 2) !== 0;
    out.push(last ? writer.finish(page.header.utcMs, 'ended') : writer.cut(page.header.utcMs)!);
  }
  const forged = joinBytes(out);
  const { content } = contentOf(forged)!;
  const manifest = canonicalBytes(
    makeManifest(content, {
      pagesSha256: toHex(await recordCrypto.sha256(forged)),
      sealedUtcMs: 2e12,
      sealedBy: 'test',
      job: { ...JOB, jobId: content.jobId },
      log: null,
      wording: PLAIN_WORDING,
      signer,
    }),
  );
  const sealed = { manifest, signature: await signer.sign(manifest), additions: [], proof: [] };
  const input = { pages: bytesSource(forged), sealed, ...deriving(loadCatalogue), signer };
  return joinBytes(await buildJobFile(input, recordCrypto, inMemory));
}

const verify = (file: Uint8Array, more: Partial<VerifyOptions> = {}): Promise<Verification> =>
  verifyJobFile(bytesSource(file), {
    crypto: recordCrypto,
    trusted: new Map([[signer.fingerprint, 'ours']]),
    ...deriving(loadCatalogue),
    ...more,
  });

describe('the judgements of a record', () => {
  it('that follow from its input log are valid without a word', async () => {
    const v = await verify(await signedWith((e) => e));
    expect([v.verdict, v.findings, v.remarks]).toEqual(['valid', [], [{ r: 'not-logged' }]]);
  });

  it('that do not are found, whoever signed them: a hold of seconds made four hours long', async () => {
    const v = await verify(await signedWith((e) => (e.e === 'hold' ? { ...e, minutesInBand: 240 } : e)));
    expect([v.verdict, v.findings]).toEqual([
      'changed',
      [{ f: 'judgement', recorded: 1, again: 1, kinds: ['hold'] }],
    ]);
  });

  it('of another engine are left to whoever signed them, and that is said', async () => {
    const v = await verify(await signedWith((e) => e, 99));
    expect([v.verdict, v.remarks]).toEqual([
      'valid',
      [{ r: 'not-judged', why: 'engine' }, { r: 'not-logged' }],
    ]);
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
    expect([v.verdict, asked]).toEqual(['valid', 0]);
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
    // Two hundred years between two pages: nobody goes through them tick by tick.
    const writer = createPageWriter({ ...HEAD, engine: judge.engine });
    const note = { c: 'note', text: 'x' } as const;
    writer.addEntry({ l: 'command', tUs: 0, command: note });
    const first = writer.cut(1)!;
    writer.addEntry({ l: 'command', tUs: 6.3e15, command: note });
    const pages = joinBytes([first, writer.finish(2, 'ended')]);
    const long = zipBytes([{ name: 'pages.bin', bytes: pages }]);
    await expect(judged(long)).rejects.toMatchObject({ code: 'refused' });
  });
});
