import { describe, expect, it } from 'vitest';
import type { ResinSetup } from '../../job/setup.ts';
import { resinOf, setupOf } from '../../job/testing/givens.ts';
import type { Notice } from '../inputs.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';

const RESIN = resinOf({ potLifeMin: 60 });
const JUMP: Notice = { n: 'clock-jump', seconds: 5400 };

const potLifeLeft = (s: Script) => viewOf(s.w, s.tS * 1e6).potLifeLeftS;
const low = (s: Script) => viewOf(s.w, s.tS * 1e6).cure?.low ?? null;

describe('a wall clock that is set while no sample is missing', () => {
  /** A fill, `atS` seconds into which the clock is set; null: it is not. */
  const fill = (barPerS: number, atS: number, seconds: number | null) => {
    const s = new Script({ setup: setupOf({ rateHz: 50 }) }).flow(5, 0, { hz: 50 });
    s.say({ c: 'stage', to: 'inflate' }).flow(atS, (t) => barPerS * t, { hz: 50 });
    if (seconds !== null) s.notice({ n: 'clock-jump', seconds });
    return s.flow(2.6 / barPerS - atS, (t) => barPerS * (atS + t), { hz: 50 });
  };

  it.each([0.1, 0.2, 0.4])(
    'delays no warning of a fill at %s bar/s, nor changes anything else',
    (barPerS) => {
      const rising = fill(barPerS, 1, null).at('rising', 'unacknowledged') - 5;
      expect(rising).toBeGreaterThan(1);
      for (const beforeS of [0.1, 0.4, 0.8]) {
        const atS = Math.round((rising - beforeS) * 50) / 50;
        const untouched = fill(barPerS, atS, null).events;
        for (const seconds of [5, -3600]) expect(fill(barPerS, atS, seconds).events).toEqual(untouched);
      }
    },
  );

  it('takes no evidence of a leak away', () => {
    const temps = () => [{ channel: 1, place: 'air' as const, c: 15, uC: 0.5, flags: 0 }];
    const leak = (from: number) => (t: number) => 1.8 - ((from + t) * 8e-3) / 60;
    const story = (seconds: number | null) => {
      const s = new Script({ setup: setupOf({ rateHz: 4 }) }).flow(5, 0, { hz: 4 });
      s.say({ c: 'stage', to: 'inflate' })
        .flow(12, (t) => 0.15 * t, { hz: 4 })
        .flow(15, 1.8, { hz: 4 });
      s.say({ c: 'stage', to: 'hold' }).flow(600, leak(0), { hz: 4, temps });
      if (seconds !== null) s.notice({ n: 'clock-jump', seconds });
      return s.flow(1800, leak(600), { hz: 4, temps });
    };
    const untouched = story(null);
    expect(untouched.heard()).toContain('leaking');
    expect(story(3).events).toEqual(untouched.events);
  });

  it('breaks no rebound test off, and takes nothing of the pot life', () => {
    const s = new Script({ setup: setupOf({ rateHz: 20, resin: RESIN }) }).flow(5, 0).say({ c: 'mixed' });
    s.flow(10, 0).notice(JUMP).flow(15, 0);
    expect(potLifeLeft(s)).toBeCloseTo(3600 - 25, 0);
    s.say({ c: 'stage', to: 'inflate' }).flow(12, (t) => 0.15 * t);
    s.say({ c: 'stage', to: 'let-down' }).flow(20, (t) => Math.max(0, 1.8 - 0.2 * t));
    s.say({ c: 'vent', open: false }).flow(10, 0).notice(JUMP).flow(60, 0);
    expect(s.of('rebound').map((e) => e.what)).toEqual(['started', 'stayed']);
    expect(s.heard()).not.toContain('clock-jump');
    expect(s.heard()).not.toContain('pot-life');
  });
});

it('a stretch of ten seconds that nobody watched is told as sleep, a shorter one as a gap alone', () => {
  const told = (seconds: number) =>
    new Script()
      .flow(2, 0)
      .notice({ n: 'gap', fromUs: 2e6, toUs: (2 + seconds) * 1e6, reason: 'clock', lost: 0 })
      .heard();
  expect(told(9)).not.toContain('clock-jump');
  expect(told(11)).toContain('clock-jump');
});

