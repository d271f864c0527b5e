import { expect, it } from 'vitest';
import { bytesSource } from '../record/byte-source.ts';
import { SCRIPT_SHA256 } from '../record/hashing.ts';
import { toHex } from '../record/hex.ts';
import { readRun } from '../record/reader.ts';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import { type DocumentStore, StoreError } from '../record/stores/store.ts';
import { createMemoryStore } from '../record/stores/testing/memory.ts';
import { createWitnessLog } from '../record/stores/witness-log.ts';
import { readLeaf, runHash } from '../record/witness/leaves.ts';
import { fileOf } from './run-list.ts';
import { createHostBench, practiceSetup } from './testing/bench.ts';

async function leavesIn(documents: DocumentStore) {
  const found = [];
  for await (const { leaves } of createWitnessLog(documents, () => 1).from(0))
    found.push(...leaves.map(readLeaf));
  return found;
}

const OPEN = { q: 'open-run', jobId: null, title: 'x', practice: true, setup: practiceSetup() } as const;

it('a run is noted when it opens, every five minutes by the head of its chain, and at its end', async () => {
  const documents = createMemoryDocuments();
  const files = createMemoryStore();
  const b = createHostBench({ documents, files });
  await b.connectRig();
  const { runId } = await b.ask(OPEN);
  await b.run(620_000);
  await b.ask({ q: 'end-run' });
  const leaves = await leavesIn(documents);
  expect(leaves.map((l) => l?.leaf)).toEqual(['opened', 'head', 'head', 'ended']);
  const hashes: string[] = [];
  await readRun(bytesSource(await files.readAll(fileOf(runId))), {
    page: (_, hash) => void hashes.push(toHex(hash)),
  });
  const run = runHash(SCRIPT_SHA256, runId);
  expect(leaves[0]).toMatchObject({ run, practice: true });
  for (const leaf of leaves.slice(1)) {
    if (leaf === null || !('page' in leaf)) throw new Error('a head of the chain is missing');
    expect([leaf.run, leaf.head]).toEqual([run, hashes[leaf.page]]);
  }
  expect(leaves.at(-1)).toMatchObject({ page: hashes.length - 1 });
  const ats = leaves.map((l) => l!.at);
  expect(ats[1]! - ats[0]!).toBeGreaterThan(295_000);
  expect(ats[1]! - ats[0]!).toBeLessThan(305_000);
}, 60_000);

it('a log that is refused is an alarm, stops nothing, and has every leaf in its order when it takes them again', async () => {
  const over = createMemoryDocuments();
  let full = false;
  const documents: DocumentStore = {
    ...over,
    get: (kind, id) => over.get(kind, id),
    list: (kind) => over.list(kind),
    remove: (kind, id) => over.remove(kind, id),
    async put(document) {
      if (full && document.kind === 'log') throw new StoreError('full', 'no room');
      return over.put(document);
    },
  };
  const b = createHostBench({ documents });
  await b.connectRig();
  full = true;
  await b.ask(OPEN);
  await b.run(3000);
  const store = () => b.moment().view.alarms.some((a) => a.alarm === 'store-fault');
  expect(store()).toBe(true);
  await b.run(310_000);
  full = false;
  await b.run(61_000);
  await b.ask({ q: 'end-run' });
  expect((await leavesIn(documents)).map((l) => l?.leaf)).toEqual(['opened', 'head', 'ended']);
}, 60_000);
