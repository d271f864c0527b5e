import { beforeAll, expect, it } from 'vitest';
import { PLAIN_WORDING } from '../job/testing/wording.ts';
import { ALWAYS } from '../record/key-terms.ts';
import { createOffice } from './testing/office.ts';

let there: ReturnType<typeof createOffice>;
let file: Blob;
let fingerprint: string;
let sealedUtcMs: number;
beforeAll(async () => {
  there = createOffice();
  await there.keepJob();
  const runId = await there.record({ holdS: 2 });
  fingerprint = (await there.ask({ q: 'seal', runId, wording: PLAIN_WORDING })).fingerprint;
  ({ file } = await there.ask({ q: 'job-file', ref: { kind: 'run', runId } }));
  sealedUtcMs = (await there.ask({ q: 'verify', file, name: 'x' })).record!.sealedUtcMs;
}, 60_000);

const next = 'b'.repeat(64);

it('revoked: what was signed before stays valid, what after does not; forgotten: none of it ever counted', async () => {
  const here = createOffice();
  const verdict = async () => (await here.ask({ q: 'verify', file, name: 'x' })).verdict;
  await here.ask({ q: 'know-signer', fingerprint, name: 'Tablet 3' });
  expect(await verdict()).toBe('valid');
  const revoke = (utcMs: number) =>
    here.ask({ q: 'signer-term', fingerprint, term: { ...ALWAYS, revokedUtcMs: utcMs } });
  await revoke(sealedUtcMs + 1);
  expect(await verdict()).toBe('valid');
  await revoke(sealedUtcMs);
  expect(await verdict()).toBe('unknown-signer');
  // Another name for it says nothing about when it counts.
  await here.ask({ q: 'know-signer', fingerprint, name: 'Tablet three' });
  expect(await verdict()).toBe('unknown-signer');
  const { sha256 } = await here.ask({ q: 'verify', file, name: 'x' });
  await here.ask({ q: 'keep-opened', sha256 });
  const [kept] = await here.ask({ q: 'archive' });
  expect(kept!.sealed).toMatchObject({ fingerprint, signer: null });
  await here.ask({ q: 'forget-signer', fingerprint });
  expect(await here.ask({ q: 'signers' })).toEqual([]);
  expect(await verdict()).toBe('unknown-signer');
});

it('replaced: the other key counts from that moment on, this one until it, and both are the same signer', async () => {
  const here = createOffice();
  await here.ask({ q: 'know-signer', fingerprint, name: 'Tablet 3' });
  const list = await here.ask({ q: 'replace-signer', fingerprint, by: next, utcMs: sealedUtcMs + 1 });
  expect(list.map(({ fingerprint: f, name, term, replacedBy }) => [f, name, term, replacedBy])).toEqual([
    [fingerprint, 'Tablet 3', { ...ALWAYS, untilUtcMs: sealedUtcMs + 1 }, next],
    [next, 'Tablet 3', { ...ALWAYS, fromUtcMs: sealedUtcMs + 1 }, null],
  ]);
  expect((await here.ask({ q: 'verify', file, name: 'x' })).verdict).toBe('valid');
});

it('refuses an end before the beginning, a key in its own place, and one that is not known', async () => {
  const here = createOffice();
  await here.ask({ q: 'know-signer', fingerprint, name: 'Tablet 3' });
  const term = { fromUtcMs: 5, untilUtcMs: 4, revokedUtcMs: null };
  for (const [request, code] of [
    [{ q: 'signer-term', fingerprint, term }, 'bad-request'],
    [{ q: 'signer-term', fingerprint: next, term: ALWAYS }, 'missing'],
    [{ q: 'replace-signer', fingerprint, by: fingerprint, utcMs: 1 }, 'bad-request'],
    [{ q: 'replace-signer', fingerprint, by: 'zz', utcMs: 1 }, 'bad-request'],
  ] as const)
    await expect(here.ask(request)).rejects.toMatchObject({ code });
  expect(await here.ask({ q: 'signers' })).toMatchObject([{ fingerprint, term: ALWAYS, replacedBy: null }]);
});
