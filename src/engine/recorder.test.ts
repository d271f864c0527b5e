import { describe, expect, it } from 'vitest';
import { type LogEntry, type LogHead, STATE_SAMPLES } from '../record/log.ts';
import { scanRun } from '../record/reader.ts';
import { startAfter } from '../record/recovery.ts';
import { type AppendFile, StoreError } from '../record/stores/store.ts';
import { createLossyStore, createMemoryStore } from '../record/stores/testing/memory.ts';
import { createRecorder } from './recorder.ts';

const HEAD: LogHead = {
  format: 1,
  engine: 1,
  runId: 'r',
  jobId: null,
  practice: false,
  utcMs: 0,
  software: 'test',
};
const sample = (i: number): LogEntry => ({
  l: 'frame',
  tUs: i * 20_000,
  frame: { t: 'S', seq: i, tick: i * 200, counts: [i], status: 0 },
});

/** A file that refuses on demand, half-way through an append, or has room for so many bytes. */
function moody(file: AppendFile) {
  const mood = { full: false, room: Number.POSITIVE_INFINITY };
  const wrapped: AppendFile = {
    get size() {
      return file.size;
    },
    append(bytes) {
      if (mood.full || file.size + bytes.length > mood.room) {
        file.append(bytes.subarray(0, bytes.length >> 1));
        throw new StoreError('full', 'no room');
      }
      file.append(bytes);
    },
    flush: () => file.flush(),
    truncate: (size) => file.truncate(size),
    read: (offset, length) => file.read(offset, length),
    close: () => file.close(),
  };
  return { wrapped, mood };
}

