import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ChannelFrame, DeviceFrame, HelloFrame } from '../link/frames.ts';
import { CURRENT_LOOP } from '../link/testing/device.ts';
import type { LogEntry, LogHead } from '../record/log.ts';
import type { Reading } from '../sensing/reading.ts';
import { ENGINE } from '../watch/codes.ts';
import type { WatchEvent } from '../watch/events.ts';
import { advanceRun, createRun, type Run, stepRun } from './core.ts';
import { practiceSetup } from './testing/bench.ts';

const HEAD: LogHead = {
  format: 1,
  engine: ENGINE,
  runId: 'r',
  jobId: null,
  practice: false,
  utcMs: null,
  software: 'test',
};
const CHANNEL: ChannelFrame = { ...CURRENT_LOOP, rangeHi: 400_000, rateMilliHz: 50_000 };
const hello = (changes: Partial<HelloFrame> = {}): HelloFrame => ({
  t: 'H',
  version: 1,
  deviceId: 'sb-7',
  firmware: '1',
  bootId: 5,
  uptime: 0,
  channels: 1,
  maxRateHz: 200,
  ...changes,
});
/** Counts of a 4-20 mA transducer of 0-4 bar on a 0-25 mA converter of 16 bits. */
const counts = (bar: number): number => Math.round(((4000 + (bar / 4) * 16_000) / 25_000) * 65_535);
const sample = (seq: number, tick: number, bar = 0.5): DeviceFrame => ({
  t: 'S',
  seq: seq >>> 0,
  tick: tick >>> 0,
  counts: [counts(bar)],
  status: 0,
});
const frame = (tUs: number, f: DeviceFrame): LogEntry => ({ l: 'frame', tUs, frame: f });

function bench(head = HEAD) {
  const run = createRun(head);
  const events: WatchEvent[] = [];
  const readings: Reading[] = [];
  let unjudged = 0;
  const sink = {
    event: (e: WatchEvent) => events.push(e),
    reading: (r: Reading) => readings.push(r),
    unjudged: () => unjudged++,
  };
  return {
    run,
    events,
    readings,
    sink,
    unjudged: () => unjudged,
    step: (e: LogEntry) => stepRun(run, e, sink),
  };
}

/** Greets and sends n samples at 50 Hz from `fromUs`. */
function stream(
  b: ReturnType<typeof bench>,
  fromUs: number,
  fromSeq: number,
  n: number,
  fromTick = fromSeq * 200,
) {
  for (let i = 0; i < n; i++) b.step(frame(fromUs + i * 20_000, sample(fromSeq + i, fromTick + i * 200)));
}
function greeted() {
  const b = bench();
  b.step(frame(0, hello()));
  b.step(frame(0, CHANNEL));
  return b;
}
const gaps = (b: ReturnType<typeof bench>) =>
  b.events.flatMap((e) => (e.e === 'gap' ? [[e.reason, e.fromUs, e.toUs, e.lost]] : []));
const devices = (b: ReturnType<typeof bench>) => b.events.flatMap((e) => (e.e === 'device' ? [e.what] : []));

