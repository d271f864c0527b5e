import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { toHex } from './hex.ts';
import { contentOf, readContent } from './manifest.ts';
import { hashPages } from './page-hashes.ts';
import { scanPages, scanRun } from './reader.ts';
import { createRecordCrypto } from './signing.ts';
import { recordCrypto, runPages, subtle } from './testing/sealing.ts';

// 400 pages: more than one batch.
const pages = runPages({ seconds: 200 });
const now = createRecordCrypto(
  subtle,
  (bytes) => new Uint8Array(createHash('sha256').update(bytes).digest()),
);

const offsets = (file: Uint8Array): { offset: number; length: number }[] =>
  [...scanPages(file, { chain: false })].flatMap((s) =>
    s.kind === 'page' ? [{ offset: s.page.offset, length: s.page.bytes.length }] : [],
  );

describe('hashes of pages by the platform', () => {
  it.each([
    ['in batches', recordCrypto],
    ['at once', now],
  ])('are those of an independent SHA-256 (Node), %s', async (_, crypto) => {
    const hashes = await hashPages(pages, crypto);
    const all = offsets(pages);
    expect(all.length).toBeGreaterThan(400);
    for (const { offset, length } of all)
      expect(toHex(hashes(offset, length)!)).toBe(
        createHash('sha256')
          .update(pages.subarray(offset, offset + length))
          .digest('hex'),
      );
  });

  it('are not given for another place or length', async () => {
    const hashes = await hashPages(pages, recordCrypto);
    const { offset, length } = offsets(pages)[5]!;
    expect(hashes(offset, length - 8)).toBeNull();
    expect(hashes(offset + 8, length)).toBeNull();
  });

  it.each([
    ['in batches', recordCrypto],
    ['at once', now],
  ])('give the same content, damage and chain as the hashes computed here, %s', async (_, crypto) => {
    const [, second, third] = offsets(pages);
    const changed = (at: number, value: number): Uint8Array => {
      const copy = pages.slice();
      copy[at] = value;
      return copy;
    };
    const files = [
      pages,
      pages.subarray(0, pages.length - 100),
      changed(second!.offset + 300, 0x55), // a CRC that fails
      changed(second!.offset + 2, 0), // no page begins here
      changed(second!.offset + 13, 0xff), // a lying length
      changed(third!.offset + 14, 0xff), // a length past all bounds
      pages.slice(0, third!.offset + 20),
      new Uint8Array(0),
      new Uint8Array(4096),
    ];
    for (const file of files) expect(await readContent(file, crypto)).toEqual(contentOf(file));
  });

  it('never hide a page that breaks the chain', async () => {
    // A page taken out: each that is left stands in itself.
    const [, , third, fourth] = offsets(pages);
    const cut = new Uint8Array([...pages.subarray(0, third!.offset), ...pages.subarray(fourth!.offset)]);
    const hashes = await hashPages(cut, recordCrypto);
    expect(scanRun(cut, {}, { hashes }).damage).toEqual(scanRun(cut).damage);
    // A page put before by another run's: the following one names another page before it.
    const other = runPages({ seconds: 200, change: (e, i) => (i === 30 ? { ...e, tUs: e.tUs + 1 } : e) });
    const swapped = pages.slice();
    swapped.set(
      other.subarray(offsets(other)[1]!.offset, offsets(other)[2]!.offset),
      offsets(pages)[1]!.offset,
    );
    const found = scanRun(swapped, {}, { hashes: await hashPages(swapped, recordCrypto) }).damage;
    expect(found.map((d) => d.what)).toEqual(['chain']);
    expect(found).toEqual(scanRun(swapped).damage);
  });

  it('work on a file that is a part of a larger buffer', async () => {
    const large = new Uint8Array(pages.length + 24);
    large.set(pages, 16);
    expect(await readContent(large.subarray(16, 16 + pages.length), recordCrypto)).toEqual(contentOf(pages));
  });
});
