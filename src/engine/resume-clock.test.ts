import { describe, expect, it } from 'vitest';
import type { HelloFrame } from '../link/frames.ts';
import type { LogEntry } from '../record/log.ts';
import { createTrack } from './gaps.ts';
import { clockOnResume, deviceClockNow } from './resume-clock.ts';

const HELLO: HelloFrame = {
  t: 'H',
  version: 1,
  deviceId: 'sb-7',
  firmware: '1.0',
  bootId: 41,
  uptime: 0,
  channels: 1,
  maxRateHz: 200,
};
const heard = (tick: number, lastUs: number | null, hello: Partial<HelloFrame> = {}) => ({
  hello: { ...HELLO, ...hello },
  foreign: false,
  track: { ...createTrack(), seq: lastUs === null ? null : 5, tick, lastUs },
});
const LEFT = heard(50_000, 5e6);
const now = (run: ReturnType<typeof heard>, nowUs = 2e6, entries: readonly LogEntry[] = []) =>
  deviceClockNow(LEFT, { run, entries, nowUs });

describe('the run clock by the device that went on', () => {
  it('is on by what its counter is on, and by what has passed since its last sample', () => {
    expect(now(heard(350_000, 1.5e6))).toBe(5e6 + 30e6 + 0.5e6);
  });

  it('goes over the wrap of the counter', () => {
    const left = heard(0x1_0000_0000 - 10_000, 5e6);
    expect(deviceClockNow(left, { run: heard(20_000, 2e6), entries: [], nowUs: 2e6 })).toBe(5e6 + 3e6);
  });

  it('is told by its hello where no sample has come yet', () => {
    const hello: LogEntry = { l: 'frame', tUs: 1e6, frame: { ...HELLO, uptime: 150_000 } };
    expect(now(heard(0, null), 2e6, [hello])).toBe(5e6 + 10e6 + 1e6);
    expect(now(heard(0, null), 2e6)).toBeNull();
  });

  it.each([
    ['another device', heard(350_000, 1.5e6, { deviceId: 'sb-8' })],
    ['another start', heard(350_000, 1.5e6, { bootId: 42 })],
    ['another start that calls itself the same', heard(400, 1.5e6)],
    ['one that answers in its place', { ...heard(350_000, 1.5e6), foreign: true }],
  ])('is not told by %s', (_, run) => {
    expect(now(run)).toBeNull();
  });
});

it('of two clocks the lesser one holds, and of none the run’s own end', () => {
  expect(clockOnResume(40, 90, 10)).toBe(40);
  expect(clockOnResume(90, 40, 10)).toBe(40);
  expect(clockOnResume(90, null, 10)).toBe(90);
  expect(clockOnResume(null, 40, 10)).toBe(40);
  expect(clockOnResume(null, null, 10)).toBe(10);
});
