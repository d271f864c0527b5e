import { createWebLocks } from '../../src/engine/worker/web-locks.ts';
import { bytesSource, chunksOf } from '../../src/record/byte-source.ts';
import { hashOf } from '../../src/record/hashing.ts';
import { toHex } from '../../src/record/hex.ts';

import { addToSealed } from '../../src/record/seal.ts';
import { createIdbDocuments } from '../../src/record/stores/idb-documents.ts';
import { importSource, keepImport, listImports, sweepImports } from '../../src/record/stores/imports.ts';
import { loadSigner, makeSigner } from '../../src/record/stores/keys.ts';
import { createOpfsStore } from '../../src/record/stores/opfs.ts';
import { keepAdditions, keepSealed, loadSealed } from '../../src/record/stores/sealed-store.ts';
import { createWitnessLog } from '../../src/record/stores/witness-log.ts';
import {
  jobFile,
  recordCrypto,
  runPages,
  sealRun,
  sha256Hex,
  subtle,
} from '../../src/record/testing/sealing.ts';
import { verifyJobFile } from '../../src/record/verify.ts';
import { leafBytes, leafText, readLeaf } from '../../src/record/witness/leaves.ts';
import { MerkleTree } from '../../src/record/witness/merkle.ts';

// Seals and imports one record after another until it is killed, and tells of each step when it is at rest. At the
// next start everything that was told must be there, and nothing may be there in part.

const files = await createOpfsStore('kill');
const documents = await createIdbDocuments('kill');
const state = await loadSigner(documents, subtle);
if (state.state === 'lost') throw new Error('the key is lost');
const signer = state.state === 'ready' ? state.signer : await makeSigner(documents, subtle, 1);
const trusted = new Map([[signer.fingerprint, 'this tablet']]);

const pagesOf = (runId: string): Uint8Array => runPages({ seconds: 4, head: { runId } });

async function work(from: number): Promise<void> {
  for (let i = from; ; i++) {
    const runId = `run-${i}`;
    const pages = pagesOf(runId);
    const leaf = leafText({ leaf: 'backup', at: i, backup: await sha256Hex(pages) });
    // Two that append at the same time, as engine and evidence do.
    const other = leafText({ leaf: 'restored', at: i, backup: await sha256Hex(pages) });
    await Promise.all([
      createWitnessLog(documents, () => i).append(leaf),
      createWitnessLog(documents, () => i).append(other),
    ]);
    self.postMessage({ logged: runId });
    let sealed = await sealRun(pages, signer);
    await keepSealed(documents, runId, sealed, i);
    self.postMessage({ sealed: runId });
    sealed = await addToSealed(sealed, { kind: 'note', body: 'later', utcMs: i }, signer, recordCrypto);
    await keepAdditions(documents, runId, sealed, i);
    self.postMessage({ added: runId });
    const file = await jobFile(pages, sealed, signer);
    const sha256 = toHex(await recordCrypto.sha256(file));
    await keepImport(files, documents, chunksOf(bytesSource(file)), { sha256, runId, name: 'job.zip' }, i);
    self.postMessage({ imported: runId });
  }
}

/** Each leaf once, and the tree of the last look is the beginning of the one there is now. */
async function lookAtLog(found: { logged: string[]; faults: string[] }): Promise<void> {
  const tree = new MerkleTree(recordCrypto.hashing);
  const seen = new Map<number, number>();
  for await (const { leaves } of createWitnessLog(documents, () => 1).from(0))
    for (const text of leaves) {
      tree.append(leafBytes(text));
      const leaf = readLeaf(text);
      if (leaf === null) found.faults.push(`no leaf: ${text}`);
      else seen.set(leaf.at, (seen.get(leaf.at) ?? 0) + 1);
    }
  for (const [i, times] of seen) {
    if (times === 2) found.logged.push(`run-${i}`);
    else if (times > 2) found.faults.push(`the leaves of run-${i} stand there ${times} times`);
  }
  const resting = await documents.get('log', 'signed');
  const before = resting?.body as { size: number; root: string } | undefined;
  if (before !== undefined && (before.size > tree.size || toHex(tree.root(before.size)) !== before.root))
    found.faults.push('another history');
  const body = { size: tree.size, root: toHex(tree.root()) };
  await documents.put({ kind: 'log', id: 'signed', revision: resting?.revision ?? 0, savedUtcMs: 1, body });
}

/** Everything at rest, each piece verified; what is not whole is a fault. */
async function look(): Promise<{
  sealed: string[];
  added: string[];
  imported: string[];
  logged: string[];
  swept: number;
  faults: string[];
}> {
  const swept = (await sweepImports(files, documents, createWebLocks().acquire)).length;
  const found = {
    logged: [] as string[],
    sealed: [] as string[],
    added: [] as string[],
    imported: [] as string[],
    swept,
    faults: [] as string[],
  };
  await lookAtLog(found);
  for (const { id } of await documents.list('seal')) {
    if (id.startsWith('import-')) continue;
    const sealed = (await loadSealed(documents, id))!;
    const file = await jobFile(pagesOf(id), sealed, signer);
    const v = await verifyJobFile(bytesSource(file), {
      crypto: recordCrypto,
      trusted,
      sense: null,
      judge: null,
    });
    if (v.verdict !== 'valid') found.faults.push(`seal of ${id}: ${v.verdict}`);
    found.sealed.push(id);
    if (sealed.additions.length === 1) found.added.push(id);
  }
  for (const { sha256, runId } of await listImports(documents)) {
    const source = await importSource(files, sha256);
    if ((await hashOf(source, recordCrypto.hashing)) !== sha256)
      found.faults.push(`import of ${runId}: other bytes`);
    const v = await verifyJobFile(source, { crypto: recordCrypto, trusted, sense: null, judge: null });
    if (v.verdict !== 'valid') found.faults.push(`import of ${runId}: ${v.verdict}`);
    found.imported.push(runId);
  }
  const expected = found.imported.length;
  if ((await files.list()).length !== expected) found.faults.push('a file that no document names');
  return found;
}

self.onmessage = (event: MessageEvent<{ look?: true; from?: number }>) => {
  const { from } = event.data;
  const job = from === undefined ? look().then((found) => self.postMessage({ found })) : work(from);
  job.catch((error: unknown) => self.postMessage({ error: String(error) }));
};
self.postMessage({ ready: true });
