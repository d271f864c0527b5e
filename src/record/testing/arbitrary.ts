/** Generators of log entries and events, for property tests. */
import fc from 'fast-check';
import { setupOf } from '../../job/testing/givens.ts';
import type { DeviceFrame } from '../../link/frames.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { LogEntry, LogHead } from '../log.ts';

const uint32 = fc.integer({ min: 0, max: 0xffffffff });
const uint16 = fc.integer({ min: 0, max: 0xffff });
const int32 = fc.integer({ min: -0x80000000, max: 0x7fffffff });
const count = fc.option(int32, { nil: null, freq: 4 });

export const HEAD: LogHead = {
  format: 1,
  engine: 1,
  runId: 'run-0001',
  jobId: 'job-7',
  practice: false,
  utcMs: 1_780_000_000_000,
  software: 'test',
};

export const SETUP = setupOf({
  jobId: 'job-7',
  limits: null,
  tap: 'hose',
  air: { bar: 1.01325, uBar: 0.03, source: 'assumed' },
  ground: { c: 10, uC: 2 },
  rateHz: 50,
});

const sample = (channels: number): fc.Arbitrary<DeviceFrame> =>
  fc.record({
    t: fc.constant('S' as const),
    seq: uint32,
    tick: uint32,
    counts: fc.array(count, { minLength: channels, maxLength: channels }),
    status: uint16,
  });

const otherFrame: fc.Arbitrary<DeviceFrame> = fc.oneof(
  fc.record({
    t: fc.constant('E' as const),
    number: uint16,
    tick: uint32,
    code: fc.constantFrom('trip' as const, 'return' as const),
    channel: fc.integer({ min: 0, max: 6 }),
    value: int32,
  }),
  fc.record({
    t: fc.constant('R' as const),
    command: uint16,
    result: fc.constantFrom('ok' as const, 'busy' as const),
    value: fc.option(int32, { nil: null }),
  }),
);

const note = fc.string({ unit: 'grapheme', maxLength: 40 });

type Untimed = LogEntry extends infer E ? (E extends LogEntry ? Omit<E, 'tUs'> : never) : never;

const untimed = (channels: number): fc.Arbitrary<Untimed> =>
  fc.oneof(
    { weight: 12, arbitrary: sample(channels).map((frame) => ({ l: 'frame' as const, frame })) },
    // A device that comes back with another number of channels.
    { weight: 1, arbitrary: sample((channels % 7) + 1).map((frame) => ({ l: 'frame' as const, frame })) },
    { weight: 2, arbitrary: otherFrame.map((frame) => ({ l: 'frame' as const, frame })) },
    {
      weight: 2,
      arbitrary: fc.record({
        l: fc.constant('stray' as const),
        reason: fc.constantFrom('garbage' as const, 'crc' as const, 'long' as const),
        bytes: fc.uint8Array({ minLength: 1, maxLength: 60 }),
      }),
    },
    { weight: 1, arbitrary: fc.constant({ l: 'setup' as const, setup: SETUP }) },
    {
      weight: 1,
      arbitrary: note.map((text) => ({ l: 'command' as const, command: { c: 'note' as const, text } })),
    },
    {
      weight: 1,
      arbitrary: uint16.map((bytes) => ({ l: 'notice' as const, notice: { n: 'stray' as const, bytes } })),
    },
  );

/** Steps of time as a live run has them: many entries at one instant, halves of seconds, now and then hours. */
const step = fc.oneof(
  { weight: 6, arbitrary: fc.constant(0) },
  { weight: 12, arbitrary: fc.integer({ min: 1, max: 40_000 }) },
  { weight: 2, arbitrary: fc.integer({ min: 0, max: 2_000_000 }) },
  { weight: 1, arbitrary: fc.integer({ min: 0, max: 9_000_000_000 }) },
);

/** Entries in time order. */
export const entries: fc.Arbitrary<LogEntry[]> = fc.integer({ min: 1, max: 7 }).chain((channels) =>
  fc.array(fc.tuple(step, untimed(channels)), { maxLength: 80 }).map((rows) => {
    let tUs = 0;
    return rows.map(([dt, body]) => {
      tUs += dt;
      return { ...body, tUs } as LogEntry;
    });
  }),
);

export const events: fc.Arbitrary<WatchEvent[]> = fc.array(
  fc.oneof(
    fc.record({ tUs: uint32, e: fc.constant('note' as const), text: note }),
    fc.record({ tUs: uint32, e: fc.constant('cue' as const), closeInS: fc.integer({ min: 0, max: 99 }) }),
  ),
  { maxLength: 10 },
);

/** A steady trace of samples for tests that need a plain run: bar counts on channel 0, a temperature on 1. */
export function plainSamples(n: number, rateHz: number, fromUs = 0): LogEntry[] {
  const list: LogEntry[] = [];
  for (let i = 0; i < n; i++) {
    const tUs = fromUs + Math.round((i * 1e6) / rateHz);
    list.push({
      l: 'frame',
      tUs,
      frame: {
        t: 'S',
        seq: i,
        tick: Math.round(tUs / 100) >>> 0,
        counts: [
          1_000_000 + Math.round(50_000 * Math.sin(i / 97)) + ((i * 7919) % 13),
          i % 5 === 0 ? 250_000 + i : null,
        ],
        status: 4,
      },
    });
  }
  return list;
}
