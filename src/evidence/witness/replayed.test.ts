import { beforeAll, expect, it } from 'vitest';
import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import { bytesSource } from '../../record/byte-source.ts';
import { loadSealed } from '../../record/stores/sealed-store.ts';
import { recordCrypto } from '../../record/testing/sealing.ts';
import { unzip, zipBytes } from '../../record/testing/zips.ts';
import { type Verification, verifyJobFile } from '../../record/verify.ts';
import { compareWithFile } from '../../record/witness/compare.ts';
import { type Placed, readLeaf, runHash } from '../../record/witness/leaves.ts';
import { proofMembers, type RunProof, readProof } from '../../record/witness/run-proof.ts';
import { createOffice } from '../testing/office.ts';
import { createOwnLog, type OwnLog } from './own-log.ts';

// Checkpoints that the log itself has signed, put where another one belongs. Whoever has the tablet makes every proof and every
// sum anew; these files have none of the sums, which is not what is asked here.

const office = createOffice();
let runId = '';
let log: OwnLog;
let own: readonly Placed[];
let honest: RunProof;
let members: readonly { readonly name: string; readonly bytes: Uint8Array }[];

beforeAll(async () => {
  await office.keepJob();
  await office.ask({ q: 'backup' });
  await office.record({ practice: true, holdS: 5 });
  runId = await office.record({ holdS: 5 });
  await office.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
  await office.ask({ q: 'add', runId, kind: 'note', text: 'wrong pipe', by: 'ab' });
  const { file } = await office.ask({ q: 'job-file', ref: { kind: 'run', runId } });
  members = (await unzip(new Uint8Array(await file.arrayBuffer()))).members;
  const { subtle } = globalThis.crypto;
  const { documents, bench } = office;
  log = createOwnLog({ documents, crypto: recordCrypto, subtle, utcMs: () => bench.wall.ms } as never);
  own = await log.ofRun(runHash(recordCrypto.hashing, runId));
  const sealed = (await loadSealed(documents, runId))!;
  honest = readProof(recordCrypto.hashing, new Map(sealed.proof.map((m) => [m.name, m.bytes])))!;
}, 60_000);

/** The record's file with these checkpoints and leaves, every proof of which holds. */
async function fileWith(
  before: number,
  after: number,
  leaves: readonly Placed[],
  without: (name: string) => boolean = () => false,
): Promise<Uint8Array> {
  const tree = await log.tree();
  const size = after;
  const proof = proofMembers(recordCrypto.hashing, {
    ...honest,
    before: await log.note(before),
    after: await log.note(after),
    leaves: leaves.map(({ index, text }) => ({ index, text, path: tree.inclusion(index, size) })),
    trees: [{ size: before, root: tree.root(before), path: tree.consistency(before, size) }],
  });
  const rest = members.filter(
    ({ name }) => !name.startsWith('witness/') && !name.startsWith('SHA256SUMS') && !without(name),
  );
  const place = rest.findIndex(({ name }) => name.startsWith('additions/'));
  const at = place < 0 ? rest.length : place;
  return zipBytes([...rest.slice(0, at), ...proof, ...rest.slice(at)]);
}

const verified = async (file: Uint8Array): Promise<Verification> =>
  verifyJobFile(bytesSource(file), {
    crypto: recordCrypto,
    trusted: new Map(),
    sense: null,
    judge: null,
  });
const witnessFaults = ({ findings }: Verification) =>
  findings.flatMap((f) => (f.f === 'witness' ? [f.why] : []));

it('the genuine ones hold', async () => {
  const file = await fileWith(own[0]!.index, own.at(-1)!.index + 1, own);
  expect(witnessFaults(await verified(file))).toEqual([]);
});

it('an older one in the place of the one right before the run does not', async () => {
  expect(own[0]!.index).toBeGreaterThan(1);
  const file = await fileWith(1, own.at(-1)!.index + 1, own);
  expect(witnessFaults(await verified(file))).toEqual(['content']);
});

it('one from before the sealing in the place of the one behind it does not', async () => {
  const sealedAt = own.find((p) => p.leaf.leaf === 'sealed')!.index;
  const until = own.filter((p) => p.index < sealedAt);
  const file = await fileWith(own[0]!.index, sealedAt, until);
  expect(witnessFaults(await verified(file))).toEqual(['content']);
});

it('one from before an addition, with the addition taken off, holds by itself and not beside a later one', async () => {
  const addedAt = own.find((p) => p.leaf.leaf === 'added')!.index;
  const isAddition = (name: string) => name.startsWith('additions/');
  const until = own.filter((p) => p.index < addedAt);
  const v = await verified(await fileWith(own[0]!.index, addedAt, until, isAddition));
  // It is the file as it was on that day: nothing in it can say that there is more.
  expect(witnessFaults(v)).toEqual([]);
  expect(v.witness!.proof.leaves.map((l) => readLeaf(l.text)!.leaf)).not.toContain('added');
  // Whoever holds a later checkpoint of that log is not told that it is all, and the saved log has the addition.
  const later = await log.note(own.at(-1)!.index + 1);
  expect(await compareWithFile(recordCrypto, later, v.witness!)).toEqual({
    c: 'not-told',
    size: own.at(-1)!.index + 1,
  });
});
