import { describe, expect, it } from 'vitest';
import { savedOf } from '../evidence/testing/saved-of.ts';
import type { Setup } from '../job/setup.ts';
import { resinOf } from '../job/testing/givens.ts';
import { createScriptedPort } from '../link/testing/device.ts';
import { scanRun } from '../record/reader.ts';
import { runFileNames } from '../record/recovery.ts';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import { type DocumentStore, StoreError } from '../record/stores/store.ts';
import { createLossyStore, createMemoryStore } from '../record/stores/testing/memory.ts';
import { judgeAgain } from './judge-again.ts';
import { snapshotName } from './snapshot.ts';
import { createHostBench, createTestLocks, practiceSetup } from './testing/bench.ts';

const pagesOf = (runId: string): string => runFileNames(runId).pages;
const open = { q: 'open-run', jobId: 'job-1', title: 'x', practice: true, setup: practiceSetup() } as const;

const RESIN = resinOf({
  points: [
    { c: 10, minutes: 240 },
    { c: 20, minutes: 100 },
  ],
});

/** A run in its hold, on a store that forgets what was not flushed. */
async function inHold(more: Partial<Setup> = {}) {
  const files = createLossyStore();
  const documents = createMemoryDocuments();
  const b = createHostBench({ files, documents });
  await b.connectRig();
  const { runId } = await b.ask({ ...open, setup: practiceSetup(more) });
  await b.ask({ q: 'command', command: { c: 'stage', to: 'hold' } });
  await b.run(5000);
  return { b, files, documents, runId };
}

