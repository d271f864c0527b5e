import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NODE_SHA256 } from '../cli/node-crypto.ts';
import { bytesSource } from './byte-source.ts';
import { SCRIPT_SHA256 } from './hashing.ts';
import { toHex } from './hex.ts';
import { headerBytesFor, MAX_PAGE_BYTES, pageBytesFor, writeHeader } from './layout.ts';
import { contentOf, readContent } from './manifest.ts';
import { PageScanner, type Scanned, scanPages } from './page-scanner.ts';
import { readRun, scanRun } from './reader.ts';
import { HEAD, plainSamples } from './testing/arbitrary.ts';
import { runPages } from './testing/sealing.ts';
import { createPageWriter } from './writer.ts';

const file = runPages({ seconds: 6 });
const spans = (bytes: Uint8Array): { offset: number; length: number }[] =>
  [...scanPages(bytes, { chain: false })].flatMap((s) =>
    s.kind === 'page' ? [{ offset: s.page.offset, length: s.page.bytes.length }] : [],
  );

/** What is told of an item whose bytes are gone. */
const told = (item: Scanned) =>
  item.kind === 'damage'
    ? item.damage
    : {
        index: item.page.header.index,
        offset: item.page.offset,
        hash: toHex(item.hash),
        events: item.page.events,
        placed: item.page.placed,
        seq: [...item.page.samples.seq],
      };

/** The file in pieces of such sizes, over and over. */
function inPieces(bytes: Uint8Array, sizes: readonly number[]): ReturnType<typeof told>[] {
  const scanner = new PageScanner({});
  const found: ReturnType<typeof told>[] = [];
  let taken = 0;
  for (let at = 0, i = 0; at < bytes.length; i++) {
    at = Math.min(bytes.length, at + sizes[i % sizes.length]!);
    for (const item of scanner.take(bytes.slice(taken, at), taken, at === bytes.length))
      found.push(told(item));
    taken += scanner.taken;
  }
  return found;
}

describe('a file that comes in pieces', () => {
  it('holds the same pages and the same damage as in one piece, whatever was changed (property)', () => {
    const place = fc.nat({ max: file.length - 1 });
    const change = fc.oneof(
      fc.record({ at: place, set: fc.nat({ max: 255 }) }),
      fc.record({ cut: place, length: fc.nat({ max: 3000 }) }),
      fc.record({ put: place, noise: fc.uint8Array({ minLength: 1, maxLength: 400 }) }),
      fc.record({ again: place, length: fc.nat({ max: 3000 }) }),
    );
    fc.assert(
      fc.property(
        fc.array(change, { maxLength: 4 }),
        fc.array(fc.integer({ min: 1, max: 5000 }), { minLength: 1, maxLength: 5 }),
        (changes, sizes) => {
          let bytes: Uint8Array = file.slice();
          for (const c of changes) {
            if ('at' in c) bytes[Math.min(c.at, bytes.length - 1)] = c.set;
            else if ('cut' in c)
              bytes = Uint8Array.of(...bytes.subarray(0, c.cut), ...bytes.subarray(c.cut + c.length));
            else if ('put' in c)
              bytes = Uint8Array.of(...bytes.subarray(0, c.put), ...c.noise, ...bytes.subarray(c.put));
            else bytes = Uint8Array.of(...bytes, ...bytes.subarray(c.again, c.again + c.length));
          }
          expect(inPieces(bytes, sizes)).toEqual([...scanPages(bytes)].map(told));
        },
      ),
      { seed: 5, numRuns: 150 },
    );
  });

  it('is the same cut at each byte of a header, of a magic, of the end', () => {
    const [, second, third] = spans(file);
    const bad = file.slice();
    bad[second!.offset + 2] = 0; // no page begins here
    for (const bytes of [file, bad, file.subarray(0, third!.offset + 40)])
      for (let cut = second!.offset - 9; cut < second!.offset + 130; cut++)
        expect(inPieces(bytes, [cut, bytes.length]), `cut at ${cut}`).toEqual(
          [...scanPages(bytes)].map(told),
        );
  });

  it('of several megabytes, with pages across the chunks it is read in', async () => {
    const writer = createPageWriter(HEAD);
    const pages: Uint8Array[] = [];
    plainSamples(150_000, 1000).forEach((entry, i) => {
      writer.addEntry(entry);
      if (i % 12_000 === 11_999) pages.push(writer.cut(i)!);
    });
    pages.push(writer.finish(0, 'ended'));
    const long = new Uint8Array(Buffer.concat(pages));
    expect(long.length).toBeGreaterThan(3 << 20);
    const bad = long.slice();
    bad[(1 << 20) + 5]! ^= 1;
    bad.fill(0, 2 << 20, (2 << 20) + 300_000);
    for (const bytes of [long, bad, long.subarray(0, long.length - 1000)]) {
      let read = 0;
      const tap = (chunk: Uint8Array) => {
        read += chunk.length;
      };
      expect(await readRun(bytesSource(bytes), {}, {}, tap)).toEqual(scanRun(bytes));
      expect(read).toBe(bytes.length);
      expect(await readContent(bytesSource(bytes), NODE_SHA256)).toEqual(contentOf(bytes));
    }
  });

  it('of no bytes at all holds nothing', async () => {
    expect(await readRun(bytesSource(new Uint8Array(0)), {})).toEqual(scanRun(new Uint8Array(0)));
    expect(await readContent(bytesSource(new Uint8Array(5)), SCRIPT_SHA256)).toBeNull();
  });

  it('that ends before it said is no end of the run', async () => {
    const short = { size: file.length + 100, read: bytesSource(file).read };
    await expect(readRun(short, {})).rejects.toThrow(RangeError);
  });
});

