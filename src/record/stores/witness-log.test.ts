import { describe, expect, it } from 'vitest';
import { SCRIPT_SHA256 as sha256 } from '../hashing.ts';
import { toHex } from '../hex.ts';
import { leafBytes, leafText } from '../witness/leaves.ts';
import { isConsistent, MerkleTree } from '../witness/merkle.ts';
import { createMemoryDocuments } from './memory-documents.ts';
import { type DocumentStore, StoreError } from './store.ts';
import { createWitnessLog, LEAVES_A_SHEET } from './witness-log.ts';

const leaf = (at: number): string =>
  leafText({ leaf: 'backup', at, backup: toHex(sha256.of(leafBytes(String(at)))) });

async function all(documents: DocumentStore, from = 0): Promise<string[]> {
  const found: string[] = [];
  let at = from;
  for await (const { index, leaves } of createWitnessLog(documents, () => 1).from(from)) {
    expect(index).toBe(at);
    found.push(...leaves);
    at += leaves.length;
  }
  return found;
}

function treeOf(leaves: readonly string[]): MerkleTree {
  const tree = new MerkleTree(sha256);
  for (const l of leaves) tree.append(leafBytes(l));
  return tree;
}

describe('a log over the documents', () => {
  it('gives leaves back in their order over many sheets, from any place on, whoever opens it', async () => {
    const documents = createMemoryDocuments();
    const wanted = Array.from({ length: 3 * LEAVES_A_SHEET + 7 }, (_, i) => leaf(i));
    let log = createWitnessLog(documents, () => 1);
    for (const [i, l] of wanted.entries()) {
      if (i % 50 === 0) log = createWitnessLog(documents, () => 1);
      await log.append(l);
    }
    for (const from of [0, 1, LEAVES_A_SHEET - 1, LEAVES_A_SHEET, 700, wanted.length, wanted.length + 900])
      expect(await all(documents, from)).toEqual(wanted.slice(from));
  });

  it('two that append at once both get a place, in the order of each', async () => {
    const documents = createMemoryDocuments();
    const [a, b] = [createWitnessLog(documents, () => 1), createWitnessLog(documents, () => 1)];
    const many = (of: typeof a, from: number) =>
      (async () => {
        for (let i = 0; i < 300; i++) await of.append(leaf(from + i));
      })();
    await Promise.all([many(a, 0), many(b, 1000)]);
    const found = await all(documents);
    for (const from of [0, 1000]) {
      const mine = Array.from({ length: 300 }, (_, i) => leaf(from + i));
      expect(found.filter((l) => mine.includes(l))).toEqual(mine);
    }
    expect(found).toHaveLength(600);
  });

  it('says what is no log, and takes no leaf that is too long', async () => {
    const documents = createMemoryDocuments();
    await expect(createWitnessLog(documents, () => 1).append('x'.repeat(2000))).rejects.toThrow(RangeError);
    await documents.put({ kind: 'log', id: 'leaves-00000000', revision: 0, savedUtcMs: 1, body: [7] });
    await expect(createWitnessLog(documents, () => 1).append(leaf(1))).rejects.toMatchObject({
      code: 'corrupt',
    });
    await expect(all(documents)).rejects.toMatchObject({ code: 'corrupt' });
  });
});

/** The store of a process that dies at its n-th call: before the disk has it, or with it at rest and nobody told. */
function dying(over: DocumentStore, calls: number, atRest: boolean): DocumentStore {
  let left = calls;
  const dead = (): never => {
    throw new StoreError('silent', 'the process is gone');
  };
  const call = async <T>(work: () => Promise<T>): Promise<T> => {
    if (left < 0) return dead();
    if (left-- > 0) return work();
    if (atRest) await work();
    return dead();
  };
  return {
    get: (kind, id) => call(() => over.get(kind, id)),
    list: (kind) => call(() => over.list(kind)),
    put: (document) => call(() => over.put(document)),
    remove: (kind, id) => call(() => over.remove(kind, id)),
  };
}

it('killed ten times in the middle of an append, and ten times right behind it: one history, nothing told is lost', async () => {
  const documents = createMemoryDocuments();
  const told: string[] = [];
  let at = 0;
  let before = treeOf([]);
  for (let kill = 0; kill < 20; kill++) {
    // Around the end of a sheet too.
    const log = createWitnessLog(dying(documents, 37 + 11 * kill, kill % 2 === 1), () => 1);
    try {
      for (;;) {
        await log.append(leaf(at));
        told.push(leaf(at));
        at++;
      }
    } catch (cause) {
      expect(cause).toMatchObject({ code: 'silent' });
    }
    const found = await all(documents);
    expect(found.slice(0, told.length)).toEqual(told);
    expect(found.length - told.length).toBeLessThanOrEqual(1);
    const tree = treeOf(found);
    const [older, newer] = [before, tree].map((t) => ({ size: t.size, root: t.root() }));
    expect(isConsistent(sha256, older!, newer!, tree.consistency(before.size))).toBe(true);
    before = tree;
    // Whoever asked hands it in again, since nobody told that it rests.
    await createWitnessLog(documents, () => 1).append(leaf(at));
    told.push(leaf(at));
    at++;
    expect(await all(documents)).toEqual(told);
  }
  expect(told.length).toBeGreaterThan(LEAVES_A_SHEET);
});
