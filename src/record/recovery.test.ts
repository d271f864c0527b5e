import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ByteSource, bytesSource } from './byte-source.ts';
import { toHex } from './hex.ts';
import type { LogEntry } from './log.ts';
import { scanRun } from './reader.ts';
import {
  chainEnd,
  clockAtResume,
  closeInterrupted,
  recoverFile,
  resumeRun,
  runFileNames,
  runOfFile,
  summarise,
} from './recovery.ts';
import { createLossyStore, createMemoryStore } from './stores/testing/memory.ts';
import { HEAD, plainSamples, SETUP } from './testing/arbitrary.ts';
import { createPageWriter } from './writer.ts';

const TRACE = runFileNames(HEAD.runId).pages;
const UTC = HEAD.utcMs!;

/** Records as the engine does, a cut and a flush each half second, and stops dead behind so many entries. */
async function record(
  store: ReturnType<typeof createLossyStore>,
  list: readonly LogEntry[],
  deadAfter: number,
): Promise<number> {
  const file = await store.open(TRACE);
  const writer = createPageWriter(HEAD);
  let nextCut = 500_000;
  let flushed = 0;
  for (let i = 0; i < deadAfter; i++) {
    const entry = list[i]!;
    while (entry.tUs >= nextCut) {
      const bytes = writer.cut(UTC + nextCut / 1000);
      if (bytes !== null) {
        file.append(bytes);
        file.flush();
      }
      flushed = i;
      nextCut += 500_000;
    }
    writer.addEntry(entry);
  }
  // The moment between append and flush.
  const rest = writer.cut(null);
  if (rest !== null) file.append(rest);
  return flushed;
}

const entriesOf = (bytes: Uint8Array): LogEntry[] => {
  const got: LogEntry[] = [];
  scanRun(bytes, { entry: (e) => got.push(e) });
  return got;
};

