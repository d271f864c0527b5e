import { expect, it } from 'vitest';
import { ALWAYS, keyTermIn, termFault } from './key-terms.ts';
import { addToSealed } from './seal.ts';
import { makeSealedFile } from './testing/sealed-file.ts';
import { jobFile, newSigner, paper, recordCrypto, runPages, sealRun } from './testing/sealing.ts';

it('a key counts from its first moment to the last before its end, and never from its revocation on', () => {
  const term = { fromUtcMs: 10, untilUtcMs: 20, revokedUtcMs: 15 };
  expect([9, 10, 14, 15, 20].map((t) => termFault(term, t))).toEqual([
    'before',
    null,
    null,
    'revoked',
    'revoked',
  ]);
  expect([19, 20].map((t) => termFault({ ...term, revokedUtcMs: null }, t))).toEqual([null, 'after']);
  expect([termFault(ALWAYS, 0), termFault(undefined, 8e15)]).toEqual([null, null]);
});

it('what is no term is none', () => {
  expect(keyTermIn({ ...ALWAYS, more: 1 })).toEqual(ALWAYS);
  for (const bad of [
    null,
    {},
    'x',
    { ...ALWAYS, fromUtcMs: '1' },
    { ...ALWAYS, fromUtcMs: 5, untilUtcMs: 5 },
  ])
    expect(keyTermIn(bad)).toBeNull();
});

it('a record from before the revocation stays valid; one from after it, and an addition, do not count', async () => {
  const { verify } = await makeSealedFile();
  const signer = await newSigner();
  const pages = runPages({ seconds: 2 });
  // Sealed at 2e12.
  const more = { kind: 'note', body: 'x', utcMs: 2e12 + 1000 } as const;
  const sealed = await addToSealed(await sealRun(pages, signer), more, signer, recordCrypto);
  const file = await jobFile(pages, sealed, signer, paper);
  const { fingerprint } = signer;
  const at = async (revokedUtcMs: number) => {
    const v = await verify(file, {
      trusted: new Map([[fingerprint, 'tablet']]),
      terms: new Map([[fingerprint, { ...ALWAYS, revokedUtcMs }]]),
    });
    return [v.verdict, v.signer, v.findings];
  };
  expect(await at(2e12 + 1001)).toEqual(['valid', 'tablet', []]);
  expect(await at(2e12 + 1)).toEqual([
    'unknown-signer',
    'tablet',
    [{ f: 'addition-signer', number: 1, fingerprint, why: 'revoked' }],
  ]);
  expect(await at(2e12)).toMatchObject([
    'unknown-signer',
    'tablet',
    [{ f: 'addition-signer' }, { f: 'signer', fingerprint, why: 'revoked' }],
  ]);
});
