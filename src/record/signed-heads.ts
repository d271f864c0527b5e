/**
 * What is told first of pages whose bytes are known to be the signed ones: what their headers, the first page and the pages
 * that the manifest and the witness log name say. The entries of the others are left to the whole look.
 */
import type { Sha256 } from './hashing.ts';
import { toHex } from './hex.ts';
import { HASH_BYTES, hasMagic, neededBytes, PAGE_FLAG } from './layout.ts';
import { CHECKPOINT_PAGES, type Manifest } from './manifest.ts';
import { readPage } from './page.ts';

/** Told the hash of a page that somebody else names. */
export interface NamedPages {
  has(index: number): boolean;
  hashed(index: number, hash: Uint8Array): void;
}

const HEAD_MEMBERS = ['runId', 'jobId', 'engine', 'software', 'seen'] as const;

/**
 * Members of the manifest that these pages contradict, by name; all that is looked at costs no more than a step a page and
 * the hashing of those that are named.
 * @param pages as `pagesSha256` of the manifest names them, without damage
 */
export function apartFromHeads(
  pages: Uint8Array,
  manifest: Manifest,
  sha256: Sha256,
  named: NamedPages,
): readonly string[] {
  const first = readPage(pages, 0);
  const head = first.ok ? first.page.head : null;
  if (head === null) return ['pages'];
  const apart: string[] = HEAD_MEMBERS.filter((key) => (head[key] ?? null) !== (manifest[key] ?? null));
  if (head.practice && !manifest.practice) apart.push('practice');
  if (head.utcMs !== manifest.openedUtcMs) apart.push('openedUtcMs');
  const walked = walk(pages, sha256, named);
  const { count, chainHead, checkpoints } = manifest.pages;
  const isSame =
    walked !== null &&
    walked.count === count &&
    walked.chainHead === chainHead &&
    walked.checkpoints.length === checkpoints.length &&
    checkpoints.every(
      ({ page, sha256: hash }, i) => page === i * CHECKPOINT_PAGES && hash === walked.checkpoints[i],
    );
  if (!isSame) apart.push('pages');
  if (walked !== null && endOf(walked.flags) !== manifest.end) apart.push('end');
  return apart;
}

const endOf = (flags: number): Manifest['end'] =>
  (flags & PAGE_FLAG.end) === 0 ? null : (flags & PAGE_FLAG.interrupted) === 0 ? 'ended' : 'interrupted';

interface Walked {
  readonly count: number;
  readonly chainHead: string;
  readonly checkpoints: readonly string[];
  /** Of the last page. */
  readonly flags: number;
}

/** From page to page by what each says of its length; null where that leads to none, or a link does not hold. */
function walk(pages: Uint8Array, sha256: Sha256, named: NamedPages): Walked | null {
  const view = new DataView(pages.buffer, pages.byteOffset, pages.length);
  const checkpoints: string[] = [];
  let before: Uint8Array | null = new Uint8Array(HASH_BYTES);
  let count = 0;
  let flags = 0;
  for (let at = 0; at < pages.length; count++) {
    const length = neededBytes(pages, at);
    const isPage =
      hasMagic(pages, at) && at + length <= pages.length && view.getUint32(at + 16, true) === count;
    // Nothing follows an end mark.
    if (!isPage || (flags & PAGE_FLAG.end) !== 0) return null;
    if (before !== null && !isNamedBy(pages, at, before)) return null;
    flags = view.getUint16(at + 20, true);
    const isCheckpoint = count % CHECKPOINT_PAGES === 0;
    before = null;
    if (isCheckpoint || at + length === pages.length || named.has(count)) {
      before = sha256.of(pages.subarray(at, at + length));
      named.hashed(count, before);
      if (isCheckpoint) checkpoints.push(toHex(before));
    }
    at += length;
  }
  return before === null ? null : { count, chainHead: toHex(before), checkpoints, flags };
}

/** Whether the page at `at` names this hash as that of the page before it. */
function isNamedBy(pages: Uint8Array, at: number, hash: Uint8Array): boolean {
  for (let i = 0; i < HASH_BYTES; i++) if (pages[at + 80 + i] !== hash[i]) return false;
  return true;
}
