import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ChannelFrame, HelloFrame } from '../link/frames.ts';
import { CURRENT_LOOP } from '../link/testing/device.ts';
import type { LogEntry, LogHead } from '../record/log.ts';
import { scanRun } from '../record/reader.ts';
import type { Reading } from '../sensing/reading.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { Command } from '../watch/inputs.ts';
import { createRun, stepRun } from './core.ts';
import { sensing } from './sense-run.ts';
import { practiceSetup } from './testing/bench.ts';
import { senseRun } from './testing/readings-alone.ts';

const HEAD: LogHead = {
  format: 1,
  engine: 1,
  runId: 'r',
  jobId: null,
  practice: false,
  utcMs: null,
  software: 'test',
};
const HELLO: HelloFrame = {
  t: 'H',
  version: 1,
  deviceId: 'sb-7',
  firmware: '1',
  bootId: 5,
  uptime: 0,
  channels: 2,
  maxRateHz: 200,
};
const PRESSURE: ChannelFrame = { ...CURRENT_LOOP, rangeHi: 400_000, rateMilliHz: 50_000 };
const PROBE: ChannelFrame = {
  ...PRESSURE,
  index: 1,
  quantity: 'temp',
  place: 'sleeve',
  signal: 'digital',
  elHi: 100_000,
  rangeHi: 100_000,
};
const SETUP = practiceSetup({ number: 2 }, [PRESSURE, PROBE]);
/** Counts of a 4-20 mA transducer of 0-4 bar on a 0-25 mA converter of 16 bits. */
const counts = (bar: number): number => Math.round(((4000 + (bar / 4) * 16_000) / 25_000) * 65_535);

type Act =
  | { readonly a: 'stream'; readonly n: number; readonly bar: number; readonly lost: number }
  | { readonly a: 'hello'; readonly bootId: number; readonly deviceId: string }
  | { readonly a: 'setup'; readonly number: number; readonly ceilingBar: number }
  | { readonly a: 'command'; readonly command: Command }
  | { readonly a: 'repeat' | 'odd' | 'stray' | 'lost' | 'gap' | 'jump' };

const acts: fc.Arbitrary<Act[]> = fc.array(
  fc.oneof(
    {
      weight: 8,
      arbitrary: fc.record({
        a: fc.constant('stream' as const),
        n: fc.integer({ min: 1, max: 70 }),
        bar: fc.constantFrom(0, 0.01, 0.03, 0.2, 1.4),
        lost: fc.constantFrom(0, 0, 0, 3, 200),
      }),
    },
    {
      weight: 1,
      arbitrary: fc.record({
        a: fc.constant('hello' as const),
        bootId: fc.constantFrom(5, 6),
        deviceId: fc.constantFrom('sb-7', 'sb-7', 'sb-8'),
      }),
    },
    {
      weight: 2,
      arbitrary: fc.record({
        a: fc.constant('setup' as const),
        number: fc.integer({ min: 1, max: 6 }),
        ceilingBar: fc.constantFrom(1.6, 1.7, 1.8),
      }),
    },
    {
      weight: 4,
      arbitrary: fc.record({
        a: fc.constant('command' as const),
        command: fc.constantFrom<Command>(
          { c: 'zero' },
          { c: 'zero' },
          { c: 'stage', to: 'seat' },
          { c: 'stage', to: 'hold' },
          { c: 'stage', to: 'prepare' },
          { c: 'warm-check', place: 'sleeve', thermometerC: 20 },
          { c: 'warm-check', place: 'sleeve', thermometerC: 60 },
          { c: 'note', text: 'n' },
        ),
      }),
    },
    {
      weight: 2,
      arbitrary: fc
        .constantFrom('repeat' as const, 'odd' as const, 'stray' as const, 'lost', 'gap', 'jump')
        .map((a) => ({ a }) as Act),
    },
  ),
  { minLength: 3, maxLength: 40 },
);

/** The log that these acts leave, on a run clock of 20 ms a sample. */
function logOf(list: readonly Act[]): LogEntry[] {
  const log: LogEntry[] = [];
  let tUs = 0;
  let seq = 1;
  let device = HELLO;
  const frame = (f: Extract<LogEntry, { l: 'frame' }>['frame']) => log.push({ l: 'frame', tUs, frame: f });
  const sample = (bar: number, channels = 2) =>
    frame({
      t: 'S',
      seq,
      tick: seq * 200,
      counts: [counts(bar) + (seq % 3), 13_107, 5].slice(0, channels),
      status: 0,
    });
  const greet = () => {
    frame(device);
    frame(PRESSURE);
    frame(PROBE);
  };
  greet();
  log.push({ l: 'setup', tUs, setup: SETUP });
  for (const act of list) {
    switch (act.a) {
      case 'stream':
        seq += act.lost;
        tUs += act.lost * 20_000;
        for (let i = 0; i < act.n; i++, seq++, tUs += 20_000) sample(act.bar);
        break;
      case 'hello':
        device = { ...HELLO, bootId: act.bootId, deviceId: act.deviceId };
        greet();
        break;
      case 'setup':
        log.push({
          l: 'setup',
          tUs,
          setup: {
            ...SETUP,
            number: act.number,
            limits: { ...SETUP.limits!, ceilingBar: act.ceilingBar },
            channels: SETUP.channels.map((c) => ({ ...c, rangeHi: c.rangeHi * (1 + act.number / 100) })),
          },
        });
        break;
      case 'command':
        log.push({ l: 'command', tUs, command: act.command });
        break;
      case 'repeat':
        seq--;
        sample(0.5);
        seq++;
        break;
      case 'odd':
        sample(0.5, 1);
        break;
      case 'stray':
        log.push({ l: 'stray', tUs, reason: 'garbage', bytes: Uint8Array.of(1, 2) });
        break;
      case 'lost':
        log.push({ l: 'notice', tUs, notice: { n: 'link', state: 'lost' } });
        break;
      case 'gap':
        log.push({
          l: 'notice',
          tUs: tUs + 9e6,
          notice: { n: 'gap', reason: 'resumed', fromUs: tUs, toUs: tUs + 9e6, lost: 0 },
        });
        tUs += 9e6;
        break;
      case 'jump':
        log.push({ l: 'notice', tUs, notice: { n: 'clock-jump', seconds: 30 } });
        break;
    }
  }
  return log;
}