describe('a tablet that slept, its run clock standing still', () => {
  const asleep = () =>
    new Script({ setup: setupOf({ rateHz: 20, resin: { ...RESIN, potLifeMin: 20 } }) })
      .flow(1, 0)
      .say({ c: 'mixed' })
      .notice({ n: 'store', ok: false, code: 'full' })
      .say({ c: 'shelve', alarm: 'store-fault', seconds: 600, reason: 'x' })
      .flow(9, 0);

  it.each([
    ['the device tells', 900, { n: 'witness', deviceS: 901, runS: 0.05 }],
    ['the wall clock exaggerates', 90_000, { n: 'witness', deviceS: 901, runS: 0.05 }],
    ['nothing but the wall clock tells', 900, { n: 'witness', deviceS: null, runS: 0.05 }],
  ] as const)('pot life and shelves go on: %s', (_, seconds, witness) => {
    const s = asleep();
    expect(potLifeLeft(s)).toBeCloseTo(1191, 0);
    s.notice({ n: 'clock-jump', seconds });
    expect(potLifeLeft(s)).toBeCloseTo(1191, 0);
    s.notice(witness).flow(1, 0);
    expect(potLifeLeft(s)).toBeCloseTo(290, -1);
    expect(s.heard()).toEqual(expect.arrayContaining(['pot-life', 'clock-jump']));
    expect(s.states('store-fault').at(-1)).toBe('unacknowledged');
    const shown = viewOf(s.w, s.tS * 1e6).alarms.find((a) => a.alarm === 'clock-jump');
    expect(shown?.values.seconds).toBeGreaterThan(899);
    expect(shown?.values.seconds).toBeLessThan(902);
    // Another sleeve, another batch: its clock begins anew.
    for (const to of ['inflate', 'abandoned', 'prepare'] as const) s.say({ c: 'stage', to });
    s.say({ c: 'mixed' }).flow(1, 0);
    expect(potLifeLeft(s)).toBeCloseTo(1199, 0);
  });

  it('with no sample to tell, the wall clock is believed of what must not last too long', () => {
    const s = asleep().notice({ n: 'clock-jump', seconds: 900 }).silence(25);
    expect(potLifeLeft(s)).toBeCloseTo(1166, 0);
    s.silence(10);
    expect(potLifeLeft(s)).toBeCloseTo(256, 0);
  });

  it('a wall clock that was set back, or a few samples that were lost, are no sleep', () => {
    const s = asleep().notice({ n: 'clock-jump', seconds: -300 }).silence(40).flow(1, 0);
    s.notice({ n: 'clock-jump', seconds: 900 }).notice({ n: 'witness', deviceS: 0.2, runS: 0.2 }).flow(1, 0);
    expect(potLifeLeft(s)).toBeCloseTo(1149, 0);
    expect(s.heard()).not.toContain('clock-jump');
  });

  it('the next reading’s own time is a witness too', () => {
    const s = asleep().notice({ n: 'clock-jump', seconds: 900 });
    s.flow(0.05, 0, { more: { tS: s.tS + 900 } });
    expect(potLifeLeft(s)).toBeCloseTo(291, 0);
  });
});

describe('cure over time that nobody saw', () => {
  const cured = (resin: ResinSetup | null = RESIN) => {
    const s = new Script({ setup: setupOf({ rateHz: 4, resin, ground: { c: 12, uC: 2 } }) }).flow(2, 0, {
      hz: 4,
    });
    return s.say({ c: 'stage', to: 'hold' }).flow(60, 1.8, { hz: 4 });
  };
  /** A run that was taken up again and lay for so many hours, as its wall clock has it. */
  const lay = (s: Script, hours: number): Script => {
    const fromUs = Math.round(s.tS * 1e6);
    s.tS += hours * 3600;
    return s.notice({ n: 'gap', reason: 'resumed', fromUs, toUs: Math.round(s.tS * 1e6), lost: 0 });
  };
  const told = (s: Script, deviceS: number | null, runS: number) =>
    s.notice({ n: 'witness', deviceS, runS }).flow(2, 1.8, { hz: 4 });

  it('a wall clock alone earns no credit, however long it says the run lay', () => {
    const s = cured();
    const before = low(s)!;
    lay(s, 20).silence(30);
    expect(low(s)).toBeLessThan(before + 0.01);
    told(s, null, 20 * 3600 + 30);
    expect(low(s)).toBeLessThan(before + 0.01);
    expect(s.of('cure-met')).toEqual([]);
  });

  it('what the device’s clock bears out counts as a gap does, and no more than that', () => {
    const credit = (hours: number, deviceS: number) => {
      const s = cured();
      const before = low(s)!;
      lay(s, hours).silence(30);
      return low(told(s, deviceS, hours * 3600 + 30))! - before;
    };
    const two = credit(2, 2 * 3600 + 30);
    // 240 min at 10 °C: two hours are half, less what its uncertainty takes.
    expect(two).toBeGreaterThan(0.35);
    expect(two).toBeLessThan(0.52);
    expect(credit(20, 2 * 3600 + 30)).toBeCloseTo(two, 2);
    expect(credit(2, 9 * 3600)).toBeCloseTo(two, 2);
    expect(credit(20, 45)).toBeLessThan(0.01);
  });

  it('a resin that is entered later earns nothing for it either', () => {
    const s = cured(null);
    lay(s, 20).silence(30);
    told(s, 45, 20 * 3600 + 30);
    s.setup(setupOf({ number: 2, rateHz: 4, resin: RESIN, ground: { c: 12, uC: 2 } })).flow(5, 1.8, {
      hz: 4,
    });
    expect(low(s)).toBeGreaterThan(0);
    expect(low(s)).toBeLessThan(0.02);
  });

  it('time slept through counts where device and wall clock agree on it', () => {
    const s = cured();
    const before = low(s)!;
    s.notice({ n: 'clock-jump', seconds: 7200 });
    told(s, 7200, 0.25);
    expect(low(s)! - before).toBeGreaterThan(0.35);
    const device = cured().notice({ n: 'clock-jump', seconds: 30 });
    told(device, 7200, 0.25);
    expect(low(device)! - before).toBeLessThan(0.01);
  });
});
