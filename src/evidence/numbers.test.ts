import { expect, it } from 'vitest';
import { practiceSetup } from '../engine/testing/bench.ts';
import type { WatchEvent } from '../watch/events.ts';
import { floorOfRecord, numbersOf } from './numbers.ts';

const leak = {
  verdict: 'tight',
  mbarPerMin: null,
  low: null,
  high: 1.2,
  paM3PerS: null,
  reason: null,
} as const;
const hold = (fromS: number, toS: number, minutes: number, min: number, max: number): WatchEvent => ({
  tUs: toS * 1e6,
  e: 'hold',
  fromUs: fromS * 1e6,
  minutesInBand: minutes,
  minBar: min,
  maxBar: max,
  leak,
});

it('sums the holds, takes the lowest of all, and counts gaps and alarms', () => {
  const events: WatchEvent[] = [
    hold(10, 70, 1, 1.2, 1.5),
    { tUs: 80e6, e: 'gap', reason: 'port', fromUs: 80e6, toUs: 82e6, lost: 0 },
    {
      tUs: 81e6,
      e: 'alarm',
      alarm: 'pressure-lost',
      priority: 'urgent',
      occurrence: 1,
      to: 'unacknowledged',
      why: 'condition',
      values: {},
    },
    hold(100, 220, 1.5, 1.1, 1.6),
    { tUs: 150e6, e: 'cure-met', progressLow: 1, equivalentAgeMin: 60 },
  ];
  const n = numbersOf(events, 5e6, 300e6, null);
  expect(n).toMatchObject({
    holdS: 180,
    inBandS: 150,
    lowestHoldBar: 1.1,
    highestHoldBar: 1.6,
    cureMetS: 145,
    gaps: 1,
    gapS: 2,
    alarms: { urgent: 1, high: 0, low: 0 },
    coldest: null,
    peakBar: null,
  });
});

it('what the record does not know is null, never zero', () => {
  const n = numbersOf([], 0, 1e6, null);
  expect([n.holdS, n.inBandS, n.lowestHoldBar, n.leak, n.peakBar, n.cureMetS, n.coldest]).toEqual(
    new Array(7).fill(null),
  );
});

it('the floor of the band: planned, seen at the knee, or not known; an unknown part is never zero', () => {
  const { limits } = practiceSetup();
  const setup = (part: object) => practiceSetup({ limits: { ...limits!, ...part } });
  const knee: WatchEvent = { tUs: 1, e: 'knee', freeInflationBar: 0.4, low: 0.35, high: 0.45 };
  expect(floorOfRecord([], setup({}))).toEqual({ bar: 0.9, seen: false });
  const open = { floorBar: null, freeInflationBar: null, headBar: 0.12, seatingMarginBar: 0.2 };
  expect(floorOfRecord([], setup(open)).bar).toBeNull();
  const seen = floorOfRecord([knee], setup(open));
  expect(seen.bar).toBeCloseTo(0.77, 6);
  expect(seen.seen).toBe(true);
  expect(floorOfRecord([knee], setup({ ...open, headBar: null })).bar).toBeNull();
});
