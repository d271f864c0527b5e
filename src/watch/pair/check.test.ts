import { describe, expect, it } from 'vitest';
import type { Setup } from '../../job/setup.ts';
import { FLAG } from '../../sensing/reading.ts';
import { Script } from '../testing/script.ts';
import { alarmOf, both, type Course, setupWith } from '../testing/two-pressures.ts';

// A cross-check at the packer. Limits: rated 2.5 bar, working 1.8, ceiling 2.48.

const begun = (more: Partial<Setup> = {}): Script => {
  const s = new Script({ setup: setupWith('check-pressure', { tap: 'packer', ...more }) });
  return both(s, 3, 0, 0, 'check-pressure');
};
const check = (s: Script, seconds: number, bar: Course | null, other: Course | null, flags?: number) =>
  both(s, seconds, bar, other, 'check-pressure', flags === undefined ? {} : { second: { flags } });
const inflate = (s: Script) => s.say({ c: 'stage', to: 'inflate' });
const filled = (more: Partial<Setup> = {}): Script => {
  const s = inflate(begun(more));
  const rise = (t: number) => 0.1 * t;
  check(s, 18, rise, rise).say({ c: 'stage', to: 'hold' });
  return check(s, 20, 1.8, 1.8);
};

describe('a cross-check in a fill', () => {
  it('that goes up where the first stands warns as the guard of the first would have', () => {
    const s = check(inflate(begun()), 5, 0.4, 0.4);
    check(s, 19, 0.4, (t) => 0.4 + 0.1 * t);
    expect(alarmOf(s, 'sensors-differ')?.values.cause).toBe('apart');
    expect(alarmOf(s, 'rising')).toMatchObject({ priority: 'urgent', state: 'unacknowledged' });
    // Told with the time that a hand needs, before the ceiling.
    check(s, 4, 0.4, (t) => 2.3 + 0.1 * t);
    expect(s.at('ceiling', 'unacknowledged') - s.at('rising', 'unacknowledged')).toBeGreaterThan(3);
  });

  it('that steps by itself is told as apart, and is no rise', () => {
    const s = check(filled(), 30, 1.8, 2.3);
    expect(s.heard()).toEqual(['sensors-differ']);
  });

  it('that is wrong and high, and acknowledged, does not keep silent what the first one sees', () => {
    const rise = (t: number) => 0.1 * t;
    const s = check(inflate(begun()), 10, rise, rise);
    check(s, 6, 1, 2.6).acknowledge();
    expect(alarmOf(s, 'over-rated')?.state).toBe('acknowledged');
    check(s, 12, (t) => 1 + 0.1 * t, 2.6);
    expect(alarmOf(s, 'over-rated')?.state).toBe('unacknowledged');
    // Once for the rise: it is not asked again at every reading.
    s.acknowledge('over-rated');
    check(s, 1, (t) => 2.2 + 0.1 * t, 2.6);
    expect(alarmOf(s, 'over-rated')?.state).toBe('acknowledged');
  });

  it('that leaves its span, and then what its signal can say, is over it as long as it does', () => {
    const s = check(inflate(begun()), 3, 0.3, 0.3);
    check(s, 37, 0.3, (t) => 0.3 + 0.1 * t);
    check(s, 1, 0.3, (t) => 4 + 0.1 * t, FLAG.outOfRange);
    check(s, 20, 0.3, null);
    expect(alarmOf(s, 'over-rated')?.state).toBe('unacknowledged');
    expect(alarmOf(s, 'over-rated')!.values.bar).toBeGreaterThan(4);
    expect(s.heard()).not.toContain('second-lost');
    // One that breaks in the middle of its span is lost.
    const broken = check(check(inflate(begun()), 8, 0.3, 0.3), 5, 0.3, null);
    expect(broken.heard()).toEqual(['second-lost']);
  });

  it('before a hose that drops, with a limp packer behind it, is no difference', () => {
    const s = inflate(begun({ tap: 'hose' }));
    check(s, 30, 0.22, 0.01);
    check(
      s,
      15,
      (t) => 0.22 + 0.1 * t,
      (t) => 0.01 + 0.1 * t,
    );
    expect(s.heard()).toEqual([]);
    // The other way round no hose makes it.
    check(
      s,
      8,
      (t) => 1 + 0.02 * t,
      (t) => 1.5 + 0.02 * t,
    );
    expect(s.heard()).toContain('sensors-differ');
  });
});

