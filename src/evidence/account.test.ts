import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { practiceSetup } from '../engine/testing/bench.ts';
import type { Setup } from '../job/setup.ts';
import type { WatchEvent } from '../watch/events.ts';
import { english } from '../words/testing/english.ts';
import { accountOf } from './account.ts';

const golden = (name: string): readonly WatchEvent[] =>
  (JSON.parse(readFileSync(`fixtures/golden/${name}.json`, 'utf8')) as { events: WatchEvent[] }).events;

const setup = practiceSetup({ rateHz: 20, practice: false }, []);
const limited = (ratedBar: number): Setup => ({
  ...setup,
  limits: { ...setup.limits!, ratedBar, ceilingBar: ratedBar - 0.02 },
});

describe('the account of a run', () => {
  it('tells by how much and how long rated was passed, as the alarm stood', () => {
    // The log: over-rated raised at 64.500 s, returned at 108.200 s, rated 2.5 bar.
    const { overRated, atCeiling } = accountOf(golden('regulator-too-high'), 0, 200e6, 2.702, limited(2.5));
    expect(overRated?.byBar).toBeCloseTo(0.202, 9);
    expect(overRated?.forS).toBeCloseTo(43.7, 9);
    expect(atCeiling).toBe(true);
  });

  it('an alarm that stood to the end counts to the end', () => {
    const raised = golden('regulator-too-high').filter((e) => e.tUs <= 64.5e6);
    expect(accountOf(raised, 0, 74.5e6, 2.55, limited(2.5)).overRated?.forS).toBeCloseTo(10, 9);
  });

  it('a peak over rated counts though no alarm stood, and then no time is claimed', () => {
    expect(accountOf([], 0, 1e6, 1.9, limited(1.8)).overRated).toEqual({
      byBar: expect.closeTo(0.1, 9),
      forS: null,
    });
  });

  it('what was too high in the hose of a proof alone is no over-pressure of the packer', () => {
    const over = (cause?: string, tUs = 5e6): WatchEvent[] =>
      (['condition', 'returned'] as const).map((why, k) => ({
        tUs: tUs + k * 2e6,
        e: 'alarm',
        alarm: 'over-rated',
        priority: 'urgent',
        occurrence: 1,
        to: why === 'condition' ? 'unacknowledged' : 'returned',
        why,
        values: { bar: 2.7, ...(cause === undefined ? {} : { cause }) },
      }));
    const hose = over('hose');
    expect(accountOf(hose, 0, 60e6, 2.7, limited(2.5))).toMatchObject({ overRated: null, atCeiling: false });
    const both = accountOf([...hose, ...over(undefined, 30e6)], 0, 60e6, 2.7, limited(2.5));
    expect(both).toMatchObject({ overRated: { byBar: expect.closeTo(0.2, 9), forS: 2 }, atCeiling: true });
  });

  it('a run by the book: nothing passed, never at the ceiling where its peak says so', () => {
    const account = accountOf(golden('whole-job'), 0, 9000e6, 1.5, limited(1.8));
    expect(account.overRated).toBeNull();
    expect(account.cure.state === 'met' || account.cure.state === 'not-met').toBe(true);
    // Without limits nothing is said of a ceiling.
    expect(accountOf([], 0, 1e6, 1.5, { ...setup, limits: null }).atCeiling).toBeNull();
  });

  it('what nobody did stays open, and what was done is closed', () => {
    const bare = accountOf([], 0, 1e6, null, setup);
    expect(bare.open).toEqual(['no-hold', 'zero-none', 'gauge-none', 'witness-none']);
    expect(bare.cure.state).toBe(setup.resin === null ? 'not-followed' : 'not-started');
    const done: readonly WatchEvent[] = [
      { tUs: 1e6, e: 'zero', taken: true, offsetBar: 0.01, reason: 'ok' },
      { tUs: 2e6, e: 'gauge', gaugeBar: 0.2, readingBar: 0.2, agrees: true },
      { tUs: 3e6, e: 'stage', stage: 'seat', attempt: 1, by: 'operator' },
      { tUs: 4e6, e: 'gauge', gaugeBar: 0.4, readingBar: 0.41, agrees: true },
      { tUs: 9e6, e: 'witness', hard: true, atPipeTemperature: false },
      { tUs: 10e6, e: 'stage', stage: 'let-down', attempt: 1, by: 'operator' },
    ];
    const account = accountOf(done, 1e6, 20e6, 0.5, setup);
    expect(account.open).toEqual(['no-hold', 'witness-warm', 'rebound-none']);
    // The comparison at the seat is the one that counts, not an earlier one.
    expect(account.gauge?.gaugeBar).toBe(0.4);
    expect(account.witness?.atS).toBe(8);
  });

  it('time outside the band is open beyond a reading’s own grain', () => {
    const leak = { verdict: 'tight', mbarPerMin: 0, low: 0, high: 0, paM3PerS: null, reason: null } as const;
    const hold = (minutesInBand: number): WatchEvent => ({
      tUs: 600e6,
      e: 'hold',
      fromUs: 0,
      minutesInBand,
      minBar: 1,
      maxBar: 1.5,
      leak,
    });
    expect(accountOf([hold(9.95)], 0, 600e6, 1.5, setup).open).not.toContain('not-held');
    expect(accountOf([hold(9)], 0, 600e6, 1.5, setup).open).toContain('not-held');
    expect(accountOf([hold(9)], 0, 600e6, 1.5, setup).outsideS).toBeCloseTo(60, 9);
  });
});

