import { describe, expect, it } from 'vitest';
import type { Setup } from '../../job/setup.ts';
import { LIMITS, PRESSURE_CHANNEL } from '../../job/testing/givens.ts';
import { Script } from '../testing/script.ts';
import { alarmOf, both, setupWith } from '../testing/two-pressures.ts';

/** The supply is opened at the compressor and stands; the valve to the packer is shut. */
const prepared = (standsAt: number, more: Partial<Setup> = {}): Script => {
  const s = new Script({ setup: setupWith('outlet-pressure', more) });
  both(s, 3, 0, 0);
  both(s, 2, 0, (t) => (standsAt * t) / 2);
  return both(s, 6, 0, standsAt);
};
const opened = (s: Script): Script => s.say({ c: 'stage', to: 'inflate' });

describe('the outlet before the valve is opened', () => {
  it('over the ceiling is told, though no air is in the packer, and goes when the regulator is turned down', () => {
    const s = prepared(2.6);
    expect(alarmOf(s, 'supply-over')).toMatchObject({ priority: 'high', state: 'unacknowledged' });
    expect(alarmOf(s, 'supply-over')!.values).toMatchObject({ secondBar: 2.6, ceilingBar: 2.48 });
    both(s, 10, 0, 1.85);
    expect(s.states('supply-over').at(-1)).toBe('returned');
  });

  it('at the working pressure is recorded once, and is no alarm', () => {
    const s = both(prepared(1.82), 20, 0, 1.825);
    expect(s.of('outlet-stood').map((e) => e.bar)).toEqual([expect.closeTo(1.82, 2)]);
    expect(s.heard()).toEqual([]);
  });

  it('by a spike, or for a moment while the regulator is set, is no alarm', () => {
    const s = prepared(1.8);
    for (let k = 0; k < 5; k++) {
      both(s, 2, 0, 1.8);
      both(s, 0.1, 0, 3.9);
    }
    both(s, 0.3, 0, 2.6);
    expect(s.heard()).toEqual([]);
  });
});

describe('the outlet in a fill', () => {
  it('that sticks open is told at once, while the packer is low', () => {
    const s = opened(prepared(1.82));
    both(s, 4, (t) => 0.08 * t, 1.7);
    const from = s.tS;
    both(
      s,
      3,
      (t) => 0.32 + 0.12 * t,
      (t) => Math.min(6, 1.7 + 20 * t),
    );
    expect(s.at('supply-over', 'unacknowledged') - from).toBeLessThan(0.25);
    expect(alarmOf(s, 'supply-over')?.priority).toBe('urgent');
    expect(s.at('rising', 'unacknowledged')).toBeNaN();
  });

  it('that creeps is told from where it stood, long before the ceiling, and is no alarm after it was turned', () => {
    const creep = (s: Script) =>
      both(
        s,
        30,
        (t) => Math.min(1.8, 0.1 * t),
        (t) => 1.75 + 0.01 * t,
      );
    const s = creep(opened(prepared(1.82)));
    const shown = alarmOf(s, 'supply-moved')!;
    expect(shown).toMatchObject({ priority: 'high' });
    expect(shown.values).toMatchObject({ lockUpBar: 1.82 });
    // 1.82 + 0.04 is passed after 11 s, and the mean of a second lies half of it behind.
    expect(s.at('supply-moved', 'unacknowledged') - (s.tS - 30)).toBeLessThan(12.5);
    const turned = opened(prepared(1.82)).say({ c: 'supply', said: 'turned' });
    expect(creep(turned).heard()).toEqual([]);
  });

  it('of a supply that a hand throttles is told before, and nothing more of it', () => {
    const s = opened(prepared(5.5)).acknowledge();
    both(s, 12, (t) => 0.12 * t, 5.2);
    both(s, 8, 1.44, 5.5);
    expect(s.heard()).toEqual(['supply-over']);
    expect(s.events.some((e) => e.e === 'alarm' && e.priority === 'urgent')).toBe(false);
  });

  it('of a regulator set too low before the fill is turned up without a word', () => {
    const s = opened(prepared(1.0));
    both(
      s,
      30,
      (t) => Math.min(1.8, 0.08 * t),
      (t) => Math.min(1.85, 1 + 0.06 * t),
    );
    expect(s.heard()).toEqual([]);
  });

  it('in a hold is not the regulator’s where a warm packer lifts it through an open valve', () => {
    const s = opened(prepared(1.82, { line: 'supplied-nonrelieving' }));
    both(s, 20, (t) => Math.min(1.8, 0.15 * t), 1.81);
    s.say({ c: 'stage', to: 'hold' });
    both(
      s,
      300,
      (t) => 1.8 + 0.0006 * t,
      (t) => 1.81 + 0.0006 * t,
      'outlet-pressure',
      { hz: 5 },
    );
    expect(s.heard().filter((a) => a === 'supply-moved' || a === 'supply-over')).toEqual([]);
  });
});