describe('a cross-check after the fill', () => {
  it('that falls while the line stands is told on its way', () => {
    const s = check(filled({ tap: 'hose' }), 12, 1.8, (t) => 1.8 - 0.02 * t);
    expect(alarmOf(s, 'sensors-differ')?.values.cause).toBe('apart');
    // Acknowledged, it is asked again as they go further apart.
    s.acknowledge();
    check(s, 12, 1.8, (t) => 1.56 - 0.02 * t);
    expect(alarmOf(s, 'sensors-differ')?.state).toBe('unacknowledged');
  });

  it('that is being filled through a hose from a line that is higher is none', () => {
    const s = check(filled({ tap: 'hose' }), 20, 1.9, (t) => 1.8 + 0.004 * t);
    expect(s.heard()).not.toContain('sensors-differ');
  });

  it('that holds air behind a line at zero lets no test begin, and is urgent when the work is said to be done', () => {
    const s = filled({ tap: 'hose' }).say({ c: 'stage', to: 'let-down' });
    check(
      s,
      20,
      (t) => Math.max(0, 1.8 - 0.5 * t),
      (t) => 1.8 - 0.03 * t,
    );
    s.say({ c: 'vent', open: false });
    check(s, 30, 0, 1.2);
    expect(s.of('rebound').map((e) => e.what)).toEqual(['broken-off']);
    s.say({ c: 'stage', to: 'done' });
    check(s, 2, 0, 1.2);
    expect(alarmOf(s, 'rebound')).toMatchObject({ priority: 'urgent', state: 'unacknowledged' });
    expect(alarmOf(s, 'rebound')!.values).toMatchObject({ cause: 'full' });
    expect(alarmOf(s, 'rebound')!.values.bar).toBeCloseTo(1.18, 2);
    // The first sensor is unplugged: of a packer that is known to be full it is missed.
    check(s, 10, null, 1.2);
    expect(s.heard()).toContain('pressure-lost');
  });

  it('that is unplugged while it shows air takes nothing back', () => {
    const s = filled({ tap: 'hose' }).say({ c: 'stage', to: 'let-down' });
    check(s, 10, (t) => Math.max(0, 1.8 - 0.5 * t), 1.2).say({ c: 'stage', to: 'done' });
    check(s, 3, 0, 1.2).acknowledge();
    check(s, 20, 0, null);
    expect(alarmOf(s, 'rebound')?.state).toBe('acknowledged');
    check(s, 10, null, null);
    expect(alarmOf(s, 'pressure-lost')?.state).toBe('unacknowledged');
    // A line that stays at zero behind a shut vent does, where nothing else is left to see it by.
    const t = filled({ tap: 'hose' }).say({ c: 'stage', to: 'let-down' });
    check(t, 10, (x) => Math.max(0, 1.8 - 0.5 * x), 1.2);
    check(t, 5, 0, null).say({ c: 'vent', open: false });
    check(t, 30, 0, null).say({ c: 'stage', to: 'done' });
    check(t, 10, 0, null);
    expect(t.of('rebound').map((e) => e.what)).toEqual(['started', 'stayed']);
    expect(alarmOf(t, 'rebound')).toBeUndefined();
  });

  it('that fills again in the test of the vent is a packer that came back', () => {
    const s = filled({ tap: 'hose' }).say({ c: 'stage', to: 'let-down' });
    const down = (t: number) => Math.max(0, 1.8 - 0.3 * t);
    check(s, 10, down, down).say({ c: 'vent', open: false });
    check(s, 15, 0, (t) => 0.04 * t);
    expect(s.of('rebound').map((e) => e.what)).toEqual(['started', 'came-back']);
    expect(alarmOf(s, 'rebound')!.values.bar).toBeGreaterThan(0.4);
  });
});

describe('a cross-check while the supply is proved', () => {
  it('stays empty behind the closed end, and differs from nothing', () => {
    const s = begun({ tap: 'hose' }).say({ c: 'prove-supply', end: 'uncoupled' });
    check(s, 40, (t) => Math.min(1.8, 3 * t), 0);
    expect(s.heard()).toEqual([]);
    // Nor beside a sensor at the supply, which a valve shuts off from it.
    expect(check(begun({ tap: 'supply' }), 20, 1.8, 0).heard()).toEqual([]);
  });

  it('shows that a packer is on the hose: what is over the ceiling is not a hose’s alone', () => {
    const rise = (t: number) => 1.25 * t;
    const alone = begun({ tap: 'hose' }).say({ c: 'prove-supply', end: 'shut' });
    check(alone, 2.1, rise, 0);
    expect(alarmOf(alone, 'over-rated')!.values.cause).toBe('hose');
    const on = begun({ tap: 'hose' }).say({ c: 'prove-supply', end: 'shut' });
    check(on, 2.1, rise, rise);
    expect(alarmOf(on, 'over-rated')!.values.cause).toBeUndefined();
  });
});
