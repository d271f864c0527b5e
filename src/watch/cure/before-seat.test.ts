import { describe, expect, it } from 'vitest';
import type { ResinSetup } from '../../job/setup.ts';
import { LIMITS, resinOf, setupOf } from '../../job/testing/givens.ts';
import { probeOf } from '../../sensing/testing/readings.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';
import { beforeTick, createBefore, earnedBefore } from './before-seat.ts';
import type { ProbeNow } from './coldest.ts';
import { K_DRY } from './rates.ts';
import { cureMinutes, fitSheet } from './sheet.ts';

const RESIN: ResinSetup = resinOf({
  points: [
    { c: 10, minutes: 120 },
    { c: 20, minutes: 60 },
  ],
  potLifeMin: 30,
  countsFrom: 'mixing',
  potC: 18,
});
const FIT = fitSheet(RESIN)!;
const setupWith = (resin: Partial<ResinSetup> = {}, ground = { c: 12, uC: 1 }) =>
  setupOf({ limits: { ...LIMITS, headBar: 0 }, ground, resin: { ...RESIN, ...resin } });
const probe = (c: number, more: Partial<ProbeNow> = {}): ProbeNow => ({
  place: 'sleeve',
  c,
  uC: 0.5,
  checked: true,
  ...more,
});

/** Looks once a second. */
function lived(minutes: number, probes: (min: number) => readonly ProbeNow[]) {
  const b = createBefore(0);
  for (let s = 1; s <= minutes * 60; s++) beforeTick(b, s * 1e6, probes(s / 60));
  return b;
}

describe('between mixing and seating', () => {
  it('earns at the coldest of pot, ground and what was read, by the fit’s own bound', () => {
    const of = (c: number, setup = setupWith()) =>
      earnedBefore(
        lived(12, () => [probe(c)]),
        setup,
        FIT,
      )!;
    // Ground 12 ± 1 is the coldest, then a reading of 9 ± 0.5, then a pot of 7 ± 2.
    for (const [earned, coldC] of [
      [of(16), 11],
      [of(9), 8.5],
      [of(16, setupWith({ potC: 7, lowestC: 0 })), 5],
    ] as const) {
      expect(earned.coldC).toBeCloseTo(coldC, 9);
      expect(earned.minutes).toBeCloseTo(12, 1);
    }
    const { progress } = of(16);
    expect(progress.low).toBeCloseTo(12 / cureMinutes(FIT, 11, K_DRY), 3);
    expect(progress.value).toBeCloseTo(12 / cureMinutes(FIT, 16, 0), 3);
    expect(progress.high).toBeGreaterThan(progress.value);
  });

  it('never more than the pot life, and nothing where that is not known', () => {
    const b = lived(50, () => [probe(16)]);
    expect(earnedBefore(b, setupWith(), FIT)!.minutes).toBe(30);
    expect(earnedBefore(b, setupWith({ potLifeMin: null }), FIT)).toBeNull();
  });

  it('nothing without a reading of a probe that was compared, nor over a gap', () => {
    const none = (b: ReturnType<typeof lived>) => expect(earnedBefore(b, setupWith(), FIT)).toBeNull();
    none(lived(12, () => []));
    none(lived(12, () => [probe(16, { checked: false })]));
    none(lived(12, () => [probe(12, { place: 'ground' })]));
    const b = createBefore(0);
    beforeTick(b, 600e6, [probe(16)]);
    none(b);
    expect(
      earnedBefore(
        lived(12, (min) => (min < 8 ? [] : [probe(16)])),
        setupWith(),
        FIT,
      )!.minutes,
    ).toBeCloseTo(4, 1);
  });

  it('nothing where the sheet does not count from mixing, or the pot was not measured', () => {
    const b = lived(12, () => [probe(16)]);
    for (const countsFrom of ['placing', 'unstated'] as const)
      expect(earnedBefore(b, setupWith({ countsFrom }), FIT)).toBeNull();
    const { potC: _, ...unmeasured } = RESIN;
    expect(earnedBefore(b, { ...setupWith(), resin: unmeasured }, FIT)).toBeNull();
  });

  it('the low end earns nothing under the sheet’s lowest temperature', () => {
    const setup = setupWith({ lowestC: 8 });
    const { progress } = earnedBefore(
      lived(12, () => [probe(8.2)]),
      setup,
      fitSheet(setup.resin!)!,
    )!;
    expect(progress.low).toBe(0);
    expect(progress.value).toBeGreaterThan(0);
  });
});

