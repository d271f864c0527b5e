import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it, type TestContext } from 'vitest';
import { checkText } from '../../src/record/check-text.ts';
import { parseManifest } from '../../src/record/manifest.ts';
import { addToSealed, type Sealed } from '../../src/record/seal.ts';
import type { Signer } from '../../src/record/signing.ts';
import {
  jobFile,
  newSigner,
  paper,
  recordCrypto,
  runPages,
  sealRun,
} from '../../src/record/testing/sealing.ts';
import { unzip, zipBytes } from '../../src/record/testing/zips.ts';
import { CHECK_TEXT } from '../../src/words/en/check-text.ts';
import { notRun } from './not-run.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-hand-'));
afterAll(() => rmSync(folder, { recursive: true }));

const tool = (name: string, arg: string): boolean => spawnSync(name, [arg], { stdio: 'ignore' }).status === 0;
function need(context: TestContext): void {
  for (const [name, arg] of [
    ['bash', '--version'],
    ['unzip', '-v'],
    ['openssl', 'version'],
    ['sha256sum', '--version'],
  ] as const)
    if (!tool(name, arg)) notRun(context, `no ${name}`);
}

function checkByHand(file: Uint8Array, fingerprint: string): { status: number | null; out: string } {
  const at = path.join(folder, 'job.steadybar.zip');
  writeFileSync(at, file);
  const script = path.join(import.meta.dirname, 'check-by-hand.sh');
  const run = spawnSync('bash', [script, at, fingerprint], { encoding: 'utf8' });
  return { status: run.status, out: run.stdout + run.stderr };
}

describe('check by hand', () => {
  let signer: Signer;
  let sealed: Sealed;
  let file: Uint8Array;
  beforeAll(async () => {
    signer = await newSigner();
    const pages = runPages();
    sealed = await sealRun(pages, signer);
    sealed = await addToSealed(sealed, { kind: 'note', body: 'first', utcMs: 1 }, signer, recordCrypto);
    sealed = await addToSealed(
      sealed,
      { kind: 'note', body: 'second', utcMs: 2 },
      await newSigner(),
      recordCrypto,
    );
    file = await jobFile(pages, sealed, signer, paper);
  });

  it('holds with openssl, sha256sum and nothing of ours', (context) => {
    need(context);
    const { status, out } = checkByHand(file, signer.fingerprint);
    expect(out.trim().split('\n').at(-1)).toBe('all holds');
    expect(status).toBe(0);
  });

  it('fails for another key, and for any file with one changed byte', async (context) => {
    need(context);
    expect(checkByHand(file, '0'.repeat(64)).out).toContain('another key');
    const { members: whole } = await unzip(file);
    for (const { name, bytes } of whole) {
      // Keys of additions are not summed: another byte there makes another key, or none.
      const members = whole.map((e) => {
        if (e.name !== name) return e;
        const bad = e.bytes.slice();
        bad[Math.floor(bytes.length / 2)]! ^= 1;
        return { name: e.name, bytes: bad };
      });
      expect(checkByHand(zipBytes(members), signer.fingerprint).status, name).not.toBe(0);
    }
  });

  it('is what CHECK.txt tells people to type', () => {
    const read = parseManifest(sealed.manifest);
    if (!read.ok) throw new Error(read.what);
    const text = checkText(read.manifest, CHECK_TEXT);
    for (const command of [
      'openssl pkeyutl -verify -pubin -inkey signer.pem -rawin -in manifest.json -sigfile manifest.sig',
      'openssl pkey -pubin -in signer.pem -outform DER | sha256sum',
      'sha256sum -c SHA256SUMS',
    ])
      expect(text).toContain(command);
    expect(text).toContain(signer.fingerprint);
  });

  it('works as CHECK.txt has it, line by line in a shell', (context) => {
    need(context);
    const unpacked = path.join(folder, 'unpacked');
    const at = path.join(folder, 'b.zip');
    writeFileSync(at, file);
    expect(spawnSync('unzip', ['-q', '-o', at, '-d', unpacked]).status).toBe(0);
    const read = parseManifest(sealed.manifest);
    if (!read.ok) throw new Error(read.what);
    const commands = checkText(read.manifest, CHECK_TEXT)
      .split('\n')
      .filter((l) => /^ {3}(openssl|grep|sha256sum) /.test(l));
    expect(commands).toHaveLength(6);
    for (const command of commands) {
      const run = spawnSync('bash', ['-c', command], { cwd: unpacked, encoding: 'utf8' });
      expect(run.status, `${command}\n${run.stderr}`).toBe(0);
      if (command.includes('pkeyutl')) expect(run.stdout).toContain('Signature Verified Successfully');
      if (command.includes('grep')) expect(run.stdout.trim()).toBe('1');
      if (command.includes('openssl pkey ')) expect(run.stdout).toContain(signer.fingerprint);
    }
  });
});
