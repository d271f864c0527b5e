/** SHA-256 of every page of a run, by the platform: several times as fast as computing them one after the other here. */
import { hasMagic, MAX_PAGE_BYTES } from './layout.ts';
import type { RecordCrypto } from './signing.ts';

/** The hash of the page at `offset` that is `length` bytes long; null where it was not computed. */
export type PageHashes = (offset: number, length: number) => Uint8Array | null;

/** So many are asked for at once: enough to keep the platform's threads busy, few enough to bound the memory. */
const BATCH = 256;
const HASH_BYTES = 32;
/** Place of the page's length, a 32-bit little-endian number, in its header. */
const LENGTH_AT = 12;

interface Span {
  readonly offset: number;
  readonly length: number;
}

/**
 * Where pages lie, as far as each begins where the one before ends. Nothing is trusted by it: the reader asks by
 * place and length, checks the page itself, and hashes for itself what was not foreseen.
 */
function* spans(file: Uint8Array): Generator<Span, void, undefined> {
  const view = new DataView(file.buffer, file.byteOffset, file.length);
  for (let offset = 0; offset + LENGTH_AT + 4 <= file.length && hasMagic(file, offset); ) {
    const length = view.getUint32(offset + LENGTH_AT, true);
    if (length <= LENGTH_AT || length > MAX_PAGE_BYTES || offset + length > file.length) return;
    yield { offset, length };
    offset += length;
  }
}

/** Hashes the pages of a run's file, whether good or not. Holds 32 bytes a page. */
export async function hashPages(file: Uint8Array, crypto: RecordCrypto): Promise<PageHashes> {
  const { sha256Now } = crypto;
  if (sha256Now !== undefined) return (offset, length) => sha256Now(file.subarray(offset, offset + length));
  const found = new Map<number, { readonly length: number; readonly hash: Uint8Array }>();
  let batch: Span[] = [];
  const run = async (): Promise<void> => {
    const now = batch;
    batch = [];
    const hashes = await Promise.all(
      now.map(({ offset, length }) => crypto.sha256(file.subarray(offset, offset + length))),
    );
    const kept = new Uint8Array(now.length * HASH_BYTES);
    now.forEach(({ offset, length }, i) => {
      kept.set(hashes[i]!, i * HASH_BYTES);
      found.set(offset, { length, hash: kept.subarray(i * HASH_BYTES, (i + 1) * HASH_BYTES) });
    });
  };
  for (const span of spans(file)) {
    batch.push(span);
    if (batch.length === BATCH) await run();
  }
  await run();
  return (offset, length) => {
    const known = found.get(offset);
    return known?.length === length ? known.hash : null;
  };
}
