import { describe, expect, it } from 'vitest';
import type { ResinSetup, Setup } from '../../job/setup.ts';
import { LIMITS, resinOf, setupOf } from '../../job/testing/givens.ts';
import { FLAG } from '../../sensing/reading.ts';
import { probeOf } from '../../sensing/testing/readings.ts';
import type { WatchEvent } from '../events.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';
import type { ProbeNow } from './coldest.ts';
import { createCure, cureTick, cureView } from './cure.ts';
import { K_DRY, K_WET } from './rates.ts';
import { cureMinutes, fitSheet } from './sheet.ts';

const RESIN = resinOf({
  points: [
    { c: 10, minutes: 120 },
    { c: 20, minutes: 60 },
  ],
  exotherm: 'medium',
});
const FIT = fitSheet(RESIN)!;

function run(minutes: number, setup: Setup, probes: (min: number) => ProbeNow[], stepS = 1) {
  const events: WatchEvent[] = [];
  const emit = (e: WatchEvent) => {
    events.push(e);
  };
  const s = createCure(0, 1, 'seat', emit);
  for (let t = stepS; t <= minutes * 60; t += stepS)
    cureTick(s, t * 1e6, { setup, probes: probes(t / 60) }, emit);
  return { s, events, view: cureView(s, minutes * 60e6, 0)! };
}
const at = (place: ProbeNow['place'], c: number, uC = 0): ProbeNow[] => [{ place, c, uC, checked: true }];
const limits = { ...LIMITS, headBar: 0 };
const setup = setupOf({ limits, resin: RESIN, ground: { c: 10, uC: 0 } });
/** A probe without error on the wall still leaves open how it was placed, K. */
const PLACING = 0.4;