describe('recovery', () => {
  const list: LogEntry[] = [{ l: 'setup', tUs: 0, setup: SETUP }, ...plainSamples(600, 50)];

  it('finds what was flushed, whole, wherever the machine died (property)', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 30, max: list.length }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        async (deadAfter, part) => {
          const store = createLossyStore();
          const flushed = await record(store, list, deadAfter);
          const after = store.kill((unflushed) => Math.floor(unflushed * part));
          const file = await after.open(TRACE);
          const { scan } = await recoverFile(file);
          expect(scan.end).toBeNull();
          expect(file.size).toBe(scan.goodBytes);
          const got = entriesOf(await after.readAll(TRACE));
          expect(got).toEqual(list.slice(0, got.length));
          expect(got.length).toBeGreaterThanOrEqual(flushed);
          // At most a second of trace was at risk.
          expect(list[deadAfter - 1]!.tUs - (got[got.length - 1]?.tUs ?? 0)).toBeLessThanOrEqual(1e6);
          expect((await recoverFile(file)).cutBytes).toBe(0);
        },
      ),
      { seed: 20261125, numRuns: 60 },
    );
  });

  it('closes a run as interrupted, in the chain, once', async () => {
    const store = createLossyStore();
    await record(store, list, 333);
    const after = store.kill();
    const file = await after.open(TRACE);
    const { scan } = await recoverFile(file);
    expect(scan.end).toBeNull();
    closeInterrupted(file, scan, UTC + 99_000);
    const again = (await recoverFile(file)).scan;
    expect(again).toMatchObject({ damage: [], end: 'interrupted', pages: scan.pages + 1 });
    expect(() => closeInterrupted(file, again, UTC)).toThrow(/end mark/);
    file.close();
  });

  it('takes a run up again with a marked gap as long as the wall clock says', async () => {
    const store = createLossyStore();
    await record(store, list, 333);
    const after = store.kill();
    const file = await after.open(TRACE);
    const { scan } = await recoverFile(file);
    const { writer, tUs } = resumeRun(scan, scan.lastUtcMs! + 42_000);
    expect(tUs).toBe(scan.lastUs + 42e6);
    for (const e of plainSamples(50, 50, tUs)) writer.addEntry(e);
    file.append(writer.cut(UTC)!);
    file.append(writer.finish(UTC + 1, 'ended'));
    file.flush();
    const bytes = await after.readAll(TRACE);
    expect(scanRun(bytes)).toMatchObject({ damage: [], resumed: true, end: 'ended' });
    const got = entriesOf(bytes);
    const at = got.findIndex((e) => e.l === 'notice');
    expect(got[at]).toEqual({
      l: 'notice',
      tUs,
      notice: { n: 'gap', reason: 'resumed', fromUs: scan.lastUs, toUs: tUs, lost: 0 },
    });
    expect(got.slice(0, at)).toEqual(list.slice(0, at));
    expect(got.slice(at + 1)).toEqual(plainSamples(50, 50, tUs));
  });

  it('counts no time when the wall clock went back or was never known', () => {
    const scan = scanRun(createPageWriter(HEAD).cut(UTC)!);
    expect(clockAtResume(scan, UTC - 5000)).toBe(0);
    expect(clockAtResume(scan, UTC + 48 * 3_600_000)).toBe(48 * 3_600_000_000);
    expect(clockAtResume({ ...scan, lastUtcMs: null, lastUs: 7 }, UTC)).toBe(7);
  });

  it('counts no time when the wall clock went on by more than any run lies: its battery had been flat', () => {
    const scan = scanRun(createPageWriter(HEAD).cut(UTC)!);
    expect(clockAtResume(scan, UTC + 6 * 365 * 86_400_000)).toBe(0);
  });

  it('knows the files of runs by their names; nothing of an empty one can be taken up again', async () => {
    const file = await createMemoryStore().open(TRACE);
    const { scan } = await recoverFile(file);
    expect(() => resumeRun(scan, UTC)).toThrow(/nothing of it stands/);
    expect([runOfFile(TRACE), runOfFile('notes.txt'), runOfFile('.run')]).toEqual([HEAD.runId, null, null]);
  });

  it('knows the end of a long run from a small read, whatever stands in its texts', async () => {
    const writer = createPageWriter(HEAD);
    const chunks = [writer.cut(0)!];
    for (let i = 0; i < 40; i++) {
      writer.addEntry({
        l: 'command',
        tUs: i,
        command: { c: 'note', text: `Sbarpage Sbarpage ${'Sbarpage'.repeat(1500)}` },
      });
      chunks.push(writer.cut(0)!);
    }
    writer.addEntry({ l: 'command', tUs: 99, command: { c: 'note', text: 'Sbarpage'.repeat(40) } });
    writer.addEntry({ l: 'command', tUs: 99, command: { c: 'note', text: `.${'Sbarpage'.repeat(40)}` } });
    for (let i = 0; i < 8; i++)
      writer.addEntry({ l: 'command', tUs: 99, command: { c: 'note', text: `${'.'.repeat(i)}Sbarpage` } });
    chunks.push(writer.finish(0, 'ended'));
    const all = new Uint8Array(Buffer.concat(chunks));
    let read = 0;
    const counted = (bytes: Uint8Array): ByteSource => {
      const source = bytesSource(bytes);
      const counting: ByteSource['read'] = (at, length) => {
        read += length;
        return source.read(at, length);
      };
      return { ...source, read: counting };
    };
    expect(await chainEnd(counted(all))).toBe(toHex(scanRun(all).chainHead));
    expect(read).toBeLessThanOrEqual(1 << 16);
    expect(await chainEnd(counted(all.subarray(0, -8)))).toBeNull();
  });

  it('summarises a run', async () => {
    const writer = createPageWriter(HEAD);
    for (const e of list) writer.addEntry(e);
    writer.addEvent({ tUs: 5, e: 'gap', reason: 'port', fromUs: 1, toUs: 4, lost: 2 });
    const alarm = {
      tUs: 6,
      e: 'alarm',
      alarm: 'ceiling',
      priority: 'urgent',
      occurrence: 1,
      values: {},
    } as const;
    writer.addEvent({ ...alarm, to: 'unacknowledged', why: 'condition' });
    writer.addEvent({ ...alarm, to: 'acknowledged', why: 'acknowledged' });
    const bytes = new Uint8Array(Buffer.concat([writer.cut(1)!, writer.finish(UTC + 12_000, 'ended')]));
    expect(await summarise(bytesSource(bytes), { title: 'T', peakBar: 1.2 })).toEqual({
      runId: HEAD.runId,
      jobId: HEAD.jobId,
      title: 'T',
      practice: false,
      openedUtcMs: UTC,
      endedUtcMs: UTC + 12_000,
      state: 'ended',
      seconds: 599 * 0.02,
      readings: 600,
      peakBar: 1.2,
      gaps: 1,
      alarms: 1,
      sensorChecks: [],
      bytes: bytes.length,
    });
    expect(await summarise(bytesSource(new Uint8Array(9)), { title: '', peakBar: null })).toBeNull();
  });
});
