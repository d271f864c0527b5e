import { expect, it } from 'vitest';
import type { ChannelSetup, Setup } from '../job/setup.ts';
import type { WatchEvent } from '../watch/events.ts';
import { checksOf } from './sensor-checks.ts';

const channel = (index: number, part: Partial<ChannelSetup>) => ({ index, ...part }) as ChannelSetup;
const setup = (number: number, serial: string | undefined): Setup =>
  ({
    number,
    channels: [
      channel(0, { role: 'pressure', sensorSerial: serial }),
      channel(1, { role: 'temperature', place: 'sleeve', sensorSerial: 'K-1' }),
    ],
  }) as unknown as Setup;
const zero = (tUs: number, offsetBar: number, reason: 'ok' | 'too-far' | 'noisy' = 'ok'): WatchEvent => ({
  tUs,
  e: 'zero',
  taken: reason === 'ok',
  offsetBar,
  reason,
});
const gauge = (
  tUs: number,
  gaugeBar: number,
  readingBar: number | null,
  agrees: boolean | null,
): WatchEvent => ({
  tUs,
  e: 'gauge',
  gaugeBar,
  readingBar,
  agrees,
});
const with0 = [{ tUs: 0, setup: setup(1, 'T-1') }];

it('a second zero comes on top of the first; one that was refused for noise says nothing', () => {
  expect(
    checksOf(with0, [zero(1, 0.01), zero(2, -0.002), zero(3, 0.5, 'noisy'), zero(4, 0.1, 'too-far')]),
  ).toEqual([{ what: 'zero', serial: 'T-1', channel: 0, off: 0.008, agrees: true }]);
});

it('a zero that was too far off is kept as refused, and a later one that was taken replaces it', () => {
  expect(checksOf(with0, [zero(1, 0.09, 'too-far')])).toMatchObject([{ off: 0.09, agrees: false }]);
  expect(checksOf(with0, [zero(1, 0.09, 'too-far'), zero(2, 0.003)])).toMatchObject([
    { off: 0.003, agrees: true },
  ]);
});

it('the zero of a second pressure is of its own sensor, by its own scale', () => {
  const own = setup(1, 'T-1');
  const second = channel(5, { role: 'outlet-pressure', sensorSerial: 'T-9' });
  const both = [{ tUs: 0, setup: { ...own, channels: [...own.channels, second] } }];
  const of = (part: Extract<WatchEvent, { e: 'zero' }>['second']) =>
    checksOf(both, [{ ...zero(1, 0.01), second: part } as WatchEvent]).find((c) => c.serial === 'T-9');
  expect(of({ taken: true, offsetBar: -0.008, reason: 'ok' })).toEqual({
    what: 'zero',
    serial: 'T-9',
    channel: 5,
    off: -0.008,
    agrees: true,
  });
  expect(of({ taken: false, offsetBar: 0.3, reason: 'too-far' })).toMatchObject({ off: 0.3, agrees: false });
  expect(of({ taken: false, offsetBar: 0, reason: 'noisy' })).toBeUndefined();
});

it('the last comparison counts; without a reading there was none', () => {
  const events = [gauge(1, 0.4, 0.52, false), gauge(2, 0.4, 0.412, true), gauge(3, 0.4, null, null)];
  expect(checksOf(with0, events)).toEqual([
    { what: 'gauge', serial: 'T-1', channel: 0, off: 0.012, agrees: true },
  ]);
});

it('goes by the sensor of the Setup in force; without a document there is no history', () => {
  const setups = [
    { tUs: 0, setup: setup(1, undefined) },
    { tUs: 10, setup: setup(2, 'T-2') },
  ];
  expect(checksOf(setups, [zero(5, 0.01)])).toEqual([]);
  expect(checksOf(setups, [zero(15, 0.01)])).toMatchObject([{ serial: 'T-2' }]);
  expect(checksOf([], [zero(15, 0.01)])).toEqual([]);
});

it('a warm probe is told by its place', () => {
  const warm = { tUs: 5, e: 'warm-check', thermometerC: 33, readingC: 25.2, agrees: false } as const;
  expect(
    checksOf(with0, [
      { ...warm, place: 'sleeve' },
      { ...warm, place: 'air' },
    ]),
  ).toEqual([{ what: 'warm', serial: 'K-1', channel: 1, off: -7.8, agrees: false }]);
});