describe('progress by the data sheet', () => {
  it('at a constant temperature is time over the sheet’s time', () => {
    const { view } = run(30, setup, () => at('pipe', 20));
    expect(view.progress).toBeCloseTo(30 / cureMinutes(FIT, 20, 0), 6);
    expect(view.progress).toBeCloseTo(0.5, 1);
    expect(view.low).toBeCloseTo(30 / cureMinutes(FIT, 20, K_DRY, PLACING), 6);
    expect(view.low).toBeLessThan(view.progress);
    expect(view.high).toBeGreaterThan(view.progress);
  });

  it('is the integral over a changing temperature', () => {
    const c = (min: number) => 10 + min / 4;
    const { view } = run(40, setup, (min) => at('pipe', c(min)));
    let x = 0;
    for (let i = 0; i < 40000; i++) x += 0.001 / cureMinutes(FIT, c((i + 0.5) / 1000), 0);
    expect(view.progress / x).toBeCloseTo(1, 3);
  });

  it('met is said once, of the lower bound, when the clock said it would be', () => {
    const half = run(30, setup, () => at('pipe', 20)).view;
    const { events, view } = run(100, setup, () => at('pipe', 20));
    const told = events.filter((e) => e.e === 'cure-met');
    expect(told).toHaveLength(1);
    // A wall that stays 10 K over its ground is the early end of what the forecast holds for possible.
    const in30 = told[0]!.tUs / 1e6 - 1800;
    expect(half.metInS!.low).toBeCloseTo(0.9 * in30, -1);
    expect(half.metInS!.value).toBeGreaterThan(in30);
    expect(half.metInS!.high).toBeGreaterThan(half.metInS!.value);
    expect(view.metAtS).toBeCloseTo(told[0]!.tUs / 1e6, 6);
    // Where nothing but the ground is known, nothing is to change either.
    const cold = run(30, setup, () => []).view.metInS!;
    const then = run(240, setup, () => []).events.find((e) => e.e === 'cure-met')!.tUs / 1e6 - 1800;
    for (const s of [cold.value, cold.low, cold.high]) expect(s).toBeCloseTo(then, -1);
    expect(told[0]).toMatchObject({ progressLow: 1 });
    expect(view.metInS).toBeNull();
  });

  it('where water may seep in, the lower bound of a probe inside is that of the ground', () => {
    const wet = setupOf({ ...setup, limits: LIMITS });
    const inside = run(30, wet, () => at('sleeve', 30)).view;
    const groundOnly = run(30, wet, () => []).view;
    expect(inside.low).toBeCloseTo(30 / cureMinutes(FIT, 10, K_WET, 0.5), 6);
    expect(groundOnly.low).toBeLessThanOrEqual(inside.low);
    expect(run(30, setup, () => at('sleeve', 30)).view.low).toBeGreaterThan(1.2 * inside.low);
    expect(inside.progress).toBeGreaterThan(groundOnly.progress);
  });

  it('none seen on the camera earns some of it, water seen takes all of it whatever level was typed', () => {
    const low = (s: Parameters<typeof setupOf>[0]) =>
      run(30, setupOf({ ...setup, ...s }), () => at('sleeve', 30)).view.low;
    const open = low({ limits: LIMITS });
    const none = low({ limits: LIMITS, infiltration: 'none' });
    const below = low({});
    expect(none).toBeGreaterThan(1.05 * open);
    expect(none).toBeLessThan(0.9 * below);
    expect(low({ infiltration: 'running' })).toBeCloseTo(open, 12);
    expect(low({ infiltration: 'damp' })).toBeCloseTo(below, 12);
  });

  it('earns nothing under the lowest temperature, and says so', () => {
    const cold = setupOf({ resin: RESIN, ground: { c: 3, uC: 0 } });
    const { view, s } = run(60, cold, () => at('pipe', 3));
    expect(view).toMatchObject({ progress: 0, low: 0, equivalentAgeMin: 0, metInS: null });
    expect(s.underLowestK).toBe(-2);
  });

  it('a gap counts at the coldest plausible temperature', () => {
    const warm = run(60, setup, () => at('pipe', 30)).view;
    const gap = run(60, setup, () => at('pipe', 30), 3600).view;
    expect(gap.low).toBeCloseTo(60 / cureMinutes(FIT, 10, K_DRY), 6);
    expect(gap.low).toBeLessThan(warm.low / 2);
    expect(gap.high).toBeCloseTo(60 / cureMinutes(FIT, 10, 0), 6);
  });

  it('after a gap the rise over the coldest reading begins anew', () => {
    const s = createCure(0, 1, 'seat', () => {});
    const tick = (t: number) =>
      cureTick(s, t * 1e6, { setup, probes: at('sleeve', 12 + t / 1200) }, () => {});
    for (let t = 1; t <= 1200; t++) tick(t);
    expect(s.least).toMatchObject({ source: 'sleeve' });
    const before = s.least.c;
    expect(before).toBeGreaterThan(10);
    expect(before).toBeLessThan(13);
    tick(3000);
    expect(s.least).toMatchObject({ sinceUs: 3000e6, c: Number.MAX_VALUE });
    for (let t = 3001; t < 3600; t++) tick(t);
    expect(s.least.c).toBe(Number.MAX_VALUE);
    for (let t = 3600; t < 3700; t++) tick(t);
    expect(s.least.c).toBeGreaterThan(before);
  });

  it('without resin or temperature nothing is said', () => {
    const events: WatchEvent[] = [];
    const s = createCure(0, 1, 'seat', (e) => events.push(e));
    cureTick(s, 60e6, { setup: setupOf(), probes: at('pipe', 20) }, () => {});
    expect(cureView(s, 60e6, 0)).toBeNull();
    expect(run(60, setupOf({ resin: RESIN, ground: null }), () => []).view).toMatchObject({
      low: 0,
      high: 0,
      coldest: null,
      source: 'none',
    });
  });

  it('of a resin that light cures nothing is counted and nothing is ever met', () => {
    const light: ResinSetup = { ...RESIN, curedBy: 'light' };
    const events: WatchEvent[] = [];
    const s = createCure(0, 1, 'seat', (e) => events.push(e));
    for (let t = 1; t <= 4 * 3600; t += 5) {
      // The sheet was corrected after half an hour: until then it was taken for one that time cures, in the cold.
      const mine = t <= 1800 ? setup : { ...setup, number: 2, resin: light };
      cureTick(s, t * 1e6, { setup: mine, probes: at('pipe', t <= 1800 ? 3 : 40) }, (e) => events.push(e));
    }
    expect(cureView(s, 4 * 3600e6, 0)).toBeNull();
    expect(events.map((e) => e.e)).toEqual(['cure-start']);
    expect(s.underLowestK).toBeNull();
    const by = (curedBy?: 'time') =>
      run(60, { ...setup, resin: { ...RESIN, ...(curedBy && { curedBy }) } }, () => at('pipe', 20));
    expect(by('time').view.low).toBe(by().view.low);
  });

  it('a sheet that is corrected makes a new count: what was reached by the wrong times is not reached', () => {
    const quick = { ...RESIN, points: RESIN.points.map((p) => ({ ...p, minutes: p.minutes / 4 })) };
    const events: WatchEvent[] = [];
    const s = createCure(0, 1, 'seat', () => {});
    const go = (minutes: number, mine: Setup) => {
      for (let t = 1; t <= minutes * 60; t++)
        cureTick(s, s.lastUs + 1e6, { setup: mine, probes: at('pipe', 20) }, (e) => events.push(e));
      return cureView(s, s.lastUs, 0)!;
    };
    expect(go(30, { ...setup, resin: quick }).metAtS).not.toBeNull();
    const corrected = go(1, { ...setup, number: 2 });
    expect(corrected.metAtS).toBeNull();
    expect(corrected.low).toBeCloseTo(30 / cureMinutes(FIT, 10, K_DRY), 1);
    // The same sheet in a further Setup takes nothing away.
    const { low } = go(60, { ...setup, number: 3 });
    expect(go(1, { ...setup, number: 4, rateHz: 10 }).low).toBeGreaterThan(low);
    expect(go(60, { ...setup, number: 4 }).metAtS).not.toBeNull();
    expect(events.map((e) => e.e)).toEqual(['cure-met', 'cure-met']);
  });

  it('a resin that is entered late counts from seating on, at ground temperature', () => {
    const s = createCure(0, 1, 'seat', () => {});
    for (let t = 1; t <= 3600; t++)
      cureTick(
        s,
        t * 1e6,
        {
          setup: t <= 1800 ? setupOf({ ground: { c: 10, uC: 0 } }) : { ...setup, number: 2 },
          probes: at('pipe', 20),
        },
        () => {},
      );
    const v = cureView(s, 3600e6, 0)!;
    expect(v.low).toBeCloseTo(
      30 / cureMinutes(FIT, 10, K_DRY) + 30 / cureMinutes(FIT, 20, K_DRY, PLACING),
      3,
    );
  });
});

