import { describe, expect, it } from 'vitest';
import { createScriptedPort } from '../link/testing/device.ts';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import type { DocumentStore } from '../record/stores/store.ts';
import { createLossyStore, createMemoryStore } from '../record/stores/testing/memory.ts';
import { suggestChannels } from '../sensing/suggest.ts';
import type { RunLocks } from './deps.ts';
import { createHostBench, createTestLocks, practiceSetup } from './testing/bench.ts';

const SERIAL = {
  q: 'connect',
  port: { kind: 'serial', index: 0, usbVendorId: null, usbProductId: null },
} as const;

// 4-20 mA over 0-6 bar on 16 bits of 0-25 mA (the scripted device's own scale).
const counts = (bar: number): number => Math.floor(((4000 + (bar / 6) * 16_000) / 25_000) * 65_535);

type Stores = {
  readonly files?: ReturnType<typeof createMemoryStore>;
  readonly documents?: DocumentStore;
  readonly locks?: RunLocks;
};

/** A tablet with a device on a real line, whose pressure the test says. */
async function tablet(stores: Stores = {}, wallMs = Date.UTC(2026, 3, 14, 8)) {
  const site = createScriptedPort();
  const files = stores.files ?? createMemoryStore();
  const documents = stores.documents ?? createMemoryDocuments();
  const b = createHostBench({
    files,
    documents,
    ...(stores.locks === undefined ? {} : { locks: stores.locks }),
    wallMs,
    openPort: async () => ({ port: site.port, rig: null, speed: 1 }),
  });
  const read = async (bar: number, ms: number) => {
    for (let i = 0; i < ms / 20; i++) {
      site.device.sample(counts(bar));
      await b.run(20);
    }
  };
  const left = () => b.posted.findLast((m) => m.m === 'left')?.left ?? [];
  const full = () => left().filter((p) => p.emptied === null);
  await b.ask({ q: 'start-engine' });
  await b.ask(SERIAL);
  await read(0, 1000);
  const open = async (bar: number, tap: 'packer' | 'hose' | 'supply' = 'hose') => {
    const channels = suggestChannels(b.moment().link.channels);
    const setup = practiceSetup({ practice: false, channels, tap });
    const { runId } = await b.ask({ q: 'open-run', jobId: 'j', title: 'Crack', practice: false, setup });
    await read(bar, 3000);
    return runId;
  };
  const letDown = async () => {
    await b.ask({ q: 'command', command: { c: 'stage', to: 'let-down' } });
    await read(0, 2000);
    await b.ask({ q: 'command', command: { c: 'vent', open: false } });
    await read(0, 27_000);
    await b.ask({ q: 'command', command: { c: 'stage', to: 'done' } });
    await read(0, 1000);
  };
  return { b, files, documents, read, left, full, open, letDown };
}

