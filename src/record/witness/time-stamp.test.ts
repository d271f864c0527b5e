import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { SCRIPT_SHA256 as sha256 } from '../hashing.ts';
import { toHex } from '../hex.ts';
import { type Authority, createAuthority } from './testing/authority.ts';
import { isNonce, readStamp, stampRequest } from './time-stamp.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-stamp-'));
afterAll(() => rmSync(folder, { recursive: true }));
const TEXT = new TextEncoder().encode('log.steadybar.invalid/x\n3\nAAAA\n');
const NONCE = Uint8Array.of(0xff, 2, 3, 4, 5, 6, 7, 8);
let authority: Authority;
beforeAll(() => {
  authority = createAuthority(folder);
});

it('the request is one that openssl reads, and its answer says what it was asked for', () => {
  const request = stampRequest(sha256.of(TEXT), NONCE);
  writeFileSync(path.join(folder, 'q.tsq'), request);
  const shown = spawnSync('openssl', ['ts', '-query', '-in', 'q.tsq', '-text'], {
    cwd: folder,
    encoding: 'utf8',
  });
  expect(shown.stdout).toContain('Hash Algorithm: sha256');
  expect(shown.stdout).toContain('Certificate required: yes');
  expect(shown.stdout.toLowerCase()).toContain('nonce: 0xff02030405060708');
  const before = Math.floor(Date.now() / 1000) * 1000;
  const response = authority.answer(request);
  const read = readStamp(response);
  if (!read.ok) throw new Error(read.why);
  expect(toHex(read.stamp.sha256)).toBe(toHex(sha256.of(TEXT)));
  expect(isNonce(read.stamp, NONCE)).toBe(true);
  expect(isNonce(read.stamp, Uint8Array.of(1))).toBe(false);
  expect(read.stamp.utcMs).toBeGreaterThanOrEqual(before);
  expect(read.stamp.utcMs).toBeLessThanOrEqual(Date.now() + 1000);
  writeFileSync(path.join(folder, 'text'), TEXT);
  expect(authority.verify(response, path.join(folder, 'text'))).toContain('Verification: OK');
});

it('a small nonce, and one that begins with zeros, is the number that it is', () => {
  for (const nonce of [Uint8Array.of(0, 0, 0, 0, 0, 0, 0, 5), Uint8Array.of(0, 200, 1, 1, 1, 1, 1, 1)]) {
    const read = readStamp(authority.answer(stampRequest(sha256.of(TEXT), nonce)));
    expect(read.ok && isNonce(read.stamp, nonce)).toBe(true);
  }
});

it('an answer that grants nothing, and whatever is none', () => {
  expect(readStamp(Uint8Array.of(0x30, 5, 0x30, 3, 2, 1, 2))).toEqual({ ok: false, why: 'refused' });
  for (const none of [new Uint8Array(0), TEXT, Uint8Array.of(0x30, 0x84, 255, 255, 255, 255)])
    expect(readStamp(none)).toEqual({ ok: false, why: 'form' });
  const good = authority.answer(stampRequest(sha256.of(TEXT), NONCE));
  fc.assert(
    fc.property(fc.nat(good.length - 1), fc.nat(255), fc.nat(good.length), (at, v, end) => {
      const bytes = good.slice(0, end);
      if (at < bytes.length) bytes[at] = v;
      readStamp(bytes);
    }),
    { seed: 3161, numRuns: 500 },
  );
});