type Seen = { readonly reading: Reading; readonly gap: boolean } | { readonly unjudged: number };

/** What a watched run saw as it was judged: gaps are told by events before the reading they lie before. */
function judged(log: readonly LogEntry[]): { seen: Seen[]; events: WatchEvent[] } {
  const run = createRun(HEAD);
  const events: WatchEvent[] = [];
  const seen: Seen[] = [];
  let gap = false;
  for (const entry of log)
    stepRun(run, entry, {
      event(event) {
        events.push(event);
        if (event.e === 'gap') gap = true;
      },
      reading(reading) {
        seen.push({ reading, gap });
        gap = false;
      },
      unjudged: (tUs) => seen.push({ unjudged: tUs }),
    });
  return { seen, events };
}

function sensed(log: readonly LogEntry[], events: readonly WatchEvent[]): Seen[] {
  const seen: Seen[] = [];
  const sense = sensing({
    reading: (reading, gap) => seen.push({ reading, gap }),
    unjudged: (tUs) => seen.push({ unjudged: tUs }),
  })(HEAD, events);
  for (const entry of log) sense(entry);
  return seen;
}

const zeros = (events: readonly WatchEvent[]) =>
  events.flatMap((e) => (e.e === 'zero' ? [e.taken ? 'taken' : e.reason] : []));

describe('a recorded run sensed again', () => {
  it('from a golden log: a reading for each sample, the same as judged', () => {
    const file = new Uint8Array(
      readFileSync(new URL('../../fixtures/logs/regulator-high.pages', import.meta.url)),
    );
    const log: LogEntry[] = [];
    const recorded: WatchEvent[] = [];
    scanRun(file, { entry: (e) => log.push(e), event: (e) => recorded.push(e) });
    const { seen, events } = judged(log);
    expect(events).toEqual(recorded);
    expect(sensed(log, recorded)).toEqual(seen);
    expect(seen.length).toBeGreaterThan(500);
    const alone = senseRun(HEAD, recorded);
    const given = log.flatMap((entry) => alone(entry) ?? []);
    expect(given).toEqual(seen.flatMap((s) => ('reading' in s ? [s.reading] : [])));
  });

  it('gives the very readings that it was judged by, whatever was commanded and refused', () => {
    const outcomes = new Set<string>();
    fc.assert(
      fc.property(acts, (list) => {
        const log = logOf(list);
        const { seen, events } = judged(log);
        for (const outcome of zeros(events)) outcomes.add(outcome);
        if (events.some((e) => e.e === 'setup-refused')) outcomes.add('setup-refused');
        expect(sensed(log, events)).toEqual(seen);
      }),
      { numRuns: 120, seed: 8 },
    );
    // Every way to be refused was among them.
    expect([...outcomes].sort()).toEqual([
      'in-run',
      'no-reading',
      'noisy',
      'setup-refused',
      'taken',
      'too-far',
    ]);
  });

  it('takes a zero and a Setup as they were taken then, not as they would be judged now', () => {
    const log = logOf([
      { a: 'stream', n: 60, bar: 0.01, lost: 0 },
      { a: 'command', command: { c: 'zero' } },
      { a: 'setup', number: 9, ceilingBar: 1.6 },
      { a: 'stream', n: 5, bar: 0.01, lost: 0 },
    ]);
    const { events } = judged(log);
    expect(zeros(events)).toEqual(['taken']);
    const barOf = (told: readonly WatchEvent[]) => {
      const last = sensed(log, told).at(-1)!;
      return 'reading' in last ? last.reading.bar : null;
    };
    expect(barOf(events)).toBeCloseTo(0, 3);
    const refused = events.map((e) =>
      e.e === 'zero' ? { ...e, taken: false, reason: 'too-far' as const } : e,
    );
    expect(barOf(refused)).toBeCloseTo(0.01 * 1.09, 3);
    // Without a word about it nothing is taken: a value that was not zeroed says so.
    const lost = sensed(log, []).at(-1)!;
    expect('reading' in lost && lost.reading.flags).not.toBe(0);
    const kept = refused.map(
      (e): WatchEvent =>
        e.e === 'limits' && e.setup === 9
          ? { tUs: e.tUs, e: 'setup-refused', setup: 9, reason: 'not-newer' }
          : e,
    );
    expect(barOf(kept)).toBeCloseTo(0.01, 3);
  });
});
