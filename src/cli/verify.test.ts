import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deriving } from '../evidence/deriving.ts';
import { bytesSource } from '../record/byte-source.ts';
import { joinBytes } from '../record/bytes.ts';
import type { Progress } from '../record/derived-files.ts';
import { groupFingerprint } from '../record/fingerprints.ts';
import { buildJobFile } from '../record/job-file.ts';
import { pemOf, type Signer } from '../record/signing.ts';
import {
  inMemory,
  newSigner,
  OTHER_ENGINE,
  recordCrypto,
  runPages,
  sealRun,
} from '../record/testing/sealing.ts';
import { loadCatalogue } from '../words/catalogue.ts';
import { english } from '../words/testing/english.ts';
import { faultIn } from './testing/fault-of.ts';
import { runVerify } from './verify-run.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-verify-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string, content: Uint8Array | string): string => {
  writeFileSync(path.join(folder, name), content);
  return path.join(folder, name);
};

const verify = (args: readonly string[], progress?: Progress) =>
  runVerify(args, english, loadCatalogue, progress);

describe('verify on the command line', () => {
  let signer: Signer;
  let file: Uint8Array;
  let good: string;
  beforeAll(async () => {
    signer = await newSigner();
    const pages = runPages(OTHER_ENGINE);
    const sealed = await sealRun(pages, signer);
    file = joinBytes(
      await buildJobFile(
        { pages: bytesSource(pages), sealed, ...deriving(loadCatalogue), signer },
        recordCrypto,
        inMemory,
      ),
    );
    good = at('good.steadybar.zip', file);
  });

  it('knows a key by fingerprint, by file and by list', async () => {
    const listed = at('keys.txt', `# firm\n\n${groupFingerprint(signer.fingerprint)}  Tablet 3\n`);
    const pem = at('key.pem', pemOf(signer.publicKey));
    for (const args of [
      ['--key', signer.fingerprint],
      ['--key', `${pem}=Tablet 3`],
      ['--keys', listed],
    ]) {
      const { exitCode, text } = await verify([good, ...args]);
      expect([exitCode, text.split(':')[0]], args.join(' ')).toEqual([5, 'NOT DERIVED AGAIN']);
    }
    const quick = await verify([good, '--keys', listed, '--quick']);
    expect([quick.exitCode, quick.text.split(':')[0]]).toEqual([0, 'VALID']);
    expect((await verify([good, '--keys', listed])).text).toContain('known as "Tablet 3"');
    // The engine's own readings, made again, are the same bytes: nothing to remark.
    const { text } = await verify([good, '--keys', listed, '--json']);
    expect(JSON.parse(text)).toMatchObject({
      verdict: 'not-derived',
      reserved: { unjudged: true, failed: false, otherwise: [], notMade: [], apart: [] },
      remarks: [{ r: 'not-judged', why: 'engine' }, { r: 'not-logged' }],
      signer: 'Tablet 3',
    });
  });

  it('tells how far it is, to the end, and nothing where nothing is made again', async () => {
    const told: number[] = [];
    await verify([good], (share) => void told.push(share));
    expect(told.at(-1)).toBe(1);
    told.length = 0;
    await verify([good, '--quick'], (share) => void told.push(share));
    expect(told).toEqual([]);
  });

  it('ends with a code for each verdict', async () => {
    const key = ['--key', signer.fingerprint];
    const bad = file.slice();
    bad[Math.floor(file.length / 3)]! ^= 1;
    expect((await verify([at('bad', bad), ...key])).exitCode).toBe(1);
    expect((await verify([at('text', 'no zip at all'), ...key])).exitCode).toBe(2);
    expect((await verify([good])).exitCode).toBe(3);
    expect((await verify([at('cut', file.slice(0, -40)), ...key])).exitCode).toBe(4);
    const { text } = await verify([good]);
    expect(text).toContain('UNKNOWN SIGNER');
    expect(text).toContain(groupFingerprint(signer.fingerprint));
  });

  it('says in the headline that the judgements were not derived again', async () => {
    const { text } = await verify([good, '--key', signer.fingerprint]);
    expect(text.split('\n')[0]).toMatch(/^NOT DERIVED AGAIN: .*; judgements not derived again$/);
    expect(text).toContain('note: judgements not derived again (engine)');
  });

  it('makes a file without sums again, with --quick too', async () => {
    const pages = runPages(OTHER_ENGINE);
    const sealed = await sealRun(pages, signer);
    const { extras, sense, words } = deriving(loadCatalogue);
    const input = { pages: bytesSource(pages), sealed, sense, words, extras, signer: null };
    const bare = at('bare.steadybar.zip', joinBytes(await buildJobFile(input, recordCrypto, inMemory)));
    const key = ['--key', signer.fingerprint];
    for (const [code, ...quick] of [[5], [0, '--quick']] as const) {
      const { exitCode, text } = await verify([bare, ...key, ...quick]);
      expect([quick.join(), exitCode]).toEqual([quick.join(), code]);
      expect(text).not.toContain('otherwise');
    }
  });

  it('names the page and the time of a change', async () => {
    const bad = file.slice();
    const pageAt = Buffer.from(file).indexOf('Sbarpage', 10_000);
    bad[pageAt + 300]! ^= 1;
    const { text } = await verify([at('page', bad), '--key', signer.fingerprint]);
    expect(text).toMatch(/page \d+: changed \(CRC\); run time 00:00:\d\d\.\d to 00:00:\d\d\.\d/);
  });

  it.each([
    [[], /one FILE/],
    [['a', 'b'], /one FILE/],
    [['a', '--what'], /unknown option "--what"/],
    [['a', '--key'], /--key needs a value/],
    [['a', '--quick=yes'], /--quick takes no value/],
    [[path.join(folder, 'none')], /no such file/],
    [[folder], /not a file/],
    [['a', '--key', path.join(folder, 'none.pem')], /no such file/],
  ])('refuses %j in one line', async (args, message) => {
    await expect(faultIn(verify(args))).resolves.toMatch(message);
  });

  it('a key counts for the times that its list gives, and is revoked from a moment on', async () => {
    // Sealed at 2e12 ms: 2033-05-18T03:33:20Z.
    const cases: [string, number, string | null][] = [
      ['from=2033-05-18 until=2033-05-19 Tablet 3', 5, null],
      ['revoked=2033-05-19 Tablet 3', 5, null],
      ['from=2033-05-19 Tablet 3', 3, 'before'],
      ['until=2033-05-18T03:33:20Z Tablet 3', 3, 'after'],
      ['revoked=2033-05-18 Tablet 3', 3, 'revoked'],
    ];
    for (const [line, code, why] of cases) {
      const list = at('terms.txt', `${signer.fingerprint} ${line}\n`);
      const done = await verify([good, '--keys', list]);
      expect([line, done.exitCode]).toEqual([line, code]);
      expect(done.text).toContain('known as "Tablet 3"');
      if (why !== null) expect(done.text).toContain(`does not count for its time: ${why}`);
    }
    for (const line of ['from=yesterday x', 'from=2033-02-01 until=2033-01-01 x', 'until= x'])
      await expect(
        faultIn(verify([good, '--keys', at('x.txt', `${signer.fingerprint} ${line}\n`)])),
      ).resolves.toMatch(/row 1: from=/);
  });

  it('refuses keys that are none, naming the row', async () => {
    await expect(faultIn(verify([good, '--key', at('x.pem', 'x')]))).resolves.toMatch(
      /neither a fingerprint/,
    );
    await expect(faultIn(verify([good, '--keys', at('x.txt', '# a\nzz\n')]))).resolves.toMatch(
      /row 2: no fingerprint/,
    );
  });

  it('runs as a command', () => {
    const command = (...args: string[]) =>
      spawnSync('npx', ['tsx', 'src/cli/verify.ts', ...args], { encoding: 'utf8' });
    const ok = command(good, '--key', signer.fingerprint);
    expect([ok.status, ok.stdout.split(':')[0]]).toEqual([5, 'NOT DERIVED AGAIN']);
    const wrong = command('--what');
    expect([wrong.status, wrong.stderr.trim().split('\n').length]).toEqual([2, 1]);
    // Two processes that compile the program each: long on a machine that has other work.
  }, 120_000);
});
