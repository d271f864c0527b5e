import { expect, it } from 'vitest';
import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import { bytesSource } from '../../record/byte-source.ts';
import { loadSealed } from '../../record/stores/sealed-store.ts';
import { createWitnessLog } from '../../record/stores/witness-log.ts';
import { recordCrypto } from '../../record/testing/sealing.ts';
import { unzip, zipBytes } from '../../record/testing/zips.ts';
import { verifyJobFile } from '../../record/verify.ts';
import { leafText, readLeaf, runHash } from '../../record/witness/leaves.ts';
import { proofMembers, readProof } from '../../record/witness/run-proof.ts';
import { createFakeFolder } from '../office/testing/fake-folder.ts';
import { handlesIn } from '../office/testing/handles.ts';
import { createOffice } from '../testing/office.ts';
import { createOwnLog } from './own-log.ts';

// Whoever has the unlocked tablet can append what he likes to its log, and choose what a file shows of it: an older run,
// opened a second time in the log after a witness has signed, must not be told as opened after that.

it('a run from before a witness’s word is not opened after it, whatever its log is made to say', async () => {
  const shared = createFakeFolder();
  const tablet = createOffice({ handles: handlesIn() });
  const bureau = createOffice({ handles: handlesIn() });
  for (const office of [tablet, bureau]) await office.ask({ q: 'office-choose', handle: shared });
  await tablet.keepJob();
  const runId = await tablet.record({ holdS: 5 });
  await tablet.ask({ q: 'office-witness', countersign: false });
  await bureau.ask({ q: 'office-witness', countersign: true });
  await tablet.ask({ q: 'office-witness', countersign: false });

  // The day after: the run is opened once more, on paper, and sealed.
  const run = runHash(recordCrypto.hashing, runId);
  const { documents } = tablet;
  const log = createWitnessLog(documents, () => 1);
  const at = Math.round(tablet.bench.wall.ms + 20 * 3_600_000);
  await log.append(leafText({ leaf: 'opened', at, run, practice: false }));
  await tablet.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
  const file = (await tablet.ask({ q: 'job-file', ref: { kind: 'run', runId } })).file;
  const members = new Map(
    (await unzip(new Uint8Array(await file.arrayBuffer()))).members.map((m) => [m.name, m.bytes]),
  );

  const own = createOwnLog({ documents, crypto: recordCrypto, subtle, utcMs: () => at } as never);
  const tree = await own.tree();
  const word = (await own.given())[0]!;
  const honest = readProof(
    recordCrypto.hashing,
    new Map((await loadSealed(documents, runId))!.proof.map((m) => [m.name, m.bytes])),
  )!;
  const shown = [];
  for await (const p of own.leaves()) {
    const seen = p.leaf.leaf === 'witnessed';
    const later = 'run' in p.leaf && p.leaf.run === run && p.leaf.at >= at;
    if (seen || later || p.leaf.leaf === 'sealed') shown.push(p);
  }
  expect(shown.map((p) => p.leaf.leaf)).toEqual(['witnessed', 'opened', 'sealed']);
  const opened = shown[1]!.index;
  const size = tree.size;
  const beside = { size: opened, root: tree.root(opened), path: tree.consistency(opened, size) };
  const forged = proofMembers(recordCrypto.hashing, {
    ...honest,
    before: await own.note(opened),
    after: await own.note(size),
    leaves: shown.map(({ index, text }) => ({ index, text, path: tree.inclusion(index, size) })),
    trees: [beside],
    seen: word.note,
    keys: [Uint8Array.from(Buffer.from(word.by.what === 'cosignature' ? word.by.publicKey : '', 'hex'))],
  });
  for (const name of members.keys()) if (name.startsWith('witness/')) members.delete(name);
  // He can sign the sums too; without them the file is incomplete, which is not what is asked here.
  const rest = [...members].map(([name, bytes]) => ({ name, bytes }));
  const place = rest.findIndex((m) => m.name === 'SHA256SUMS');
  const bytes = zipBytes([...rest.slice(0, place), ...forged, ...rest.slice(place)]);
  const v = await verifyJobFile(bytesSource(bytes), {
    crypto: recordCrypto,
    trusted: new Map(),
    sense: null,
    judge: null,
  });
  const leaves = v.witness!.proof.leaves.map((l) => readLeaf(l.text)!.leaf);
  expect(leaves).toEqual(['witnessed', 'opened', 'sealed']);
  expect(v.remarks.filter((r) => r.r === 'bounded' && r.side === 'not-before')).toEqual([]);
  expect(v.findings).toContainEqual({ f: 'witness', why: 'content' });
}, 60_000);

const { subtle } = globalThis.crypto;

it.each([
  ['more pages than are left of it', 'head'],
  ['that it was opened as practice', 'opened'],
] as const)(
  'a log that noted %s does not speak for the record',
  async (_, leaf) => {
    const tablet = createOffice();
    await tablet.keepJob();
    const runId = await tablet.record({ holdS: 5 });
    const run = runHash(recordCrypto.hashing, runId);
    const at = Math.round(tablet.bench.wall.ms);
    const log = createWitnessLog(tablet.documents, () => 1);
    await log.append(
      leafText(
        leaf === 'head'
          ? { leaf, at, run, page: 1_000_000, head: '0'.repeat(64) }
          : { leaf, at, run, practice: true },
      ),
    );
    await tablet.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
    const { file } = await tablet.ask({ q: 'job-file', ref: { kind: 'run', runId } });
    const v = await tablet.ask({ q: 'verify', file, name: 'job.zip' });
    expect([v.verdict, v.findings]).toEqual(['changed', [{ f: 'witness', why: 'content' }]]);
  },
  60_000,
);
