/** Generators of log entries and events, for property tests. */
import fc from 'fast-check';
import { setupOf } from '../../job/testing/givens.ts';
import { type DeviceFrame, STRAY_REASONS } from '../../link/frames.ts';
import { anyDeviceFrame } from '../../link/testing/arbitraries.ts';
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

const otherFrame = anyDeviceFrame.filter((frame) => frame.t !== 'S');

const note = fc.string({ unit: 'grapheme', maxLength: 40 });

type Of<L extends LogEntry['l']> = Extract<LogEntry, { l: L }>;

/** Entries of each kind, at time 0, with how often they are drawn. */
const drawn = (
  channels: number,
): { readonly [L in LogEntry['l']]: readonly { weight: number; arbitrary: fc.Arbitrary<Of<L>> }[] } => {
  const frames = (frame: fc.Arbitrary<DeviceFrame>) =>
    fc.record({ l: fc.constant('frame' as const), tUs: fc.constant(0), frame });
  return {
    frame: [
      { weight: 12, arbitrary: frames(sample(channels)) },
      // A device that comes back with another number of channels.
      { weight: 1, arbitrary: frames(sample((channels % 7) + 1)) },
      { weight: 2, arbitrary: frames(otherFrame) },
    ],
    stray: [
      {
        weight: 2,
        arbitrary: fc.record({
          l: fc.constant('stray' as const),
          tUs: fc.constant(0),
          reason: fc.constantFrom(...STRAY_REASONS),
          bytes: fc.uint8Array({ minLength: 1, maxLength: 60 }),
        }),
      },
    ],
    beside: [
      {
        weight: 1,
        arbitrary: anyDeviceFrame.map((frame) => ({ l: 'beside', tUs: 0, frame })),
      },
    ],
    'beside-stray': [
      {
        weight: 1,
        arbitrary: fc.record({
          l: fc.constant('beside-stray' as const),
          tUs: fc.constant(0),
          reason: fc.constantFrom(...STRAY_REASONS),
          bytes: fc.uint8Array({ minLength: 1, maxLength: 60 }),
        }),
      },
    ],
    setup: [{ weight: 1, arbitrary: fc.constant({ l: 'setup', tUs: 0, setup: SETUP }) }],
    command: [
      { weight: 1, arbitrary: note.map((text) => ({ l: 'command', tUs: 0, command: { c: 'note', text } })) },
    ],
    notice: [
      {
        weight: 1,
        arbitrary: uint16.map((bytes) => ({ l: 'notice', tUs: 0, notice: { n: 'stray', bytes } })),
      },
    ],
    state: [
      {
        weight: 1,
        arbitrary: uint16.map((samples) => ({
          l: 'state',
          tUs: 0,
          state: { form: 1, samples, run: { samples } },
        })),
      },
    ],
  };
};

/** Steps of time as a live run has them: many entries at one instant, halves of seconds, now and then hours. */
const step = fc.oneof(
  { weight: 6, arbitrary: fc.constant(0) },
  { weight: 12, arbitrary: fc.integer({ min: 1, max: 40_000 }) },
  { weight: 2, arbitrary: fc.integer({ min: 0, max: 2_000_000 }) },
  { weight: 1, arbitrary: fc.integer({ min: 0, max: 9_000_000_000 }) },
);

/** Entries in time order. */
export const entries: fc.Arbitrary<LogEntry[]> = fc.integer({ min: 1, max: 7 }).chain((channels) =>
  fc
    .array(fc.tuple(step, fc.oneof(...Object.values(drawn(channels)).flat())), { maxLength: 80 })
    .map((rows) => {
      let tUs = 0;
      return rows.map(([dt, body]) => {
        tUs += dt;
        return { ...body, tUs };
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
