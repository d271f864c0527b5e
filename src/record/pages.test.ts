import { sha256 } from '@noble/hashes/sha2.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { WatchEvent } from '../watch/events.ts';
import { createEntryBytes } from './capture.ts';
import { PAGE_FLAG, readHeader } from './layout.ts';
import type { LogEntry } from './log.ts';
import { pageEntries, readPage } from './page.ts';
import { scanPages } from './page-scanner.ts';
import { scanRun } from './reader.ts';
import { entries, events, HEAD, plainSamples, SETUP } from './testing/arbitrary.ts';
import { captureOf } from './testing/capture.ts';
import { createPageWriter } from './writer.ts';

const concat = (chunks: readonly (Uint8Array | null)[]): Uint8Array =>
  new Uint8Array(Buffer.concat(chunks.filter((c) => c !== null)));

/** A run's file with a cut after so many entries each. */
function runOf(
  list: readonly LogEntry[],
  every: number,
  said: readonly WatchEvent[] = [],
  end = false,
): Uint8Array {
  const writer = createPageWriter(HEAD);
  const chunks: (Uint8Array | null)[] = [];
  list.forEach((entry, i) => {
    writer.addEntry(entry);
    if ((i + 1) % every === 0) chunks.push(writer.cut(1000 + i));
  });
  for (const event of said) writer.addEvent(event);
  chunks.push(end ? writer.finish(null, 'ended') : writer.cut(null));
  return concat(chunks);
}

function contents(file: Uint8Array): {
  got: LogEntry[];
  said: WatchEvent[];
  scan: ReturnType<typeof scanRun>;
} {
  const got: LogEntry[] = [];
  const said: WatchEvent[] = [];
  const scan = scanRun(file, { entry: (e) => got.push(e), event: (e) => said.push(e) });
  return { got, said, scan };
}