describe('in a run', () => {
  const temps =
    (c: number, flags = 0) =>
    () => [probeOf('pipe', c, 0, flags)];

  it('begins with seating, ends with the let-down, and begins anew with another attempt', () => {
    const s = new Script({ setup }).flow(5, 0, { temps: temps(20) }).say({ c: 'stage', to: 'seat' });
    s.flow(600, 0.4, { hz: 5, temps: temps(20) }).say({ c: 'stage', to: 'let-down' });
    const before = viewOf(s.w, s.tS * 1e6).cure!;
    expect(before.progress).toBeCloseTo(10 / cureMinutes(FIT, 20, 0), 2);
    s.flow(300, 0, { hz: 5, temps: temps(20) });
    expect(viewOf(s.w, s.tS * 1e6).cure!.progress).toBe(before.progress);
    s.say({ c: 'stage', to: 'inflate' }).flow(10, 0.4, { temps: temps(20) });
    expect(viewOf(s.w, s.tS * 1e6).cure!.progress).toBeLessThan(0.01);
    expect(s.of('cure-start').map((e) => e.from)).toEqual(['seat', 'inflate']);
  });

  it('an unchecked probe earns no more than the ground until it was warmed in the hand', () => {
    const open = temps(30, FLAG.unchecked);
    const s = new Script({ setup }).flow(5, 0, { temps: open }).say({ c: 'stage', to: 'seat' });
    s.flow(60, 0.4, { temps: open });
    expect(viewOf(s.w, s.tS * 1e6).cure).toMatchObject({ source: 'ground' });
    s.say({ c: 'warm-check', place: 'pipe', thermometerC: 30.5 }).flow(5, 0.4, { temps: open });
    expect(viewOf(s.w, s.tS * 1e6).cure).toMatchObject({ source: 'pipe' });
  });

  it('a lost probe falls back on the ground, with an alarm', () => {
    const s = new Script({ setup }).flow(5, 0, { temps: temps(30) }).say({ c: 'stage', to: 'hold' });
    s.flow(60, 1.8, { temps: temps(30) }).flow(30, 1.8, {
      temps: () => [probeOf('pipe', null, 0, FLAG.open)],
    });
    expect(viewOf(s.w, s.tS * 1e6).cure).toMatchObject({ source: 'ground' });
    expect(s.heard()).toEqual(['temperature-lost']);
    expect(s.of('alarm').at(-1)!.values).toEqual({ place: 'pipe' });
  });

  it('cold is an alarm after a minute', () => {
    const s = new Script({ setup }).flow(5, 0, { temps: temps(4) }).say({ c: 'stage', to: 'inflate' });
    s.flow(70, 0.5, { temps: temps(4) });
    expect(s.heard()).toEqual(['cold']);
    expect(s.of('alarm').at(-1)!.values).toEqual({ c: 4 });
  });
});