describe('a packer that nobody saw empty', () => {
  it('is known with its last pressure and the time after the run was ended, and after the tablet was started again', async () => {
    const a = await tablet();
    const runId = await a.open(1.5);
    await a.b.ask({ q: 'end-run' });
    const seen = { runId, title: 'Crack', bar: expect.closeTo(1.5, 2), emptied: null };
    expect(a.full()).toMatchObject([seen]);
    expect(Math.abs(a.full()[0]!.utcMs - a.b.deps.utcMs())).toBeLessThan(1000);
    const again = await tablet(a, a.b.wall.ms + 3_600_000);
    expect(again.full()).toMatchObject([{ ...seen, utcMs: a.full()[0]!.utcMs }]);
  });

  it('is known after a crash in mid-run, at the newest pressure', async () => {
    const a = await tablet();
    const runId = await a.open(1.5);
    await a.read(0.9, 2000);
    const again = await tablet(a, a.b.wall.ms + 60_000);
    expect(again.full()).toMatchObject([{ runId, bar: expect.closeTo(0.9, 2) }]);
  });

  it('outlives a hose that is at zero: that alone shows nothing of the packer', async () => {
    const a = await tablet();
    await a.open(1.5);
    await a.read(0, 16_000);
    await a.b.ask({ q: 'end-run' });
    expect(a.full()).toMatchObject([{ bar: expect.closeTo(0, 2) }]);
  });

  it('is no longer told when the vent’s test stayed at zero, where the sensor sees the packer', async () => {
    for (const tap of ['hose', 'supply'] as const) {
      const a = await tablet();
      await a.open(1.5, tap);
      await a.letDown();
      await a.b.ask({ q: 'end-run' });
      expect(a.full()).toHaveLength(tap === 'hose' ? 0 : 1);
    }
  });

  it('is said empty by somebody, which is kept with its time, against a line that stands; one that rises counts more', async () => {
    const a = await tablet();
    const runId = await a.open(1.5);
    await a.b.ask({ q: 'end-run' });
    await a.b.ask({ q: 'packer-empty', runId, title: 'Crack' });
    expect(a.full()).toEqual([]);
    const again = await tablet(a, a.b.wall.ms + 60_000);
    expect(again.full()).toEqual([]);
    expect(again.left()).toMatchObject([{ runId, emptied: { how: 'said' } }]);
    const b = await tablet();
    const open = await b.open(1.5);
    await b.b.ask({ q: 'packer-empty', runId: open, title: 'Crack' });
    await b.read(1.5, 1000);
    expect(b.full()).toEqual([]);
    await b.read(1.7, 1000);
    expect(b.full()).toMatchObject([{ runId: open }]);
    // A line at zero takes nothing of it back, and neither does the end of the run.
    await b.read(0, 2000);
    await b.b.ask({ q: 'packer-empty', runId: open, title: 'Crack' });
    await b.read(0, 20_000);
    await b.b.ask({ q: 'end-run' });
    expect(b.full()).toEqual([]);
  });

  it('was said empty before its run is gone on with: what the line shows from then on counts', async () => {
    for (const [bar, isFull] of [
      [0, false],
      [1.5, true],
    ] as const) {
      const files = createLossyStore();
      const a = await tablet({ files });
      const runId = await a.open(1.5);
      const again = await tablet({ ...a, files: files.kill() }, a.b.wall.ms + 60_000);
      await again.b.ask({ q: 'packer-empty', runId, title: '' });
      await again.b.ask({ q: 'resume-run', runId });
      await again.read(0, 2000);
      await again.read(bar, 2000);
      expect(again.full()).toHaveLength(isFull ? 1 : 0);
    }
  });

  it('is shown to be empty by nothing of another run: neither its zero nor its vent test sees that packer', async () => {
    const a = await tablet();
    const first = await a.open(1.5);
    await a.b.ask({ q: 'end-run' });
    await a.read(0, 1000);
    await a.open(0);
    await a.b.ask({ q: 'command', command: { c: 'zero' } });
    await a.read(0, 1000);
    await a.b.ask({ q: 'command', command: { c: 'stage', to: 'inflate' } });
    await a.read(1.5, 3000);
    await a.letDown();
    expect(a.full()).toMatchObject([{ runId: first }]);
  });

  it('is not shown to be empty by a zero of its own run: a shut valve reads so too', async () => {
    const a = await tablet();
    const runId = await a.open(1.5);
    const stage = (to: 'inflate' | 'abandoned' | 'prepare') =>
      a.b.ask({ q: 'command', command: { c: 'stage', to } });
    await stage('inflate');
    await a.read(1.5, 1000);
    await stage('abandoned');
    await stage('prepare');
    await a.read(0, 2000);
    await a.b.ask({ q: 'command', command: { c: 'zero' } });
    await a.read(0, 2000);
    expect(a.full()).toMatchObject([{ runId }]);
  });

  it('is known where no reading could be trusted while air was let in: without one, or with the sensor in its fault band', async () => {
    for (const bar of [null, 6.5]) {
      const a = await tablet();
      const runId = await a.open(0);
      await a.b.ask({ q: 'command', command: { c: 'stage', to: 'inflate' } });
      if (bar === null) await a.b.run(3000);
      else await a.read(bar, 3000);
      await a.b.ask({ q: 'end-run' });
      expect(a.full()).toMatchObject([{ runId, bar: null }]);
      expect(Math.abs(a.full()[0]!.utcMs - a.b.deps.utcMs())).toBeLessThan(6000);
    }
  });

  it('counts what came first by the run’s clock: a wall clock that is set back between test and second fill hides nothing', async () => {
    const a = await tablet();
    const runId = await a.open(1.5);
    await a.letDown();
    expect(a.left()).toMatchObject([{ runId, emptied: { how: 'vent' } }]);
    a.b.wall.ms -= 2 * 3_600_000;
    await a.b.ask({ q: 'command', command: { c: 'stage', to: 'inflate' } });
    await a.read(1.5, 3000);
    await a.b.ask({ q: 'end-run' });
    expect(a.full()).toMatchObject([{ runId, bar: expect.closeTo(1.5, 2) }]);
  });

  it('that an earlier version took for empty by another run’s zero may be full', async () => {
    const documents = createMemoryDocuments();
    const body = { runId: 'r', title: 'Crack', bar: 1.5, utcMs: 1, emptied: { how: 'zero', utcMs: 2 } };
    await documents.put({ kind: 'left', id: 'r', revision: 0, savedUtcMs: 2, body });
    const a = await tablet({ documents });
    expect(a.full()).toMatchObject([{ runId: 'r', bar: 1.5 }]);
  });

  it('is not told of a line that never was under pressure, nor of a practice', async () => {
    const a = await tablet();
    await a.open(0.02);
    await a.b.ask({ q: 'end-run' });
    expect(a.left()).toEqual([]);
    const b = createHostBench();
    await b.connectRig();
    await b.ask({ q: 'open-run', jobId: 'j', title: 't', practice: true, setup: practiceSetup() });
    await b.ask({ q: 'rig-hand', hand: { hand: 'valve', open: 1 } });
    await b.run(20_000);
    expect(b.moment().view.bar).toBeGreaterThan(0.5);
    expect(b.posted.findLast((m) => m.m === 'left')?.left ?? []).toEqual([]);
  });

  it('is the other tab’s to tell of while that one records, and not before', async () => {
    const locks = createTestLocks();
    const a = await tablet({ locks });
    const runId = await a.open(1.5);
    const second = await tablet({ files: a.files, documents: a.documents, locks });
    expect(second.full()).toEqual([]);
    await a.b.ask({ q: 'end-run' });
    const third = await tablet({ files: a.files, documents: a.documents, locks });
    expect(third.full()).toMatchObject([{ runId }]);
  });

  it('is told by a second tab as soon as the first gives its run up, or when that one is asked to look', async () => {
    const given: (() => void)[] = [];
    const locks = createTestLocks();
    const first: RunLocks = {
      ...locks,
      async acquire(name) {
        const release = await locks.acquire(name);
        if (release !== null) given.push(release);
        return release;
      },
    };
    const a = await tablet({ locks: first });
    const runId = await a.open(1.4);
    const second = await tablet({ files: a.files, documents: a.documents, locks });
    await second.b.run(60_000);
    expect(second.full()).toEqual([]);
    // Its tab is closed.
    for (const release of given) release();
    await second.b.run(100);
    expect(second.full()).toMatchObject([{ runId, bar: expect.closeTo(1.4, 2) }]);
    const open = second.b.posted.findLast((m) => m.m === 'open-runs')?.open;
    expect(open).toMatchObject([{ runId, state: 'open' }]);
    expect(await second.b.ask({ q: 'look-left' })).toEqual({ open });
  });

  it('that was opened by another tab later is seen when this one looks', async () => {
    const locks = createTestLocks();
    const second = await tablet({ locks });
    const a = await tablet(
      { files: second.files, documents: second.documents, locks },
      Date.UTC(2026, 3, 14, 9),
    );
    const runId = await a.open(1.5);
    await a.b.ask({ q: 'end-run' });
    await second.b.ask({ q: 'look-left' });
    expect(second.full()).toMatchObject([{ runId }]);
  });

  it('is known again when air comes into it after its run has ended, and after a crash then', async () => {
    const a = await tablet();
    const runId = await a.open(1.5);
    await a.letDown();
    await a.b.ask({ q: 'end-run' });
    await a.read(0, 60_000);
    expect(a.full()).toEqual([]);
    await a.read(0.8, 3000);
    expect(a.full()).toMatchObject([{ runId, title: 'Crack', bar: expect.closeTo(0.8, 2) }]);
    const again = await tablet(a, a.b.wall.ms + 60_000);
    expect(again.full()).toMatchObject([{ runId, bar: expect.closeTo(0.8, 2) }]);
    // Somebody has looked; what comes in later counts more, what stands there does not.
    await a.read(0.3, 2000);
    await a.b.ask({ q: 'packer-empty', runId, title: 'Crack' });
    await a.read(0.3, 60_000);
    expect(a.full()).toEqual([]);
    await a.read(0.5, 3000);
    expect(a.full()).toMatchObject([{ runId, bar: expect.closeTo(0.5, 2) }]);
  });

  it('is followed after its run has ended full, at the newest pressure, and no longer when another run begins', async () => {
    const a = await tablet();
    const runId = await a.open(1.5);
    await a.b.ask({ q: 'end-run' });
    await a.read(0.7, 20_000);
    expect(a.full()).toMatchObject([{ runId, bar: expect.closeTo(0.7, 2) }]);
    const next = await a.open(1.2);
    await a.read(1.2, 20_000);
    expect(a.full()).toMatchObject([
      { runId: next, bar: expect.closeTo(1.2, 2) },
      { runId, bar: expect.closeTo(0.7, 2) },
    ]);
  });

  it('does not write at every reading', async () => {
    const documents = createMemoryDocuments();
    let puts = 0;
    const counted: DocumentStore = {
      get: (kind, id) => documents.get(kind, id),
      list: (kind) => documents.list(kind),
      remove: (kind, id) => documents.remove(kind, id),
      put: (document) => {
        if (document.kind === 'left') puts++;
        return documents.put(document);
      },
    };
    const a = await tablet({ documents: counted });
    await a.open(1.5);
    await a.read(1.5, 60_000);
    expect(puts).toBeGreaterThanOrEqual(3);
    expect(puts).toBeLessThan(10);
  });
});