describe('in a run', () => {
  const temps = () => [probeOf('sleeve', 15)];
  const mixed = (resin: Partial<ResinSetup> = {}) =>
    new Script({ setup: setupWith(resin) })
      .flow(2, 0, { temps })
      .say({ c: 'warm-check', place: 'sleeve', thermometerC: 15 })
      .say({ c: 'mixed' })
      .flow(600, 0, { hz: 2, temps });
  const seated = (s: Script) => s.say({ c: 'stage', to: 'seat' }).flow(3, 0.2, { temps });
  const low = (s: Script) => viewOf(s.w, s.tS * 1e6).cure!.low;

  it('is told where the count begins, and is in it', () => {
    const s = seated(mixed());
    const [start] = s.of('cure-start');
    expect(start!.before!.minutes).toBeCloseTo(10, 1);
    expect(start!.before!.coldestC).toBe(11);
    const without = seated(mixed({ countsFrom: 'unstated' }));
    expect(without.of('cure-start')[0]!.before).toBeUndefined();
    expect(low(s) - low(without)).toBeCloseTo(10 / cureMinutes(FIT, 11, K_DRY), 2);
  });

  it('belongs to the sleeve that was seated after it, and to no other', () => {
    const s = seated(mixed()).say({ c: 'stage', to: 'let-down' }).flow(5, 0, { temps });
    s.say({ c: 'stage', to: 'prepare' }).flow(60, 0, { temps });
    seated(s);
    expect(s.of('cure-start').map((e) => e.before !== undefined)).toEqual([true, false]);
    // Mixed again for the next one, it counts again.
    s.say({ c: 'stage', to: 'let-down' }).flow(5, 0, { temps });
    s.say({ c: 'stage', to: 'prepare' }).say({ c: 'mixed' }).flow(120, 0, { temps });
    seated(s);
    expect(s.of('cure-start')[2]!.before!.minutes).toBeCloseTo(2, 1);
  });

  it('of two batches it is the younger one’s', () => {
    const s = seated(mixed().say({ c: 'mixed' }).flow(60, 0, { hz: 2, temps }));
    expect(s.of('cure-start')[0]!.before!.minutes).toBeCloseTo(1, 1);
    // The pot life is the older one's.
    expect(viewOf(s.w, s.tS * 1e6).potLifeLeftS).toBeLessThan(19 * 60);
  });

  it('another sleeve after one that was given up has its own resin, its own pot life and its own credit', () => {
    const s = seated(mixed()).flow(25 * 60, 0.4, { hz: 2, temps });
    s.say({ c: 'stage', to: 'let-down' }).flow(5, 0, { temps }).say({ c: 'stage', to: 'abandoned' });
    s.flow(60, 0, { hz: 2, temps }).say({ c: 'mixed' }).flow(120, 0, { hz: 2, temps });
    expect(viewOf(s.w, s.tS * 1e6).potLifeLeftS).toBeCloseTo(28 * 60, -1);
    seated(s);
    expect(s.of('cure-start')[1]!.before!.minutes).toBeCloseTo(2, 1);
    // What the first one's had said is over.
    expect(viewOf(s.w, s.tS * 1e6).alarms.find((a) => a.alarm === 'pot-life')?.state).toBe('returned');
  });

  it('given up before it was seated, it earns the next sleeve nothing', () => {
    const s = mixed().say({ c: 'stage', to: 'abandoned' }).flow(5, 0, { temps });
    s.say({ c: 'stage', to: 'prepare' }).flow(60, 0, { temps });
    seated(s);
    expect(s.of('cure-start').map((e) => e.before)).toEqual([undefined]);
  });
});
