import { describe, expect, it } from 'vitest';
import { savedOf } from '../evidence/testing/saved-of.ts';
import { createScriptedPort } from '../link/testing/device.ts';
import { bytesSource } from '../record/byte-source.ts';
import { runFileNames, summarise } from '../record/recovery.ts';
import { createMemoryStore } from '../record/stores/testing/memory.ts';
import { captureOf } from '../record/testing/capture.ts';
import { outlineOf } from './outline.ts';
import { openRig } from './rig-feed.ts';
import { createHostBench, createTestLocks, practiceSetup } from './testing/bench.ts';

const open = {
  q: 'open-run',
  jobId: 'job-1',
  title: 'A repair',
  practice: true,
  setup: practiceSetup(),
} as const;

describe('the engine on the simulated rig', () => {
  it('guards from the first valid reading, before any run, and says that no limit is set', async () => {
    const b = createHostBench();
    expect(await b.ask({ q: 'start-engine' })).toEqual({ engine: 1, open: [] });
    expect(await b.connectRig()).toEqual({ state: 'streaming' });
    await b.run(1000);
    const m = b.moment();
    expect(m.link.hello?.deviceId).toBe('RIG-0001');
    expect(m.view.bar).toBeCloseTo(0.006, 1);
    expect(m.view.standing).toContain('no-limit');
    expect(m.run).toBeNull();
    expect(m.rig?.trueLineBar).toBeCloseTo(0, 2);
  });

  it('sends at most 30 moments a second and gives every reading once', async () => {
    const b = createHostBench();
    await b.connectRig();
    const before = b.moments().length;
    await b.run(2000);
    const moments = b.moments().slice(before);
    expect(moments.length).toBeLessThanOrEqual(60);
    expect(moments.length).toBeGreaterThan(30);
    const s = moments.flatMap((m) => [...m.fresh.s]);
    expect(s.length).toBeGreaterThanOrEqual(98);
    expect(s.length).toBeLessThanOrEqual(104);
    for (let i = 1; i < s.length; i++) expect(s[i]! - s[i - 1]!).toBeCloseTo(0.02, 3);
  });

  it('makes every run practice, whatever the page asks for, and the record says so', async () => {
    const b = createHostBench();
    await b.connectRig();
    await b.run(1000);
    const setup = practiceSetup({ practice: false });
    const { runId } = await b.ask({ ...open, practice: false, setup });
    await b.run(1000);
    const detail = await outlineOf(bytesSource(await b.pages()));
    expect(detail.setups.at(-1)!.practice).toBe(true);
    await b.ask({ q: 'end-run' });
    expect((await b.ask({ q: 'runs' })).find((r) => r.runId === runId)?.practice).toBe(true);
    const summary = await summarise(await b.files.source(`${runId}.run`), { title: '', peakBar: null });
    expect(summary?.practice).toBe(true);
  });

  it('does not stand in for the line of a real run that is under way', async () => {
    const { port } = createScriptedPort();
    const b = createHostBench({
      openPort: async (choice, timers) =>
        choice.kind === 'rig' ? openRig(choice.options, timers) : { port, rig: null, speed: 1 },
    });
    await b.ask({ ...open, practice: false, setup: practiceSetup({ practice: false }) });
    await expect(b.connectRig()).rejects.toMatchObject({ code: 'refused' });
    await b.ask({ q: 'end-run' });
    expect(await b.connectRig()).toEqual({ state: 'streaming' });
  });

  it('opens a run that holds what came before it, count for count', async () => {
    const b = createHostBench();
    await b.connectRig();
    await b.run(3000);
    await b.ask({ q: 'command', command: { c: 'zero' } });
    const { runId } = await b.ask(open);
    await b.run(2000);
    expect(b.moment().view.limits?.ceilingBar).toBe(1.77);
    expect(b.moment().view.standing).not.toContain('not-zeroed');
    const pages = await b.pages();
    const detail = await outlineOf(bytesSource(pages));
    expect((await b.ask({ q: 'runs' }))[0]).toMatchObject({ runId, state: 'open' });
    expect(detail.hello?.deviceId).toBe('RIG-0001');
    expect(detail.channels).toHaveLength(5);
    expect(detail.lastS).toBeGreaterThan(4.5);
    expect(detail.events.some((e) => e.e === 'zero' && e.taken)).toBe(true);
    expect(detail.setups.at(-1)).toEqual(practiceSetup());
    const capture = new TextDecoder().decode(await captureOf(pages));
    const seqs = [...capture.matchAll(/^S,(\d+),/gm)].map((m) => Number(m[1]));
    expect(seqs[0]).toBe(0);
    expect(seqs.length).toBeGreaterThan(240);
    seqs.forEach((seq, i) => {
      expect(seq).toBe(i);
    });
    await expect(b.ask(open)).rejects.toMatchObject({ code: 'run-open' });
    expect(await b.ask({ q: 'end-run' })).toEqual({ runId });
    const after = await b.ask({ q: 'runs' });
    expect(after[0]).toMatchObject({ runId, state: 'ended', title: 'A repair', gaps: 0 });
    // Answered from the outline kept at the end, and from the whole file checked again: the same.
    const kept = await savedOf(b).detail(runId, false);
    expect(kept).toEqual(await savedOf(b).detail(runId, true));
    expect((await b.files.list()).map((f) => f.name)).toContain(`${runId}.out`);
    const picture = await savedOf(b).window(runId, 0, 10, 100);
    expect(picture.readings).toBeGreaterThan(240);
    expect(picture.series.map((x) => x.name)).toEqual(['bar', 'temperature', 'temperature', 'temperature']);
  });

  it('leaves in the list what it checked of its sensors, and makes it again from the pages', async () => {
    const b = createHostBench();
    await b.connectRig();
    await b.run(3000);
    // Before the run is opened: heard by the early guard and taken into the record.
    await b.ask({ q: 'command', command: { c: 'zero' } });
    const setup = practiceSetup();
    const channels = setup.channels.map((c) => (c.role === 'pressure' ? { ...c, sensorSerial: 'T-1' } : c));
    const { runId } = await b.ask({ ...open, setup: { ...setup, channels } });
    await b.run(2000);
    await b.ask({ q: 'command', command: { c: 'gauge', bar: 0.25 } });
    await b.ask({ q: 'end-run' });
    const [listed] = await b.ask({ q: 'runs' });
    const checks = listed?.sensorChecks ?? [];
    expect(checks).toMatchObject([
      { what: 'zero', serial: 'T-1', channel: 0, agrees: true },
      { what: 'gauge', serial: 'T-1', channel: 0, agrees: false },
    ]);
    expect(checks[1]!.off).toBeCloseTo(-0.25, 2);
    const pages = await b.files.readAll(runFileNames(runId).pages);
    expect((await summarise(bytesSource(pages), { title: '', peakBar: null }))?.sensorChecks).toEqual(checks);
  });

  it('warns before rated on a fill with the regulator too high, and arms the device too', async () => {
    const b = createHostBench();
    await b.connectRig();
    await b.ask({ q: 'rig-hand', hand: { hand: 'regulator', bar: 2.4 } });
    await b.ask(open);
    await b.run(2000);
    expect(b.moment().link.deviceGuard).toMatchObject({ state: 'armed', limitMbar: 1770 });
    await b.ask({ q: 'command', command: { c: 'stage', to: 'inflate' } });
    await b.ask({ q: 'rig-hand', hand: { hand: 'valve', open: 1 } });
    let ratedAt: number | null = null;
    for (let s = 0; s < 240 && ratedAt === null; s++) {
      await b.run(1000);
      if ((b.moment().rig?.truePackerBar ?? 0) >= 1.8) ratedAt = b.moment().view.tUs;
    }
    expect(ratedAt).not.toBeNull();
    const urgent = b
      .events()
      .find((e) => e.e === 'alarm' && e.priority === 'urgent' && ['rising', 'ceiling'].includes(e.alarm));
    expect(urgent).toBeDefined();
    expect(urgent!.tUs).toBeLessThan(ratedAt!);
  }, 60_000);

  it('an unplug is an alarm within 1.2 s; the replug goes on in the same run with a marked gap', async () => {
    const b = createHostBench();
    await b.connectRig();
    const { runId } = await b.ask(open);
    await b.ask({ q: 'command', command: { c: 'stage', to: 'inflate' } });
    await b.run(2000);
    const pulledUs = b.moment().view.tUs;
    await b.ask({ q: 'rig-fault', fault: { fault: 'unplug' } });
    await b.run(1200);
    const lost = b.events().find((e) => e.e === 'alarm' && e.alarm === 'pressure-lost');
    expect(lost).toBeDefined();
    expect(lost!.tUs - pulledUs).toBeLessThanOrEqual(1_250_000);
    await b.ask({ q: 'rig-fault', fault: { fault: 'replug' } });
    await b.run(4000);
    expect(b.moment().link.state).toBe('streaming');
    expect(b.moment().run?.runId).toBe(runId);
    expect(b.events().some((e) => e.e === 'gap')).toBe(true);
  });

  it.each(['files', 'locks'] as const)('has its limits though %s do not answer', async (part) => {
    const never = <T>(): Promise<T> => new Promise<T>(() => undefined);
    const b = createHostBench(
      part === 'files'
        ? { files: { ...createMemoryStore(), open: never } }
        : { locks: { acquire: never, released: never } },
    );
    await b.connectRig();
    await expect(b.ask(open, 500)).rejects.toThrow('no answer');
    await b.run(1000);
    expect(b.moment().view.limits?.ceilingBar).toBe(1.77);
    expect(b.moment().link.deviceGuard).toMatchObject({ state: 'armed', limitMbar: 1770 });
    expect(b.moment().run).toBeNull();
  });

  it('two tabs cannot run one job', async () => {
    const locks = createTestLocks();
    const [a, b] = [createHostBench({ locks }), createHostBench({ locks })];
    await a.ask(open);
    await expect(b.ask(open)).rejects.toMatchObject({ code: 'run-locked' });
    await a.ask({ q: 'end-run' });
    await b.ask(open);
  });
});