describe('hashes of pages', () => {
  it.each([
    ['in script', SCRIPT_SHA256],
    ['by Node', NODE_SHA256],
  ])('are those of an independent SHA-256 (Node, stream), %s', (_, sha256) => {
    const hashes: string[] = [];
    scanRun(file, { page: (_page, hash) => hashes.push(toHex(hash)) }, { sha256 });
    expect(hashes).toEqual(
      spans(file).map(({ offset, length }) =>
        createHash('sha256')
          .update(file.subarray(offset, offset + length))
          .digest('hex'),
      ),
    );
    const whole = sha256.hasher();
    for (let at = 0; at < file.length; at += 777) whole.update(file.subarray(at, at + 777));
    expect(toHex(whole.digest())).toBe(createHash('sha256').update(file).digest('hex'));
  });

  it('find a page that was taken out, and one of another run in its place', () => {
    const all = spans(file);
    const cut = Uint8Array.of(...file.subarray(0, all[2]!.offset), ...file.subarray(all[3]!.offset));
    expect(scanRun(cut, {}, { sha256: NODE_SHA256 }).damage.map((d) => d.what)).toEqual(['missing']);
    const other = runPages({ seconds: 6, change: (e, i) => (i === 30 ? { ...e, tUs: e.tUs + 1 } : e) });
    const theirs = spans(other);
    const swapped = file.slice();
    swapped.set(other.subarray(theirs[1]!.offset, theirs[2]!.offset), all[1]!.offset);
    const found = scanRun(swapped, {}, { sha256: NODE_SHA256 }).damage;
    expect(found.map((d) => d.what)).toEqual(['chain']);
    expect(found).toEqual(scanRun(swapped).damage);
  });

  it('work on a file that is a part of a larger buffer', () => {
    const large = new Uint8Array(file.length + 24);
    large.set(file, 16);
    expect(contentOf(large.subarray(16, 16 + file.length))).toEqual(contentOf(file));
  });
});

describe('a file made to keep a reader busy', () => {
  /** Every 144 bytes a header that claims a page of nearly the largest size. */
  function overlapping(size: number): Uint8Array {
    const out = new Uint8Array(size);
    const runId = new TextEncoder().encode('r');
    const headerBytes = headerBytesFor(0, runId.length);
    const entryBytes = MAX_PAGE_BYTES - headerBytes - 64;
    const pageBytes = pageBytesFor(headerBytes, 0, 0, entryBytes);
    const fixed = {
      format: 1 as const,
      headerBytes,
      pageBytes,
      index: 0,
      flags: 1,
      channels: 0,
      runId,
      firstUs: 0,
      lastUs: 0,
    };
    const counts = {
      utcMs: null,
      samples: 0,
      entries: 1,
      entryBytes,
      events: 0,
      eventBytes: 0,
      headBytes: 0,
    };
    for (let at = 0; at + headerBytes <= size; at += 144)
      writeHeader(out.subarray(at), { ...fixed, ...counts, previous: new Uint8Array(32) });
    return out;
  }

  it('costs no more than its size and two pages', () => {
    const size = 5 << 20;
    const scanner = new PageScanner({});
    const found = [...scanner.take(overlapping(size), 0, true)];
    expect(found.map((f) => f.kind)).not.toContain('page');
    expect(scanner.inVain).toBeGreaterThan(0);
    expect(scanner.inVain).toBeLessThanOrEqual(size + 2 * MAX_PAGE_BYTES);
  });

  it('hides no page that stands behind a few of them', () => {
    const bad = overlapping(144);
    const bytes = new Uint8Array(bad.length + file.length);
    bytes.set(bad);
    bytes.set(file, bad.length);
    expect(spans(bytes)).toHaveLength(spans(file).length);
  });
});