describe('after a crash', () => {
  it('at most a second of trace is lost, and the run is offered and resumed with a marked gap', async () => {
    for (let ms = 0; ms < 500; ms += 90) {
      const { b, files, documents, runId } = await inHold();
      await b.run(ms);
      const diedUs = b.moment().view.tUs;
      const kept = files.kill();
      const scan = scanRun(await kept.readAll(pagesOf(runId)));
      expect(diedUs - scan.lastUs).toBeLessThanOrEqual(1_000_000);
      const after = createHostBench({ files: kept, documents, wallMs: b.wall.ms + 600_000 });
      const { open: offered } = await after.ask({ q: 'start-engine' });
      expect(offered.map((r) => r.runId)).toEqual([runId]);
      await after.connectRig();
      await after.run(1000);
      expect(await after.ask({ q: 'resume-run', runId })).toEqual({ runId });
      await after.run(2000);
      const m = after.moment();
      expect(m.run).toMatchObject({ runId, resumed: true });
      expect(m.view.stage).toBe('hold');
      expect(m.view.limits?.ceilingBar).toBe(1.77);
      await after.ask({ q: 'end-run' });
      const { recorded, again, damage } = judgeAgain(await kept.readAll(pagesOf(runId)));
      expect(damage).toEqual([]);
      expect(again).toEqual(recorded);
      const gap = recorded.find((e) => e.e === 'gap' && e.reason === 'resumed');
      expect(gap).toMatchObject({ e: 'gap' });
      if (gap?.e === 'gap') expect(gap.toUs - gap.fromUs).toBeGreaterThan(590_000_000);
      const window = await savedOf(after).window(runId, 0, 1000, 4000);
      const detail = await savedOf(after).detail(runId, false);
      expect(window.readings).toBe(detail.summary.readings);
    }
  });

  it('a wall clock that was set by years gives the cure no credit', async () => {
    const { b, files, documents, runId } = await inHold({ resin: RESIN });
    const before = b.moment().view.cure!.low;
    const after = createHostBench({
      files: files.kill(),
      documents,
      wallMs: b.wall.ms + 6 * 365 * 86_400_000,
    });
    await after.connectRig();
    await after.ask({ q: 'resume-run', runId });
    await after.run(2000);
    expect(before).toBeLessThan(0.01);
    expect(after.moment().view.cure!.low).toBeLessThan(0.01);
    expect(after.events().filter((e) => e.e === 'cure-met')).toEqual([]);
  });

  it('a torn page is cut off and the run closed as interrupted', async () => {
    const { b, files, documents, runId } = await inHold();
    await b.run(300);
    const kept = files.kill();
    const file = await kept.open(pagesOf(runId));
    file.append(new Uint8Array(77).fill(1));
    file.flush();
    file.close();
    const after = createHostBench({ files: kept, documents });
    expect(await after.ask({ q: 'close-interrupted', runId })).toBeNull();
    const scan = scanRun(await kept.readAll(pagesOf(runId)));
    expect(scan).toMatchObject({ end: 'interrupted', damage: [] });
    const [summary] = await after.ask({ q: 'runs' });
    expect(summary).toMatchObject({ runId, state: 'interrupted', readings: scan.samples });
    await expect(after.ask({ q: 'resume-run', runId })).rejects.toMatchObject({ code: 'refused' });
    expect((await after.ask({ q: 'start-engine' })).open).toEqual([]);
  });

  it('a file whose list entry was never written is found', async () => {
    const { files, runId } = await inHold();
    const after = createHostBench({ files: files.kill() });
    const { open: offered } = await after.ask({ q: 'start-engine' });
    expect(offered).toMatchObject([{ runId, state: 'open' }]);
  });

  it('a run that another tab holds is not offered', async () => {
    const locks = createTestLocks();
    const files = createMemoryStore();
    const documents = createMemoryDocuments();
    const b = createHostBench({ files, documents, locks });
    await b.ask(open);
    await b.run(1000);
    const other = createHostBench({ files, documents, locks });
    expect((await other.ask({ q: 'start-engine' })).open).toEqual([]);
  });

  it('another device is not taken for the one that the run began with', async () => {
    const { files, documents, runId } = await inHold();
    const after = createHostBench({ files: files.kill(), documents });
    await after.connectRig('normal');
    await after.run(500);
    await after.ask({ q: 'resume-run', runId });
    await after.run(100);
    const { view } = after.moment();
    await after.run(3000);
    const now = after.moment();
    expect(now.run?.runId).toBe(runId);
    expect(now.link).toMatchObject({ error: 'other-device', hello: null });
    expect(now.link.other).not.toBeNull();
    expect(now.view.bar).toBe(view.bar);
    const lost = now.view.alarms.find((a) => a.alarm === 'pressure-lost');
    expect(lost).toMatchObject({ state: 'unacknowledged', values: { cause: 'other-device' } });
    expect(now.view.limits?.ceilingBar).toBe(1.77);
  });

  it('a practice is not gone on with at a real line, nor a real run on the rig', async () => {
    const { files, documents, runId } = await inHold();
    const { port } = createScriptedPort();
    const after = createHostBench({
      files: files.kill(),
      documents,
      openPort: async () => ({ port, rig: null, speed: 1 }),
    });
    const serial = { kind: 'serial', index: 0, usbVendorId: null, usbProductId: null } as const;
    await after.ask({ q: 'connect', port: serial });
    await expect(after.ask({ q: 'resume-run', runId })).rejects.toMatchObject({ code: 'other-device' });
    expect(after.moment().run).toBeNull();
  });
});