describe('the recorder', () => {
  it('has everything at rest after a flush, and only what was flushed after the machine died', async () => {
    const store = createLossyStore();
    const recorder = createRecorder(await store.open('r.pages'), HEAD, { fault() {} });
    for (let i = 0; i < 100; i++) recorder.entry(sample(i));
    expect(recorder.flush(1)).toBe(true);
    expect(recorder.savedUs).toBe(99 * 20_000);
    for (let i = 100; i < 125; i++) recorder.entry(sample(i));
    const after = store.kill();
    const scan = scanRun(await after.readAll('r.pages'));
    expect(scan).toMatchObject({ samples: 100, end: null, damage: [] });
  });

  it('keeps what a full store refused, says so once, and writes it whole when there is room', async () => {
    const store = createMemoryStore();
    const { wrapped, mood } = moody(await store.open('r.pages'));
    const said: (string | null)[] = [];
    const recorder = createRecorder(wrapped, HEAD, { fault: (code) => said.push(code) });
    recorder.entry(sample(0));
    recorder.flush(null);
    mood.full = true;
    for (let i = 1; i < 50; i++) {
      recorder.entry(sample(i));
      expect(recorder.flush(null)).toBe(false);
    }
    expect(said).toEqual(['full']);
    expect(recorder.savedUs).toBe(0);
    mood.full = false;
    recorder.entry(sample(50));
    expect(recorder.flush(null)).toBe(true);
    expect(said).toEqual(['full', null]);
    expect(recorder.end(null, 'ended')).toBe(true);
    const scan = scanRun(await store.readAll('r.pages'));
    expect(scan).toMatchObject({ samples: 51, end: 'ended', damage: [] });
  });

  it('never throws at the guard: what does not fit a page is told and stays told', async () => {
    const said: (string | null)[] = [];
    const store = createMemoryStore();
    const recorder = createRecorder(await store.open('r.pages'), HEAD, { fault: (code) => said.push(code) });
    recorder.entry(sample(5));
    recorder.entry(sample(4));
    recorder.entry(sample(6));
    expect(recorder.flush(null)).toBe(true);
    expect(said).toEqual(['failed']);
    expect(recorder.fault).toBe('failed');
    expect(scanRun(await store.readAll('r.pages')).samples).toBe(2);
  });

  it('an end that cannot be written waits with all the rest, and is written when there is room', async () => {
    const store = createMemoryStore();
    const { wrapped, mood } = moody(await store.open('r.pages'));
    const said: (string | null)[] = [];
    const recorder = createRecorder(wrapped, HEAD, { fault: (code) => said.push(code) });
    recorder.entry(sample(0));
    mood.full = true;
    recorder.flush(null);
    recorder.entry(sample(1));
    expect(recorder.end(null, 'ended')).toBe(false);
    expect(said).toEqual(['full']);
    expect(recorder.flush(null)).toBe(false);
    mood.full = false;
    expect(recorder.flush(null)).toBe(true);
    expect(said).toEqual(['full', null]);
    expect(scanRun(await store.readAll('r.pages'))).toMatchObject({ samples: 2, end: 'ended', damage: [] });
    // The file is free again.
    (await store.open('r.pages')).close();
  });

  it('what has found room is at rest, and is not written again', async () => {
    const store = createMemoryStore();
    const { wrapped, mood } = moody(await store.open('r.pages'));
    const recorder = createRecorder(wrapped, HEAD, { fault() {} });
    mood.full = true;
    for (let i = 0; i < 20; i++) {
      recorder.entry(sample(i));
      recorder.flush(null);
    }
    const all = recorder.waitingBytes;
    mood.full = false;
    mood.room = all / 2;
    expect(recorder.flush(null)).toBe(false);
    expect(recorder.bytes).toBeGreaterThan(all / 3);
    expect(recorder.bytes + recorder.waitingBytes).toBe(all);
    const standing = scanRun(await store.readAll('r.pages')).samples;
    expect(standing).toBeGreaterThan(5);
    expect(recorder.savedUs).toBe((standing - 1) * 20_000);
    mood.room = Number.POSITIVE_INFINITY;
    expect(recorder.flush(null)).toBe(true);
    expect(scanRun(await store.readAll('r.pages'))).toMatchObject({ samples: 20, damage: [] });
  });

  it('a backlog is written a piece with each flush: the guard waits for no more than that', async () => {
    const store = createMemoryStore();
    const { wrapped, mood } = moody(await store.open('r.pages'));
    const recorder = createRecorder(wrapped, HEAD, { fault() {} });
    mood.full = true;
    for (let i = 0; i < 250_000; i++) {
      recorder.entry(sample(i));
      if (i % 2000 === 0) recorder.flush(null);
    }
    mood.full = false;
    const all = recorder.waitingBytes;
    expect(all).toBeGreaterThan(4 << 20);
    expect(recorder.flush(null)).toBe(false);
    expect(recorder.bytes).toBeLessThan(3 << 20);
    while (!recorder.flush(null));
    expect(scanRun(await store.readAll('r.pages'))).toMatchObject({ samples: 250_000, damage: [] });
  });

  it('keeps no more for a store that refuses than it may, and says to its end that the record has a hole', async () => {
    const store = createMemoryStore();
    const { wrapped, mood } = moody(await store.open('r.pages'));
    const said: (string | null)[] = [];
    const mostWaiting = 100_000;
    const recorder = createRecorder(wrapped, HEAD, { mostWaiting, fault: (code) => said.push(code) });
    mood.full = true;
    for (let i = 0; i < 50_000; i++) {
      recorder.entry(sample(i));
      if (i % 25 === 0) recorder.flush(null);
    }
    expect(recorder.waitingBytes).toBeLessThan(mostWaiting + 2000);
    mood.full = false;
    expect(recorder.flush(null)).toBe(true);
    recorder.entry(sample(50_000));
    recorder.flush(null);
    expect(said).toEqual(['full', 'failed']);
    const scan = scanRun(await store.readAll('r.pages'));
    expect(scan.damage).toEqual([]);
    expect(scan.samples).toBeGreaterThan(3000);
    expect(scan.samples).toBeLessThan(10_000);
    expect(scan.lastUs).toBe(50_000 * 20_000);
  });

  it('gives its bytes with what waits, and given up closes its file without an end', async () => {
    const store = createMemoryStore();
    const { wrapped, mood } = moody(await store.open('r.pages'));
    const recorder = createRecorder(wrapped, HEAD, { fault() {} });
    recorder.entry(sample(0));
    recorder.flush(null);
    mood.full = true;
    for (let i = 1; i < 5; i++) {
      recorder.entry(sample(i));
      recorder.flush(null);
    }
    const pieces: Uint8Array[] = [];
    for (let from = 0; ; from += pieces.at(-1)!.length) {
      const piece = recorder.read(from, 100);
      if (piece.length === 0) break;
      pieces.push(piece);
    }
    expect(scanRun(new Uint8Array(Buffer.concat(pieces)))).toMatchObject({ samples: 5, damage: [] });
    recorder.abandon();
    expect(scanRun(await store.readAll('r.pages'))).toMatchObject({ samples: 1, end: null });
  });

  it('keeps a state behind every 128,000 samples, counted on in a run that is taken up again', async () => {
    const store = createMemoryStore();
    const state = (samples: number) => ({ form: 1, samples, run: { samples } });
    const first = createRecorder(await store.open('a.pages'), HEAD, { fault() {}, state });
    for (let i = 0; i < STATE_SAMPLES + 10; i++) first.entry(sample(i));
    expect(first.flush(1)).toBe(true);
    first.abandon();
    const found: [number, number][] = [];
    const entry = (e: LogEntry) => {
      if (e.l === 'state') found.push([e.state.samples, e.tUs]);
    };
    const scan = scanRun(await store.readAll('a.pages'), { entry });
    expect(scan.damage).toEqual([]);
    expect(found).toEqual([[STATE_SAMPLES, (STATE_SAMPLES - 1) * 20_000]]);
    const start = { ...startAfter(scan)!, samples: 2 * STATE_SAMPLES - 1 };
    const kept: number[] = [];
    const again = createRecorder(await store.open('a.pages'), HEAD, {
      fault() {},
      start,
      state: (samples) => {
        kept.push(samples);
        // One that is longer than a line may be is left out, and nothing else with it.
        return { form: 1, samples, run: { long: 'x'.repeat(1 << 20) } };
      },
    });
    again.entry(sample(STATE_SAMPLES + 10));
    again.entry(sample(STATE_SAMPLES + 11));
    again.end(2, 'ended');
    expect(kept).toEqual([2 * STATE_SAMPLES]);
    const whole = scanRun(await store.readAll('a.pages'), { entry });
    expect(whole).toMatchObject({ damage: [], end: 'ended', samples: STATE_SAMPLES + 12 });
    expect(found).toHaveLength(2);
  });
});
