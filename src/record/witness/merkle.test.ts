import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SCRIPT_SHA256 as sha256 } from '../hashing.ts';
import { fromHex, toHex } from '../hex.ts';
import { isConsistent, isIncluded, leafHash, MerkleTree } from './merkle.ts';
import { VECTORS } from './testing/vectors.ts';

const treeOf = (leaves: readonly Uint8Array[]): MerkleTree => {
  const tree = new MerkleTree(sha256);
  for (const leaf of leaves) tree.append(leaf);
  return tree;
};
const text = (s: string) => new TextEncoder().encode(s);
const hex = (list: readonly Uint8Array[]) => list.map(toHex);

// The eight leaves with which implementations of RFC 6962 are tested. The root of none is SHA-256 of nothing; the others
// are values from memory, of Certificate Transparency's own tests.
const EIGHT = [
  '',
  '00',
  '10',
  '2021',
  '3031',
  '40414243',
  '5051525354555657',
  '606162636465666768696a6b6c6d6e6f',
];
const EIGHT_ROOTS: Readonly<Record<number, string>> = {
  0: 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
  1: '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d',
  2: 'fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125',
  3: 'aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77',
  4: 'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7',
  5: '4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4',
  6: '76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef',
  7: 'ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c',
  8: '5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328',
};

describe('against roots from outside', () => {
  it.each(Object.entries(EIGHT_ROOTS))('%s leaves (RFC 6962, widely used test data)', (size, root) => {
    const tree = treeOf(EIGHT.map((h) => fromHex(h)!));
    expect(toHex(tree.root(Number(size)))).toBe(root);
  });

  it('the seven leaves, made with other tools: leaf hashes, every root, both proofs', () => {
    const leaves = VECTORS.leaves.map(text);
    expect(hex(leaves.map((l) => leafHash(sha256, l)))).toEqual(VECTORS.leafHashes);
    const tree = treeOf(leaves);
    expect(VECTORS.roots.map((_, size) => toHex(tree.root(size)))).toEqual(VECTORS.roots);
    expect(hex(tree.inclusion(VECTORS.inclusion.leaf, VECTORS.inclusion.size))).toEqual(
      VECTORS.inclusion.path,
    );
    expect(hex(tree.consistency(VECTORS.consistency.from, VECTORS.consistency.to))).toEqual(
      VECTORS.consistency.proof,
    );
  });
});

/** The root by the definition of RFC 9162, 2.1.1, without anything kept. */
function plainRoot(leaves: readonly Uint8Array[]): Uint8Array {
  if (leaves.length === 0) return sha256.of(new Uint8Array(0));
  if (leaves.length === 1) return leafHash(sha256, leaves[0]!);
  let k = 1;
  while (2 * k < leaves.length) k *= 2;
  const out = new Uint8Array(65);
  out[0] = 1;
  out.set(plainRoot(leaves.slice(0, k)), 1);
  out.set(plainRoot(leaves.slice(k)), 33);
  return sha256.of(out);
}

describe('for every size up to 40', () => {
  const leaves = Array.from({ length: 40 }, (_, i) => text(`leaf ${i}`));
  const tree = treeOf(leaves);

  it('roots are those of the definition', () => {
    for (let n = 0; n <= 40; n++) expect(toHex(tree.root(n))).toBe(toHex(plainRoot(leaves.slice(0, n))));
  });

  it('every leaf is proved in every tree, and no other leaf, place, size or root by the same path', () => {
    for (let n = 1; n <= 40; n += 1)
      for (let i = 0; i < n; i++) {
        const path = tree.inclusion(i, n);
        const hash = leafHash(sha256, leaves[i]!);
        const root = tree.root(n);
        expect(isIncluded(sha256, { hash, index: i }, { size: n, root }, path)).toBe(true);
        const wrong = leafHash(sha256, text('another'));
        expect(isIncluded(sha256, { hash: wrong, index: i }, { size: n, root }, path)).toBe(false);
        expect(isIncluded(sha256, { hash, index: i + 1 }, { size: n, root }, path)).toBe(false);
        expect(isIncluded(sha256, { hash, index: i }, { size: n, root: tree.root(n - 1) }, path)).toBe(false);
        expect(isIncluded(sha256, { hash, index: i }, { size: n, root }, [...path, root])).toBe(false);
        if (path.length > 0)
          expect(isIncluded(sha256, { hash, index: i }, { size: n, root }, path.slice(1))).toBe(false);
      }
  });

  it('every tree is the beginning of every later one, and none of another log', () => {
    const other = treeOf(leaves.map((l, i) => (i === 3 ? text('changed') : l)));
    for (let n = 0; n <= 40; n++)
      for (let m = 0; m <= n; m++) {
        const older = { size: m, root: tree.root(m) };
        const newer = { size: n, root: tree.root(n) };
        const proof = tree.consistency(m, n);
        expect(isConsistent(sha256, older, newer, proof)).toBe(true);
        if (m > 3) {
          const changed = { size: m, root: other.root(m) };
          expect(isConsistent(sha256, changed, newer, proof)).toBe(false);
          expect(isConsistent(sha256, changed, newer, other.consistency(m, n))).toBe(false);
        }
        if (m > 0 && m < n) {
          expect(isConsistent(sha256, newer, older, proof)).toBe(false);
          expect(isConsistent(sha256, older, newer, proof.slice(1))).toBe(false);
          expect(isConsistent(sha256, older, newer, [...proof, newer.root])).toBe(false);
        }
      }
  });
});

it('whatever is handed in as a proof, nothing throws and nothing false holds', () => {
  const tree = treeOf(Array.from({ length: 21 }, (_, i) => text(String(i))));
  const hash = fc.uint8Array({ minLength: 0, maxLength: 40 });
  fc.assert(
    fc.property(fc.array(hash, { maxLength: 8 }), fc.double(), fc.double(), (proof, a, b) => {
      expect(
        isIncluded(
          sha256,
          { hash: proof[0] ?? tree.root(), index: a },
          { size: b, root: tree.root() },
          proof,
        ),
      ).toBe(false);
      if (a !== b)
        expect(
          isConsistent(sha256, { size: a, root: tree.root(5) }, { size: b, root: tree.root() }, proof),
        ).toBe(false);
    }),
    { seed: 9162, numRuns: 500 },
  );
});

it('says what it does not have', () => {
  const tree = treeOf([text('a')]);
  expect(() => tree.root(2)).toThrow(RangeError);
  expect(() => tree.inclusion(1)).toThrow(RangeError);
  expect(() => tree.consistency(2)).toThrow(RangeError);
});