describe('a snapshot', () => {
  /** Runs over a minute, dies, and is resumed: the events and the trace of the whole run. */
  async function resumed(spoil: (text: string) => string) {
    const files = createLossyStore();
    const documents = createMemoryDocuments();
    const b = createHostBench({ files, documents });
    await b.connectRig();
    const { runId } = await b.ask(open);
    await b.ask({ q: 'command', command: { c: 'stage', to: 'hold' } });
    await b.run(75_000);
    const kept = files.kill();
    const name = snapshotName(runId);
    const text = new TextDecoder().decode(await kept.readAll(name));
    const file = await kept.open(name);
    file.truncate(0);
    file.append(new TextEncoder().encode(spoil(text)));
    file.flush();
    file.close();
    const after = createHostBench({ files: kept, documents, wallMs: b.wall.ms + 100_000 });
    await after.connectRig();
    await after.ask({ q: 'resume-run', runId });
    await after.run(3000);
    await after.ask({ q: 'end-run' });
    const bytes = await kept.readAll(pagesOf(runId));
    const { recorded, again } = judgeAgain(bytes);
    expect(again).toEqual(recorded);
    const { summary } = await savedOf(after).detail(runId, false);
    const window = await savedOf(after).window(runId, 0, 500, 4000);
    expect(window.readings).toBe(summary.readings);
    expect(summary.readings).toBe(scanRun(bytes).samples);
    expect((await kept.list()).map((f) => f.name)).not.toContain(name);
    return { text, alarms: summary.alarms };
  }

  it('is gone on from, and gives what judging from the start gives', async () => {
    // A figure that only the snapshot holds tells that it was used.
    const { text, alarms } = await resumed((t) => t.replace(/"alarms":\d+/, '"alarms":500'));
    expect(JSON.parse(text)).toMatchObject({ schema: 'steadybar-snapshot/5', engine: 1 });
    expect(alarms).toBeGreaterThanOrEqual(500);
  });

  it.each([
    ['torn', (t: string) => t.slice(0, t.length >> 1)],
    ['empty', () => ''],
    ['of other pages', (t: string) => t.replace(/"previous":"[0-9a-f]{4}/, '"previous":"0000')],
    ['of another engine', (t: string) => t.replace('"engine":1', '"engine":0')],
    ['ahead of the pages', (t: string) => t.replace(/"index":\d+/, '"index":99999')],
  ])('is left aside when it is %s', async (_what, spoil) => {
    expect((await resumed(spoil)).alarms).toBeLessThan(500);
  });
});

describe('a store that refuses', () => {
  it('is an alarm and never stops the guard', async () => {
    const files = createMemoryStore(30_000);
    const b = createHostBench({ files });
    await b.connectRig();
    await b.ask(open);
    for (let s = 0; s < 60 && b.moment().run?.storeFault == null; s++) await b.run(1000);
    expect(b.moment().run?.storeFault).toBe('full');
    await b.run(1000);
    expect(b.moment().view.alarms.find((a) => a.alarm === 'store-fault')?.state).toBe('unacknowledged');
    const before = b.moment().view.tUs;
    await b.run(2000);
    expect(b.moment().view.tUs).toBeGreaterThan(before + 1_900_000);
    expect(b.moment().view.stale).toBe(false);
  });

  /** A run whose disk is full: a file of something else takes the room. */
  async function onFullDisk() {
    const files = createMemoryStore(60_000);
    const documents = createMemoryDocuments();
    const filler = await files.open('filler');
    filler.append(new Uint8Array(30_000));
    filler.flush();
    filler.close();
    const b = createHostBench({ files, documents });
    await b.connectRig();
    const { runId } = await b.ask(open);
    for (let s = 0; s < 60 && b.moment().run?.storeFault == null; s++) await b.run(1000);
    await b.run(3000);
    return { files, documents, b, runId };
  }

  it('keeps its run from ending until there is room: nothing of it is lost, and the guard goes on', async () => {
    const { files, b, runId } = await onFullDisk();
    await expect(b.ask({ q: 'end-run' })).rejects.toMatchObject({ code: 'full' });
    await b.run(2000);
    expect(b.moment().run?.runId).toBe(runId);
    expect(b.moment().view.stale).toBe(false);
    const waiting = scanRun(await b.pages());
    expect(waiting.samples).toBeGreaterThan(scanRun(await files.readAll(pagesOf(runId))).samples + 200);
    await files.remove('filler');
    expect(await b.ask({ q: 'end-run' })).toEqual({ runId });
    const scan = scanRun(await files.readAll(pagesOf(runId)));
    expect(scan).toMatchObject({ end: 'ended', damage: [] });
    expect(scan.samples).toBeGreaterThanOrEqual(waiting.samples);
    const { recorded, again } = judgeAgain(await files.readAll(pagesOf(runId)));
    expect(again).toEqual(recorded);
    expect((await b.ask({ q: 'runs' }))[0]).toMatchObject({ runId, state: 'ended' });
  });

  it('given up, its run ends without what waits, which was given out before, and is offered at the next start', async () => {
    const { files, documents, b, runId } = await onFullDisk();
    const pages = await b.pages();
    expect(await b.ask({ q: 'end-run', givenUp: true })).toEqual({ runId });
    await b.run(1000);
    expect(b.moment().run).toBeNull();
    const left = await files.readAll(pagesOf(runId));
    expect(pages.length).toBeGreaterThan(left.length + 5000);
    expect(Buffer.from(pages.subarray(0, left.length)).equals(Buffer.from(left))).toBe(true);
    const after = createHostBench({ files, documents });
    expect((await after.ask({ q: 'start-engine' })).open).toMatchObject([{ runId, state: 'open' }]);
  });

  it('that fills up with the end mark itself gets it when there is room, whatever goes on meanwhile', async () => {
    const files = createMemoryStore();
    let full = false;
    const opened = files.open.bind(files);
    files.open = async (name) => {
      const file = await opened(name);
      if (!name.endsWith('.run')) return file;
      const append = file.append.bind(file);
      file.append = (bytes) => {
        // Pages go, the one with the end mark does not.
        if (full && scanRun(bytes).end !== null) throw new StoreError('full', 'no room');
        append(bytes);
      };
      return file;
    };
    const b = createHostBench({ files });
    await b.connectRig();
    const { runId } = await b.ask(open);
    await b.run(3000);
    full = true;
    expect(await b.ask({ q: 'end-run' })).toEqual({ runId });
    await b.run(2000);
    expect(b.moment().run).toBeNull();
    expect(b.moment().view.alarms.find((a) => a.alarm === 'store-fault')?.state).toBe('unacknowledged');
    expect((await b.ask({ q: 'runs' }))[0]).toMatchObject({ runId, state: 'open' });
    full = false;
    await b.run(2000);
    expect(b.moment().view.alarms.find((a) => a.alarm === 'store-fault')?.state).toBe('returned');
    expect((await b.ask({ q: 'runs' }))[0]).toMatchObject({ runId, state: 'ended' });
    expect(scanRun(await files.readAll(pagesOf(runId))).end).toBe('ended');
  });

  it('with no room at all the run is refused, but its limits guard', async () => {
    const tiny = createHostBench({
      files: { ...createMemoryStore(), open: () => Promise.reject(new Error('blocked')) },
    });
    await tiny.connectRig();
    await expect(tiny.ask(open)).rejects.toThrow('blocked');
    await tiny.run(500);
    expect(tiny.moment().view.limits?.ceilingBar).toBe(1.77);
    expect(tiny.moment().view.alarms.some((a) => a.alarm === 'store-fault')).toBe(true);
  });

  it('is an alarm that ends when a resumed run, or the next one, is kept again', async () => {
    const files = createLossyStore();
    const documents = createMemoryDocuments();
    let refusing = false;
    const listed: DocumentStore = {
      get: (kind, id) => documents.get(kind, id),
      list: (kind) => documents.list(kind),
      remove: (kind, id) => documents.remove(kind, id),
      put: (document) => (refusing ? Promise.reject(new Error('down')) : documents.put(document)),
    };
    const b = createHostBench({ files, documents: listed });
    await b.connectRig();
    const { runId } = await b.ask(open);
    await b.run(500);
    refusing = true;
    await b.run(35_000);
    const fault = (of: typeof b) => of.moment().view.alarms.find((a) => a.alarm === 'store-fault')?.state;
    expect(fault(b)).toBe('unacknowledged');
    const after = createHostBench({ files: files.kill(), documents, wallMs: b.wall.ms + 60_000 });
    await after.connectRig();
    await after.ask({ q: 'resume-run', runId });
    await after.run(3000);
    expect(fault(after)).toBe('returned');
  });

  it('once refused, a run that is opened later does not begin with the fault of the first try', async () => {
    const files = createMemoryStore();
    let blocked = true;
    const b = createHostBench({
      files: { ...files, open: (n) => (blocked ? Promise.reject(new Error('blocked')) : files.open(n)) },
    });
    await b.connectRig();
    await expect(b.ask(open)).rejects.toThrow('blocked');
    blocked = false;
    await b.ask(open);
    await b.run(2000);
    expect(b.moment().view.alarms.find((a) => a.alarm === 'store-fault')?.state).toBe('returned');
  });
});