describe('two sensors contradict each other', () => {
  it('swapped: the packer’s fills first, with the valve shut', () => {
    const s = new Script({ setup: setupWith() });
    both(s, 3, 0, 0);
    both(s, 6, (t) => Math.min(1.8, 0.9 * t), 0);
    expect(alarmOf(s, 'sensors-differ')?.values).toMatchObject({ cause: 'swapped' });
    // The sheet is corrected: nothing of it is left.
    const channels = [PRESSURE_CHANNEL, { ...PRESSURE_CHANNEL, index: 2, role: 'outlet-pressure' as const }];
    s.setup({ ...setupWith(), number: 2, channels });
    both(s, 5, 0, 1.8);
    expect(s.states('sensors-differ').at(-1)).toBe('returned');
  });

  it('the right way round nothing is said, however slowly the valve is opened', () => {
    const s = opened(prepared(1.82));
    both(
      s,
      60,
      (t) => Math.min(1.81, 0.03 * t),
      (t) => 1.72 + 0.0017 * t,
    );
    expect(s.heard()).toEqual([]);
  });

  it('a packer that rises over its supply is told, a packer that stands over a supply that was let out is not', () => {
    const s = opened(prepared(1.82));
    both(
      s,
      12,
      (t) => 0.15 * t,
      (t) => 1.35 + 0 * t,
    );
    expect(alarmOf(s, 'sensors-differ')?.values).toMatchObject({ cause: 'against-flow' });
    const quiet = opened(prepared(1.82));
    both(quiet, 12, (t) => 0.15 * t, 1.82);
    quiet.say({ c: 'stage', to: 'hold' });
    both(quiet, 60, 1.8, (t) => Math.max(0, 1.8 - 0.3 * t));
    expect(quiet.heard()).not.toContain('sensors-differ');
  });

  it('of two at the packer any difference at rest is told, and of outlet and packer none that a valve can make', () => {
    const check = new Script({ setup: setupWith('check-pressure', { tap: 'packer' }) });
    both(
      check,
      20,
      (t) => Math.min(1.5, 0.2 * t),
      (t) => Math.min(1.5, 0.2 * t) + 0.05,
      'check-pressure',
    );
    expect(alarmOf(check, 'sensors-differ')?.values).toMatchObject({ cause: 'apart' });
    const valve = opened(prepared(1.82));
    both(valve, 8, (t) => 0.15 * t, 1.75);
    both(valve, 60, 1.2, 1.82);
    expect(valve.heard()).toEqual([]);
  });

  it('the proof of the supply joins them', () => {
    const s = new Script({ setup: setupWith() });
    both(s, 3, 0, 0).say({ c: 'prove-supply', end: 'shut' });
    const rise = (t: number) => Math.min(1.82, 1.5 * t);
    both(s, 40, rise, (t) => rise(t) + 0.06);
    expect(alarmOf(s, 'sensors-differ')?.values).toMatchObject({ cause: 'apart' });
  });
});

describe('where one is lost', () => {
  it('the second is told as lost, and the guard goes on as without it', () => {
    const s = opened(prepared(1.82));
    both(s, 4, (t) => 0.15 * t, null);
    expect(s.heard()).toEqual(['second-lost']);
    both(s, 20, (t) => 0.6 + 0.15 * t, null);
    expect(s.heard()).toContain('rising');
  });

  it('at the packer the check takes the place of the first: rated and ceiling go by it', () => {
    const s = new Script({ setup: setupWith('check-pressure', { tap: 'packer' }) });
    both(s, 3, 0, 0, 'check-pressure');
    opened(s);
    both(
      s,
      6,
      (t) => 0.2 * t,
      (t) => 0.2 * t,
      'check-pressure',
    );
    both(s, 8, null, (t) => 1.2 + 0.2 * t, 'check-pressure');
    expect(s.heard()).toContain('pressure-lost');
    expect(s.heard()).toContain('ceiling');
    expect(s.heard()).toContain('over-rated');
    expect(s.at('rising', 'unacknowledged')).toBeLessThan(s.at('ceiling', 'unacknowledged'));
  });

  it('of two at the packer the higher one counts for the ceiling', () => {
    const s = new Script({ setup: setupWith('check-pressure', { tap: 'packer' }) });
    both(s, 3, 0, 0, 'check-pressure');
    both(
      s,
      20,
      (t) => 0.11 * t,
      (t) => Math.min(2.49, 0.125 * t),
      'check-pressure',
    );
    expect(s.heard()).toContain('ceiling');
    expect(alarmOf(s, 'ceiling')!.values.bar).toBeCloseTo(2.49, 2);
    expect(LIMITS.ceilingBar).toBe(2.48);
  });
});
