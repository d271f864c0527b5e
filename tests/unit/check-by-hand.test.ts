import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it, type TestContext } from 'vitest';
import { checkText, WITNESS_SCRIPT } from '../../src/record/check-text.ts';
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

  /** The folder of a record, and CHECK.txt's commands run in it in order, each with what it printed. */
  async function byCheckText(
    name: string,
    bytes: Uint8Array,
    change: (at: string) => void = () => undefined,
  ) {
    const at = path.join(folder, name);
    for (const member of (await unzip(bytes)).members) {
      const to = path.join(at, member.name);
      mkdirSync(path.dirname(to), { recursive: true });
      writeFileSync(to, member.bytes);
    }
    change(at);
    return commandsOf(sealed).map((command) => {
      const run = spawnSync('bash', ['-c', command], { cwd: at, encoding: 'utf8' });
      return { command, status: run.status, out: run.stdout.trim() };
    });
  }

  function commandsOf({ manifest }: Sealed): string[] {
    const read = parseManifest(manifest);
    if (!read.ok) throw new Error(read.what);
    return checkText(read.manifest, CHECK_TEXT)
      .split('\n')
      .filter((l) => /^ {3}(openssl|grep|sha256sum|ls) /.test(l))
      .map((l) => l.trim());
  }

  it('works as CHECK.txt has it, line by line in a shell', async (context) => {
    need(context);
    const done = await byCheckText('plain', file);
    expect(done).toHaveLength(12);
    for (const { command, status, out } of done) {
      if (command.startsWith('ls')) {
        expect([command, status, out]).toEqual([command, 1, '']);
        continue;
      }
      expect(status, command).toBe(0);
      if (command.includes('pkeyutl')) expect(out).toContain('Signature Verified Successfully');
      if (command.startsWith('grep')) expect(out).toBe('1');
      if (command.startsWith('openssl pkey ')) expect(out).toContain(signer.fingerprint);
    }
  });

  it('finds a stranger’s addition in the firm’s name and a file that was laid beside', async (context) => {
    need(context);
    const done = await byCheckText('forged', file, (at) => {
      // What is there of the firm is taken out of the manifest's own words; the signature is the stranger's.
      const own = JSON.parse(readFileSync(path.join(at, 'additions/0001.json'), 'utf8')) as object;
      const forged = JSON.stringify({ ...own, body: 'sensor was on the supply: results void' });
      rmSync(path.join(at, 'additions'), { recursive: true });
      mkdirSync(path.join(at, 'additions'));
      const inside = (name: string) => path.join(at, 'additions', name);
      writeFileSync(inside('0001.json'), forged);
      const key = path.join(folder, 'stranger.key');
      const openssl = (...args: string[]) => expect(spawnSync('openssl', args).status).toBe(0);
      openssl('genpkey', '-algorithm', 'ed25519', '-out', key);
      openssl('pkey', '-in', key, '-pubout', '-out', inside('0001.pem'));
      openssl(
        'pkeyutl',
        '-sign',
        '-inkey',
        key,
        '-rawin',
        '-in',
        inside('0001.json'),
        '-out',
        inside('0001.sig'),
      );
      writeFileSync(path.join(at, 'certificate-final.html'), 'another');
    });
    const said = (part: string) => done.filter((d) => d.command.includes(part)).map((d) => d.out);
    // It is well signed; whose key it is, and that the text names another, comes out.
    expect(said('-in additions/0001.json -sig')).toEqual(['Signature Verified Successfully']);
    expect(said('-in additions/0001.pem -outform DER | sha256sum')[0]).not.toContain(signer.fingerprint);
    expect(said('"fingerprint')).toEqual(['0']);
    expect(said('ls -A | ')).toEqual(['certificate-final.html']);
  });

  it('stands in docs/record.md too, since a forger can write another CHECK.txt', () => {
    const page = readFileSync(path.join(import.meta.dirname, '../../docs/record.md'), 'utf8');
    for (const command of commandsOf(sealed)) expect(page).toContain(command);
    for (const line of WITNESS_SCRIPT.split('\n')) expect(page).toContain(`    ${line}\n`);
  });
});
