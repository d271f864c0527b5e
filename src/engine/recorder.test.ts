import { describe, expect, it } from 'vitest';
import type { LogEntry, LogHead } from '../record/log.ts';
import { scanRun } from '../record/reader.ts';
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

/** A file that refuses on demand, half-way through an append. */
function moody(file: AppendFile) {
  const mood = { full: false };
  const wrapped: AppendFile = {
    get size() {
      return file.size;
    },
    append(bytes) {
      if (mood.full) {
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

  it('tells that the end could not be written', async () => {
    const { wrapped, mood } = moody(await createMemoryStore().open('r.pages'));
    const said: (string | null)[] = [];
    const recorder = createRecorder(wrapped, HEAD, { fault: (code) => said.push(code) });
    mood.full = true;
    expect(recorder.end(null, 'ended')).toBe(false);
    expect(said).toEqual(['full']);
    expect(recorder.fault).toBe('full');
  });
});