describe('pages', () => {
  it('give back every entry and event in its very order (property)', () => {
    fc.assert(
      fc.property(entries, events, fc.integer({ min: 1, max: 30 }), (list, said, every) => {
        const back = contents(runOf(list, every, said, true));
        expect(back.scan.damage).toEqual([]);
        expect(back.scan.end).toBe('ended');
        expect(back.scan.head).toEqual(HEAD);
        expect(back.got).toEqual(list);
        expect(back.said).toEqual(said);
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });

  it('rebuild the bytes that the device sent (property)', async () => {
    await fc.assert(
      fc.asyncProperty(entries, async (list) => {
        const sent = concat(list.map(createEntryBytes()));
        expect(Buffer.from(await captureOf(runOf(list, 9))).equals(Buffer.from(sent))).toBe(true);
      }),
      { seed: 4, numRuns: 100 },
    );
  });

  it('read again as sound, and unchecked, are the same (property)', () => {
    fc.assert(
      fc.property(entries, events, fc.integer({ min: 1, max: 30 }), (list, said, every) => {
        const file = runOf(list, every, said, true);
        const read = (sound: boolean) =>
          [...scanPages(file, { sound })].map((item) => {
            if (item.kind !== 'page') throw new Error(item.damage.what);
            const { header, offset, events: told, placed, head } = item.page;
            return { header, offset, told, entries: [...pageEntries(item.page)], placed, head };
          });
        expect(read(true)).toEqual(read(false));
      }),
      { seed: 8, numRuns: 100 },
    );
  });

  it('hold columns that are typed views where the file lies aligned', () => {
    const file = runOf(plainSamples(50, 50), 25);
    const result = readPage(file, 0);
    if (!result.ok) throw new Error(result.what);
    expect(result.page.samples.dt.buffer).toBe(file.buffer);
    expect(result.page.samples.counts[1]!.buffer).toBe(file.buffer);
    expect(result.page.header.pageBytes % 8).toBe(0);
    // The same from an odd place in memory, by copy.
    const odd = new Uint8Array(file.length + 1);
    odd.set(file, 1);
    const copied = readPage(odd.subarray(1), 0);
    if (!copied.ok) throw new Error(copied.what);
    expect([...copied.page.samples.counts[0]!]).toEqual([...result.page.samples.counts[0]!]);
    expect([...copied.page.samples.status]).toEqual([...result.page.samples.status]);
  });

  it('are chained by SHA-256 from the first on', () => {
    const file = runOf(plainSamples(100, 50), 25);
    let previous = new Uint8Array(32);
    let n = 0;
    for (const item of scanPages(file)) {
      if (item.kind !== 'page') throw new Error(item.damage.what);
      expect(item.page.header.previous).toEqual(previous);
      previous = new Uint8Array(sha256(item.page.bytes));
      expect(item.hash).toEqual(previous);
      n++;
    }
    expect(n).toBe(4);
    expect(scanRun(file).chainHead).toEqual(previous);
  });

  it('carry the head, the resumed mark and the end mark as flags', () => {
    const writer = createPageWriter(HEAD);
    const first = writer.cut(5)!;
    const again = createPageWriter(HEAD, { ...writer.next, lastUs: 0, samples: 0 });
    again.addEntry({ l: 'setup', tUs: 7, setup: SETUP });
    const second = again.cut(6)!;
    const last = again.finish(8, 'interrupted');
    const flags = [first, second, last].map((p) => {
      const h = readHeader(p, 0);
      return h.ok ? h.header.flags : -1;
    });
    expect(flags).toEqual([PAGE_FLAG.head, PAGE_FLAG.resumed, PAGE_FLAG.end | PAGE_FLAG.interrupted]);
    const scan = scanRun(concat([first, second, last]));
    expect(scan).toMatchObject({ damage: [], pages: 3, end: 'interrupted', resumed: true, lastUtcMs: 8 });
  });

  it('survive a flood without a cut: many pages, none over its bound', () => {
    const list = plainSamples(40_000, 1000);
    const file = runOf(list, 1e9);
    const back = contents(file);
    expect(back.scan.pages).toBeGreaterThan(2);
    expect(back.scan.samples).toBe(list.length);
    expect(back.got).toEqual(list);
  });

  it('refuse times that descend or are no whole µs, and texts over the bound, and stay as they were', () => {
    const writer = createPageWriter(HEAD);
    writer.addEntry({ l: 'setup', tUs: 10, setup: SETUP });
    expect(() => writer.addEntry({ l: 'setup', tUs: 9, setup: SETUP })).toThrow(RangeError);
    expect(() => writer.addEntry({ l: 'setup', tUs: 10.5, setup: SETUP })).toThrow(RangeError);
    const text = 'x'.repeat(1 << 20);
    expect(() => writer.addEntry({ l: 'command', tUs: 11, command: { c: 'note', text } })).toThrow(
      /too long/,
    );
    expect(contents(writer.cut(0)!).got).toEqual([{ l: 'setup', tUs: 10, setup: SETUP }]);
    writer.finish(0, 'ended');
    expect(() => writer.addEntry({ l: 'setup', tUs: 99, setup: SETUP })).toThrow(/end mark/);
  });
});

describe('damage', () => {
  const list = plainSamples(200, 50);
  const file = runOf(list, 20);
  const offsets: number[] = [];
  for (const item of scanPages(file)) if (item.kind === 'page') offsets.push(item.page.offset);

  it('of one byte is named by page and span, and costs that page alone', () => {
    for (const k of [1, 4, 9]) {
      const from = offsets[k]!;
      const to = offsets[k + 1] ?? file.length;
      for (let at = from; at < to; at += 37) {
        const bad = file.slice();
        bad[at]! ^= 0x10;
        const { got, scan } = contents(bad);
        expect(scan.damage.map((d) => d.page)).toEqual([k]);
        expect(got).toEqual(list.filter((_, i) => Math.floor(i / 20) !== k));
        expect(scan.damage[0]!.fromUs).toBe(list[20 * k - 1]!.tUs);
        if (k < 9) expect(scan.damage[0]!.toUs).toBe(list[20 * (k + 1)]!.tUs);
      }
    }
  });

  it('by a missing, a doubled, a swapped and a foreign page is told apart', () => {
    const part = (k: number): Uint8Array => file.subarray(offsets[k]!, offsets[k + 1] ?? file.length);
    const whats = (ks: readonly number[]): string[] =>
      scanRun(concat(ks.map(part))).damage.map((d) => `${d.what} ${d.page}+${d.pages}`);
    expect(whats([0, 1, 4, 5])).toEqual(['missing 2+2']);
    expect(whats([0, 1, 1, 2])).toEqual(['order 1+1']);
    expect(whats([0, 2, 1, 3])[0]).toBe('missing 1+1');
    const foreign = createPageWriter({ ...HEAD, runId: 'other' }).cut(0)!;
    expect(scanRun(concat([part(0), foreign, part(1)])).damage.map((d) => d.what)).toEqual(['run']);
  });

  it('by a page made anew, CRC and all, breaks the chain', () => {
    const other = runOf(
      list.map((e, i) =>
        i === 45 && e.l === 'frame' && e.frame.t === 'S' ? { ...e, frame: { ...e.frame, status: 5 } } : e,
      ),
      20,
    );
    const forged = file.slice();
    forged.set(other.subarray(offsets[2]!, offsets[3]!), offsets[2]!);
    expect(scanRun(forged).damage).toMatchObject([{ what: 'chain', page: 3 }]);
    expect(scanRun(forged, {}, { chain: false }).damage).toEqual([]);
  });

  it('at the tail is a tear, whatever follows the last whole page', () => {
    const tail = offsets[9]!;
    for (const size of [tail + 1, tail + 8, tail + 100, file.length - 1]) {
      const { got, scan } = contents(file.slice(0, size));
      expect(scan.damage).toMatchObject([{ what: 'torn', page: 9 }]);
      expect(scan.goodBytes).toBe(tail);
      expect(got).toEqual(list.slice(0, 180));
    }
    // A disk that had made the file longer than what it kept.
    const zeros = file.slice();
    zeros.fill(0, tail);
    expect(scanRun(zeros)).toMatchObject({ goodBytes: tail, damage: [{ what: 'torn', page: 9 }] });
  });

  it('never throws on noise, nor on mutated files (property)', () => {
    const written = new Set(list.map((entry) => JSON.stringify(entry)));
    fc.assert(
      fc.property(
        fc.uint8Array({ maxLength: 600 }),
        fc.array(fc.tuple(fc.nat({ max: file.length - 1 }), fc.nat({ max: 255 })), { maxLength: 12 }),
        (noise, edits) => {
          const bad = file.slice();
          for (const [at, value] of edits) bad[at] = value;
          scanRun(concat([noise, bad, noise]));
          for (const entry of contents(bad).got) expect(written).toContain(JSON.stringify(entry));
          scanRun(noise);
        },
      ),
      { seed: 77, numRuns: 60 },
    );
  });

  it('in a page of a later format is said to be that', () => {
    const later = file.slice(0, offsets[1]!);
    later[8] = 4;
    expect(scanRun(concat([later, file.subarray(offsets[1]!)])).damage[0]).toMatchObject({ what: 'version' });
  });
});