describe('a saved run', () => {
  async function saved() {
    const b = createHostBench();
    await b.connectRig();
    const { runId } = await b.ask(open);
    await b.run(5000);
    await b.ask({ q: 'end-run' });
    return { b, runId };
  }

  it('tells damage of its pages when it is checked', async () => {
    const { b, runId } = await saved();
    const file = await b.files.open(runFileNames(runId).pages);
    const bytes = file.read(0, file.size);
    bytes[Math.floor(bytes.length / 2)]! ^= 1;
    file.truncate(0);
    file.append(bytes);
    file.flush();
    file.close();
    const { damage } = await savedOf(b).detail(runId, true);
    expect(damage).toHaveLength(1);
    expect(damage[0]).toMatchObject({ what: 'crc' });
    expect((await savedOf(b).detail(runId, false)).damage).toEqual(damage);
  });

  it('shows its trace though the side files are gone or torn, and is removed with all its files', async () => {
    const { b, runId } = await saved();
    const whole = await savedOf(b).window(runId, 0, 10, 50);
    expect(whole.readings).toBeGreaterThan(250);
    for (const [n, name] of [runFileNames(runId).buckets, runFileNames(runId).rows].entries()) {
      const wallMs = b.wall.ms + (n + 1) * 1e6;
      const fresh = createHostBench({ files: b.files, documents: b.documents, wallMs });
      await savedOf(b).letGo();
      const file = await b.files.open(name);
      file.truncate(file.size >> 1);
      file.flush();
      file.close();
      const again = await savedOf(fresh).window(runId, 0, 10, 50);
      expect(again.readings).toBe(whole.readings);
      expect([...again.series[0]!.max]).toEqual([...whole.series[0]!.max]);
      // Looking at another run lets the first one's files go.
      await savedOf(fresh).window((await another(fresh)).runId, 0, 1, 5);
    }
    await savedOf(b).remove(runId);
    expect((await b.files.list()).filter((f) => f.name.startsWith(runId))).toEqual([]);
    await expect(savedOf(b).detail(runId, false)).rejects.toMatchObject({ code: 'missing' });
  });

  /** A second run, so that the first one's files are let go. */
  async function another(b: ReturnType<typeof createHostBench>) {
    await b.connectRig();
    const { runId } = await b.ask({ ...open, jobId: null });
    await b.run(1000);
    await b.ask({ q: 'end-run' });
    return { runId };
  }
});