describe('the core', () => {
  it('uses a repeated sample once, and takes it for no restart', () => {
    const b = greeted();
    stream(b, 0, 1, 3);
    b.step(frame(50_000, sample(3, 600)));
    b.step(frame(60_000, sample(4, 800)));
    expect([b.readings.length, b.unjudged()]).toEqual([4, 1]);
    expect(devices(b)).toEqual(['greeted']);
    expect(gaps(b)).toEqual([]);
  });

  it('uses no sample whose counts are not as many as the device has channels', () => {
    const b = greeted();
    stream(b, 0, 1, 3);
    const odd = { ...sample(4, 800), counts: [counts(0.5), 7] } as DeviceFrame;
    b.step(frame(60_000, odd));
    expect([b.readings.length, b.unjudged()]).toEqual([3, 1]);
    b.step(frame(80_000, sample(5, 1000)));
    expect(b.readings).toHaveLength(4);
    expect(gaps(b)).toEqual([['dropped', 40_000, 80_000, 1]]);
  });

  it('reads the device once it is described, and tells who it is', () => {
    const b = greeted();
    stream(b, 0, 1, 3);
    expect(b.readings.map((r) => r.bar)).toEqual([0.5, 0.5, 0.5].map((v) => expect.closeTo(v, 3)));
    expect(devices(b)).toEqual(['greeted']);
    b.step(frame(70_000, hello()));
    b.step(frame(70_000, CHANNEL));
    expect(devices(b)).toEqual(['greeted']);
  });

  it('gives the ticks of a 10 Hz grid before the first entry at or after each', () => {
    const b = bench();
    b.step(frame(250_000, hello()));
    expect(b.run.nextTick).toBe(3);
    advanceRun(b.run, 300_000, b.sink);
    advanceRun(b.run, 300_000, b.sink);
    expect(b.run.nextTick).toBe(4);
    b.step({ l: 'notice', tUs: 400_000, notice: { n: 'end' } });
    expect(b.run.nextTick).toBe(5);
  });

  it('refuses an entry that lies before the one before it', () => {
    const b = greeted();
    b.step(frame(1000, sample(1, 1)));
    expect(() => b.step(frame(999, sample(2, 2)))).toThrow(RangeError);
  });

  it('marks dropped lines, garbage, silence, port and reset, each once and with its span', () => {
    const b = greeted();
    stream(b, 0, 1, 3);
    b.step(frame(100_000, sample(7, 1400)));
    expect(gaps(b)).toEqual([['dropped', 40_000, 100_000, 3]]);
    b.step({ l: 'stray', tUs: 110_000, reason: 'crc', bytes: new Uint8Array(30) });
    b.step(frame(160_000, sample(9, 1800)));
    expect(gaps(b).at(-1)).toEqual(['garbage', 100_000, 160_000, 1]);
    b.step(frame(2_160_000, sample(10, 21_800)));
    expect(gaps(b).at(-1)).toEqual(['silence', 160_000, 2_160_000, 0]);
    b.step({ l: 'notice', tUs: 2_170_000, notice: { n: 'link', state: 'lost' } });
    // Who answers after a loss has not said its name yet: it may be another device.
    b.step(frame(5_100_000, sample(157, 51_200)));
    expect(b.unjudged()).toBe(1);
    b.step(frame(5_110_000, hello({})));
    b.step(frame(5_110_000, CHANNEL));
    b.step(frame(5_160_000, sample(160, 51_800)));
    expect(gaps(b).at(-1)).toEqual(['port', 2_160_000, 5_160_000, 149]);
    b.step(frame(6_000_000, hello({ bootId: 6 })));
    b.step(frame(6_000_000, CHANNEL));
    b.step(frame(6_100_000, sample(1, 300)));
    expect(gaps(b).at(-1)).toEqual(['reset', 5_160_000, 6_100_000, 0]);
    expect(devices(b)).toEqual(['greeted', 'reset']);
    expect(gaps(b)).toHaveLength(5);
  });

  it('sees a reset that the device did not announce by its counters, once', () => {
    const b = greeted();
    stream(b, 0, 100, 3);
    b.step(frame(500_000, sample(0, 10)));
    expect(devices(b)).toEqual(['greeted', 'reset']);
    expect(gaps(b).map((g) => g[0])).toEqual(['reset']);
  });

  it('swapped lines are out of order: told once, no restart, no full line, and the late ones are not judged', () => {
    const b = greeted();
    // 50 Hz for 9 s; of each ten samples two are swapped.
    for (let n = 0; n < 450; n++) {
      const seq = n % 10 === 4 ? n + 1 : n % 10 === 5 ? n - 1 : n;
      b.step(frame(n * 20_000, sample(seq, 1000 + seq * 200)));
    }
    const told = gaps(b).map((g) => g[0]);
    expect(told.filter((reason) => reason === 'out-of-order')).toHaveLength(1);
    expect(told.filter((reason) => reason === 'dropped')).toHaveLength(1);
    expect(told).toHaveLength(2);
    expect(devices(b)).toEqual(['greeted']);
    expect(b.readings).toHaveLength(405);
    const t = b.readings.map((r) => r.seq);
    for (let i = 1; i < t.length; i++) expect(t[i]!).toBeGreaterThan(t[i - 1]!);
  });

  it('a clock of the device that jumps, back or on, is named as such and is no restart', () => {
    const b = greeted();
    stream(b, 0, 100, 3, 50_000);
    b.step(frame(60_000, sample(103, 20)));
    expect(gaps(b).at(-1)?.[0]).toBe('device-clock');
    b.step(frame(80_000, sample(104, 900_000)));
    // Told once in a while.
    expect(gaps(b)).toHaveLength(1);
    expect(devices(b)).toEqual(['greeted']);
    // The same step of the clock with the time that it says: the device was silent.
    b.step(frame(3_080_000, sample(105, 930_000)));
    expect(gaps(b).at(-1)?.[0]).toBe('silence');
  });

  it('a clock of the device that stands still is told each ten seconds, and takes no early warning from a fill', () => {
    const b = greeted();
    b.step({ l: 'setup', tUs: 0, setup: practiceSetup({ channels: [], rateHz: 50, tap: 'packer' }) });
    b.step({ l: 'command', tUs: 0, command: { c: 'stage', to: 'inflate' } });
    // 0.05 bar/s over the working pressure of 1.5 bar; rated 1.8.
    for (let n = 0; n < 1750; n++) b.step(frame(n * 20_000, sample(n, 500, 0.05 * (n / 50))));
    expect(gaps(b).map((g) => g[0])).toEqual([
      'device-clock',
      'device-clock',
      'device-clock',
      'device-clock',
    ]);
    const told = b.events.flatMap((e) => (e.e === 'alarm' && e.to === 'unacknowledged' ? [e.alarm] : []));
    expect(told).toEqual(['rising']);
  });

  it('is not confused by both counters wrapping', () => {
    const b = greeted();
    stream(b, 0, 0xffff_fffe, 6, 0xffff_ff00);
    expect(gaps(b)).toEqual([]);
    expect(devices(b)).toEqual(['greeted']);
    const t = b.readings.map((r) => r.tS);
    for (let i = 1; i < t.length; i++) expect(t[i]! - t[i - 1]!).toBeCloseTo(0.02, 9);
  });

  it('never judges another device, and goes on when the first one is back', () => {
    const b = greeted();
    stream(b, 0, 1, 2);
    b.step(frame(100_000, hello({ deviceId: 'sb-9' })));
    b.step(frame(100_000, CHANNEL));
    stream(b, 120_000, 1, 5);
    expect(b.readings).toHaveLength(2);
    expect(b.unjudged()).toBe(5);
    expect(devices(b)).toEqual(['greeted', 'other']);
    b.step(frame(300_000, hello()));
    b.step(frame(300_000, CHANNEL));
    b.step(frame(320_000, sample(17, 3400)));
    expect(b.readings).toHaveLength(3);
  });

  it('does not take half a line after opening or a later version for garbage', () => {
    const b = greeted();
    for (const reason of ['partial', 'unknown'] as const)
      b.step({ l: 'stray', tUs: 0, reason, bytes: new Uint8Array(2000) });
    stream(b, 0, 1, 100);
    expect(b.events.some((e) => e.e === 'alarm' && e.alarm === 'garbage')).toBe(false);
  });

  it('gives no tick inside a gap in which nothing ran', () => {
    const b = greeted();
    stream(b, 0, 1, 10);
    const before = b.run.nextTick;
    const notice = { n: 'gap', reason: 'resumed', fromUs: 180_000, toUs: 3.6e12, lost: 0 } as const;
    b.step({ l: 'notice', tUs: 3.6e12, notice });
    expect(b.run.nextTick).toBe(3.6e7 + 1);
    expect(before).toBe(2);
    expect(gaps(b)).toEqual([['resumed', 180_000, 3.6e12, 0]]);
    b.step(frame(3.6e12 + 1000, sample(400, 90_000)));
    expect(gaps(b)).toHaveLength(1);
  });

  it('a setup that the watch refuses changes nothing in how counts are read', () => {
    const b = greeted();
    b.step({ l: 'setup', tUs: 0, setup: practiceSetup({ number: 2 }) });
    const { limits } = practiceSetup();
    const raised = practiceSetup({ number: 3, limits: { ...limits!, ceilingBar: 1.79 }, channels: [] });
    b.step({ l: 'setup', tUs: 0, setup: raised });
    expect(b.events.some((e) => e.e === 'setup-refused' && e.reason === 'ceiling-raised')).toBe(true);
    expect(b.run.setup?.number).toBe(2);
    expect(b.run.sensing.setup?.number).toBe(2);
  });

  it('takes zero from the last second before the run, and tells one outcome', () => {
    const b = greeted();
    for (let i = 0; i < 60; i++) b.step(frame(i * 20_000, sample(i, i * 200, 0.02)));
    b.step({ l: 'command', tUs: 1_200_000, command: { c: 'zero' } });
    b.step(frame(1_220_000, sample(61, 12_200, 0.02)));
    expect(b.readings.at(-1)?.bar).toBeCloseTo(0, 4);
    b.step({ l: 'command', tUs: 1_240_000, command: { c: 'stage', to: 'inflate' } });
    b.step({ l: 'command', tUs: 1_260_000, command: { c: 'zero' } });
    expect(b.events.filter((e) => e.e === 'zero').map((e) => [e.taken, e.reason])).toEqual([
      [true, 'ok'],
      [false, 'in-run'],
    ]);
    expect(b.run.sensing.zero?.offsetBar).toBeCloseTo(0.02, 3);
  });

  it('refuses a zero under pressure and leaves the reading as it was', () => {
    const b = greeted();
    for (let i = 0; i < 60; i++) b.step(frame(i * 20_000, sample(i, i * 200, 0.4)));
    b.step({ l: 'command', tUs: 1_200_000, command: { c: 'zero' } });
    expect(b.events.find((e) => e.e === 'zero')).toMatchObject({ taken: false, reason: 'too-far' });
    b.step(frame(1_220_000, sample(61, 12_200, 0.4)));
    expect(b.readings.at(-1)?.bar).toBeCloseTo(0.4, 3);
  });
});