describe('a hold that went under its floor', () => {
  const leak = {
    verdict: 'tight',
    mbarPerMin: 0,
    low: null,
    high: null,
    paM3PerS: null,
    reason: null,
  } as const;
  const below = (tS: number, why: 'condition' | 'returned'): WatchEvent =>
    ({ tUs: tS * 1e6, e: 'alarm', alarm: 'below-floor', priority: 'high', why }) as unknown as WatchEvent;
  const hold = (fromS: number, toS: number): WatchEvent => ({
    tUs: toS * 1e6,
    e: 'hold',
    fromUs: fromS * 1e6,
    minutesInBand: (toS - fromS) / 60,
    minBar: 0.7,
    maxBar: 1.5,
    leak,
  });
  const start: WatchEvent = { tUs: 50e6, e: 'cure-start', from: 'seat' };
  const met = (tS: number): WatchEvent => ({
    tUs: tS * 1e6,
    e: 'cure-met',
    progressLow: 1,
    equivalentAgeMin: 60,
  });
  const of = (events: readonly WatchEvent[], endS = 9000) => accountOf(events, 0, endS * 1e6, 1.5, setup);

  it('is told with its times, and whether that was before the cure time', () => {
    const once = [start, below(720, 'condition'), below(1140, 'returned'), met(3000), hold(100, 4000)];
    expect(of(once).underFloor).toEqual({ spans: [{ fromS: 720, toS: 1140 }], when: 'before-cure' });
    const late = [start, met(600), below(720, 'condition'), below(1140, 'returned'), hold(100, 4000)];
    expect(of(late).underFloor?.when).toBe('after-cure');
    const notMet = [start, below(720, 'condition'), below(1140, 'returned'), hold(100, 4000)];
    expect(of(notMet).underFloor?.when).toBe(setup.resin === null ? null : 'before-cure');
  });

  it('ends with the hold where the let-down went on from there, and at the end of a record that broke off', () => {
    const down = [below(3900, 'condition'), hold(100, 4000), below(4100, 'returned')];
    expect(of(down).underFloor?.spans).toEqual([{ fromS: 3900, toS: 4000 }]);
    expect(of([below(3900, 'condition')], 3950).underFloor?.spans).toEqual([{ fromS: 3900, toS: 3950 }]);
    expect(of([hold(100, 4000)]).underFloor).toBeNull();
  });

  it('reads as one sentence, with clock times', () => {
    const { accountText } = english.account;
    const numbers = { holdS: 3900, inBandS: 3000, floorKnown: true, lowestHoldBar: 0.7 };
    const clock = (s: number) => `10:${String(Math.floor(s / 60)).padStart(2, '0')}`;
    const say = (underFloor: ReturnType<typeof of>['underFloor']) =>
      accountText({ ...of([hold(100, 4000)]), underFloor }, numbers, clock)[0]?.replaceAll('\u00a0', ' ');
    const one = { fromS: 720, toS: 1140 };
    expect(say({ spans: [one], when: 'before-cure' })).toBe(
      'Under the hold floor from 10:12 to 10:19, before the cure time.',
    );
    expect(say({ spans: [one], when: 'after-cure' })).toMatch(/10:19, after the cure time was reached\.$/);
    expect(say({ spans: [one], when: null })).toBe('Under the hold floor from 10:12 to 10:19.');
    expect(say({ spans: [{ fromS: 725, toS: 765 }], when: null })).toBe(
      'Under the hold floor at 10:12 for 40 s.',
    );
    expect(say({ spans: [one, { fromS: 1500, toS: 1680 }], when: 'before-cure' })).toBe(
      'Under the hold floor 2 times, first from 10:12 to 10:19, 10 min 00 s in all, before the cure time.',
    );
  });
});