describe('requests that cannot be met', () => {
  it.each([
    [{ q: 'end-run' }, 'no-run'],
    [{ q: 'resume-run', runId: 'nope' }, 'missing'],
    [{ q: 'run-pages', runId: 'r-1', from: 0 }, 'no-run'],
    [{ q: 'live-window', runId: 'r-1', fromS: 0, toS: 1, points: 10 }, 'no-run'],
    [{ q: 'rig-hand', hand: { hand: 'valve', open: 1 } }, 'not-a-rig'],
    [{ q: 'rig-speed', speed: 2 }, 'not-a-rig'],
    [{ q: 'device-silence' }, 'not-connected'],
    [{ q: 'device-limit', mbar: 1000 }, 'refused'],
    [{ q: 'setup', setup: {} }, 'bad-request'],
    [{ q: 'open-run', jobId: null, title: '', practice: true, setup: { number: 'x' } }, 'bad-request'],
    [{ q: 'command', command: { c: 'note', text: 'x'.repeat(3000) } }, 'bad-request'],
    [{ q: 'command', command: { c: 'stage', to: 'lunch' } }, 'bad-request'],
    [{ q: 'command', command: { c: 'shelve', alarm: 'leaking', seconds: 1e9, reason: '' } }, 'bad-request'],
    [{ q: 'command', command: { c: 'gauge', bar: Number.NaN } }, 'bad-request'],
    [{ q: 'command', command: { c: 'acknowledge', alarm: 'ceiling' } }, 'bad-request'],
    [{ q: 'command', command: { c: 'acknowledge', alarm: 'all', occurrence: 1 } }, 'bad-request'],
    [{ q: 'command', command: null }, 'bad-request'],
    [{ q: 'connect', port: { kind: 'rig', options: { seed: 1, speed: 1, scenario: 'x' } } }, 'bad-request'],
    [
      { q: 'connect', port: { kind: 'rig', options: { seed: 1, speed: 0, scenario: 'practice' } } },
      'bad-request',
    ],
    [
      {
        q: 'put-document',
        document: { kind: 'packer', id: 'p', revision: 0, savedUtcMs: 0, body: { version: 1 } },
      },
      'bad-request',
    ],
    [{ q: 'lunch' }, 'bad-request'],
  ])('%j is answered with %s', async (request, code) => {
    const b = createHostBench();
    await expect(b.ask(request as never)).rejects.toMatchObject({ code });
    await b.run(200);
    expect(b.moment().view.stage).toBe('prepare');
  });
});

describe('practice at speed', () => {
  it('everything that counts time counts the simulated time', async () => {
    const b = createHostBench();
    await b.connectRig();
    await b.ask({ q: 'rig-speed', speed: 10 });
    await b.run(3000);
    const from = b.moment();
    await b.run(6000);
    const to = b.moment();
    expect((to.view.tUs - from.view.tUs) / 1e6).toBeCloseTo(60, 0);
    expect(to.rig!.simulatedS - from.rig!.simulatedS).toBeCloseTo(60, 0);
    expect(to.rig?.speed).toBe(10);
    expect(to.view.stale).toBe(false);
    expect(to.view.alarms.some((a) => a.alarm === 'clock-jump' || a.alarm === 'pressure-lost')).toBe(false);
    expect(to.link.deviceGuard).not.toBeNull();
    expect(b.events().some((e) => e.e === 'gap')).toBe(false);
  });
});