/** A run's state is plain data: through JSON and back it goes on exactly as it would have. */
const snapshot = (run: Run): Run => JSON.parse(JSON.stringify(run)) as Run;

describe('determinism', () => {
  const script = fc.array(
    fc.oneof(
      {
        weight: 20,
        arbitrary: fc.record({ k: fc.constant('s'), bar: fc.double({ min: -0.2, max: 3, noNaN: true }) }),
      },
      { weight: 1, arbitrary: fc.record({ k: fc.constant('lost'), bar: fc.constant(0) }) },
      { weight: 1, arbitrary: fc.record({ k: fc.constant('stray'), bar: fc.constant(0) }) },
      { weight: 1, arbitrary: fc.record({ k: fc.constant('ack'), bar: fc.constant(0) }) },
      { weight: 1, arbitrary: fc.record({ k: fc.constant('stage'), bar: fc.constant(0) }) },
      { weight: 1, arbitrary: fc.record({ k: fc.constant('boot'), bar: fc.constant(0) }) },
    ),
    { minLength: 20, maxLength: 300 },
  );

  function entries(steps: readonly { k: string; bar: number }[]): LogEntry[] {
    let tUs = 0;
    let seq = 0;
    let boot = 5;
    const out: LogEntry[] = [
      { l: 'setup', tUs, setup: practiceSetup() },
      frame(0, hello()),
      frame(0, CHANNEL),
    ];
    for (const { k, bar } of steps) {
      tUs += 20_000 + (seq % 7) * 3000;
      if (k === 's') out.push(frame(tUs, sample(++seq, seq * 200, bar)));
      else if (k === 'lost') out.push({ l: 'notice', tUs, notice: { n: 'link', state: 'lost' } });
      else if (k === 'stray') out.push({ l: 'stray', tUs, reason: 'garbage', bytes: new Uint8Array(200) });
      else if (k === 'ack')
        out.push({ l: 'command', tUs, command: { c: 'acknowledge', alarm: 'ceiling', occurrence: 1 } });
      else if (k === 'stage') out.push({ l: 'command', tUs, command: { c: 'stage', to: 'hold' } });
      else {
        seq = 0;
        out.push(frame(tUs, hello({ bootId: ++boot })), frame(tUs, CHANNEL));
      }
    }
    return out;
  }

  it('the same log gives the same events, also with ticks given live and through a snapshot', () => {
    fc.assert(
      fc.property(script, fc.nat(), (steps, at) => {
        const log = entries(steps);
        const judge = (live: boolean, cut: number | null): string => {
          const b = bench();
          let { run } = b;
          log.forEach((e, i) => {
            if (i === cut) run = snapshot(run);
            // Live, a timer gives ticks whenever it fires, before the entry comes.
            if (live) for (let t = run.nowUs; t < e.tUs; t += 7000) advanceRun(run, t, b.sink);
            stepRun(run, e, b.sink);
          });
          return JSON.stringify(b.events);
        };
        const plain = judge(false, null);
        expect(judge(true, null)).toBe(plain);
        expect(judge(false, at % log.length)).toBe(plain);
      }),
      { numRuns: 40, seed: 5 },
    );
  });
});
