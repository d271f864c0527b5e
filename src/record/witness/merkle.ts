/** Merkle tree over an append-only log: hashes, proofs and their checks as RFC 9162, section 2.1 (those of RFC 6962). */
import { joinBytes, sameBytes } from '../bytes.ts';
import type { Sha256 } from '../hashing.ts';

type Hash = Uint8Array;

/** Nobody's log is longer: a head each five minutes for two hundred years. */
export const MOST_LEAVES = 2 ** 25;

const LEAF = Uint8Array.of(0);
const NODE = Uint8Array.of(1);
export const leafHash = (sha256: Sha256, leaf: Uint8Array): Hash => sha256.of(joinBytes([LEAF, leaf]));
const nodeHash = (sha256: Sha256, left: Hash, right: Hash): Hash => sha256.of(joinBytes([NODE, left, right]));

/** The largest power of two below n; n > 1. */
const split = (n: number): number => 2 ** (31 - Math.clz32(n - 1));

/**
 * The tree of a log that grows. Whole subtrees are kept, so that a leaf costs one hash in the mean, and a root or a
 * proof as many as the logarithm of the size.
 */
export class MerkleTree {
  /** By height: the hash of each whole subtree. */
  private readonly whole: Hash[][] = [[]];

  constructor(private readonly sha256: Sha256) {}

  get size(): number {
    return this.whole[0]!.length;
  }

  /** @throws RangeError past MOST_LEAVES */
  append(leaf: Uint8Array): void {
    this.appendHash(leafHash(this.sha256, leaf));
  }

  /** A leaf whose hash is known. @throws RangeError past MOST_LEAVES */
  appendHash(hash: Hash): void {
    if (this.size >= MOST_LEAVES) throw new RangeError('the log is full');
    let up = hash;
    for (let height = 0; ; height++) {
      let row = this.whole[height];
      if (row === undefined) {
        row = [];
        this.whole.push(row);
      }
      row.push(up);
      if (row.length % 2 === 1) return;
      up = nodeHash(this.sha256, row.at(-2)!, row.at(-1)!);
    }
  }

  /** Hash of the leaves from `from` up to, not with, `to`. */
  private range(from: number, to: number): Hash {
    const n = to - from;
    if (n === 0) return this.sha256.of(new Uint8Array(0));
    const height = 31 - Math.clz32(n);
    if (n === 2 ** height && from % n === 0) return this.whole[height]![from / n]!;
    const k = split(n);
    return nodeHash(this.sha256, this.range(from, from + k), this.range(from + k, to));
  }

  private checked(size: number): void {
    if (!Number.isInteger(size) || size < 0 || size > this.size)
      throw new RangeError(`the log has ${this.size} leaves, not ${size}`);
  }

  /** @throws RangeError where the log is shorter */
  root(size = this.size): Hash {
    this.checked(size);
    return this.range(0, size);
  }

  /** What leads from leaf to root, the nearest first (2.1.3.1). @throws RangeError where there is no such leaf */
  inclusion(leaf: number, size = this.size): Hash[] {
    this.checked(size);
    if (!Number.isInteger(leaf) || leaf < 0 || leaf >= size)
      throw new RangeError(`no leaf ${leaf} of ${size}`);
    const path: Hash[] = [];
    let [from, to] = [0, size];
    while (to - from > 1) {
      const middle = from + split(to - from);
      if (leaf < middle) {
        path.push(this.range(middle, to));
        to = middle;
      } else {
        path.push(this.range(from, middle));
        from = middle;
      }
    }
    return path.reverse();
  }

  /** That the tree of `older` leaves is the beginning of that of `size` (2.1.4.1); empty for none and for the same. */
  consistency(older: number, size = this.size): Hash[] {
    this.checked(size);
    if (!Number.isInteger(older) || older < 0 || older > size)
      throw new RangeError(`no tree of ${older} leaves in one of ${size}`);
    if (older === 0 || older === size) return [];
    const proof: Hash[] = [];
    let [from, to, isRoot] = [0, size, true];
    // The older tree ends at `older`; down to the subtree that it fills.
    while (to !== older) {
      const middle = from + split(to - from);
      if (older <= middle) {
        proof.push(this.range(middle, to));
        to = middle;
      } else {
        proof.push(this.range(from, middle));
        from = middle;
        isRoot = false;
      }
    }
    if (!isRoot) proof.push(this.range(from, to));
    return proof.reverse();
  }
}

const isSize = (n: number): boolean => Number.isInteger(n) && n >= 0 && n <= MOST_LEAVES;
const half = (n: number): number => Math.floor(n / 2);

/** Whether the path leads from a leaf's hash to the root (2.1.3.2). False for whatever does not fit. */
export function isIncluded(
  sha256: Sha256,
  leaf: { readonly hash: Hash; readonly index: number },
  tree: { readonly size: number; readonly root: Hash },
  path: readonly Hash[],
): boolean {
  if (!isSize(tree.size) || !isSize(leaf.index) || leaf.index >= tree.size) return false;
  let [index, last, hash] = [leaf.index, tree.size - 1, leaf.hash];
  for (const beside of path) {
    if (last === 0) return false;
    if (index % 2 === 1 || index === last) {
      hash = nodeHash(sha256, beside, hash);
      while (index % 2 === 0 && index !== 0) {
        index = half(index);
        last = half(last);
      }
    } else hash = nodeHash(sha256, hash, beside);
    index = half(index);
    last = half(last);
  }
  return last === 0 && sameBytes(hash, tree.root);
}

/** Whether the older tree is the beginning of the newer (2.1.4.2). False for whatever does not fit. */
export function isConsistent(
  sha256: Sha256,
  older: { readonly size: number; readonly root: Hash },
  newer: { readonly size: number; readonly root: Hash },
  proof: readonly Hash[],
): boolean {
  if (!isSize(older.size) || !isSize(newer.size) || older.size > newer.size) return false;
  if (older.size === newer.size) return proof.length === 0 && sameBytes(older.root, newer.root);
  // Every tree begins with none.
  if (older.size === 0) return proof.length === 0 && sameBytes(older.root, sha256.of(new Uint8Array(0)));
  let [index, last] = [older.size - 1, newer.size - 1];
  while (index % 2 === 1) {
    index = half(index);
    last = half(last);
  }
  // A tree that is a power of two stands for itself, and is not sent along.
  const rest = index === 0 ? [older.root, ...proof] : [...proof];
  const first = rest.shift();
  if (first === undefined) return false;
  let [was, is] = [first, first];
  for (const beside of rest) {
    if (last === 0) return false;
    if (index % 2 === 1 || index === last) {
      was = nodeHash(sha256, beside, was);
      is = nodeHash(sha256, beside, is);
      while (index % 2 === 0 && index !== 0) {
        index = half(index);
        last = half(last);
      }
    } else is = nodeHash(sha256, is, beside);
    index = half(index);
    last = half(last);
  }
  return last === 0 && sameBytes(was, older.root) && sameBytes(is, newer.root);
}