describe('a run that was left open, after the page was loaded again', () => {
  /** Its limits: rated 1.8 bar. */
  async function reloaded() {
    const files = createLossyStore();
    const a = await tablet({ files });
    const runId = await a.open(1.5);
    const again = await tablet({ ...a, files: files.kill() }, a.b.wall.ms + 60_000);
    const alarms = () => again.b.moment().view.alarms.map((x) => x.alarm);
    return { ...again, runId, alarms };
  }

  it('guards what is read by its limits at once, and its alarms speak', async () => {
    const { b, read, alarms } = await reloaded();
    await read(1.5, 1000);
    expect(b.moment().view.limits).toMatchObject({ ratedBar: 1.8, ceilingBar: 1.77 });
    expect(alarms()).not.toContain('ceiling');
    await read(2.4, 3000);
    expect(alarms()).toContain('ceiling');
    expect(b.events().some((e) => e.e === 'alarm' && e.alarm === 'ceiling')).toBe(true);
  });

  it('guards no longer where another job sets its own limits', async () => {
    const { b, read, open } = await reloaded();
    const channels = suggestChannels(b.moment().link.channels);
    const limits = {
      ...practiceSetup().limits!,
      ratedBar: 1,
      ceilingBar: 0.9,
      workingBar: 0.8,
      floorBar: 0.5,
    };
    const setup = practiceSetup({ practice: false, channels, limits });
    await b.ask({ q: 'setup', setup });
    await read(0, 1000);
    expect(b.moment().view.limits?.ceilingBar).toBe(0.9);
    await open(0);
    expect(b.moment().view.limits?.ceilingBar).toBe(1.77);
  });
});

it('a run opened on the line of one that ended begins with readings of its own', async () => {
  const a = await tablet();
  await a.open(1.5);
  await a.b.ask({ q: 'end-run' });
  await a.read(1.7, 3000);
  await a.read(0, 3000);
  const runId = await a.open(0);
  const { view, link } = a.b.moment();
  expect(link.state).toBe('streaming');
  expect(view.bar).toBeCloseTo(0, 2);
  expect(view.alarms).toEqual([]);
  expect(view.peakBar).toBeLessThan(0.05);
  await a.b.ask({ q: 'end-run' });
  const ended = (await a.b.ask({ q: 'runs' })).find((r) => r.runId === runId);
  expect(ended?.peakBar).toBeLessThan(0.05);
});

it('the list says of an open run by which port it is read, until the run is over', async () => {
  const a = await tablet();
  await a.open(1.5);
  const ids = { usbVendorId: null, usbProductId: null };
  expect(await a.b.ask({ q: 'runs' })).toMatchObject([{ state: 'open', port: ids }]);
  await a.b.ask({ q: 'end-run' });
  const [ended] = await a.b.ask({ q: 'runs' });
  expect(ended).toMatchObject({ state: 'ended' });
  expect(ended).not.toHaveProperty('port');
});
