/** A small fixed slice of the campaign of forged records: its seeds are none of the full one's. */
import { beforeAll, expect, it } from 'vitest';
import { deriving } from '../../src/evidence/deriving.ts';
import { bytesSource } from '../../src/record/byte-source.ts';
import { verifyJobFile } from '../../src/record/verify.ts';
import { loadCatalogue } from '../../src/words/catalogue.ts';
import { emptyTally, KINDS, workForgery } from './forgeries.ts';
import { type Forging, prepare } from './forgeries-bases.ts';

const SLICE = 250;
const FIRST_SEED = 1_000_001;

let forging: Forging;
beforeAll(async () => {
  forging = await prepare();
}, 60_000);

it('what the forgers start from is valid, judged again, and derived again to the byte', async () => {
  for (const base of [forging.small, forging.whole]) {
    const options = { crypto: forging.crypto, trusted: base.trusted, ...deriving(loadCatalogue) };
    const v = await verifyJobFile(bytesSource(base.file), options);
    expect([base.name, v.verdict, v.findings]).toEqual([base.name, 'valid', []]);
    expect(v.remarks.filter((r) => r.r === 'not-judged')).toEqual([]);
  }
});

it(`${SLICE} forged records: none throws, none is valid that the key did not sign, all end in time`, async () => {
  const tally = emptyTally();
  for (let i = 0; i < SLICE; i++) await workForgery(forging, FIRST_SEED + i, tally, false);
  expect(tally.faults).toEqual([]);
  for (const kind of KINDS) expect(tally.made[kind], kind).toBeGreaterThan(5);
  // The slice reaches what it is meant to reach.
  for (const verdict of ['refused', 'changed', 'incomplete', 'unknown-signer', 'valid'] as const)
    expect(tally.verdicts[verdict], verdict).toBeGreaterThan(0);
});
