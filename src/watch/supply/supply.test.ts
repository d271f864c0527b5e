import { describe, expect, it } from 'vitest';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import type { WatchEvent } from '../events.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';

type Told = Extract<WatchEvent, { e: 'supply' }>;

/** A hose behind a closed end fills with this time constant, s: 0.7 l through a common valve (common practice, no source). */
const HOSE_S = 0.35;

interface World {
  readonly at?: number;
  readonly creepBarS?: number;
  readonly riseS?: number;
  readonly sd?: number;
  readonly hz?: number;
  readonly tap?: 'hose' | 'supply';
}

const lockedAt = ({ at = 1.82, creepBarS = 0, riseS = HOSE_S }: World) => {
  return (t: number) => at * (1 - Math.exp(-t / riseS)) + creepBarS * Math.max(0, t - 3 * riseS);
};

function begun(world: World = {}): Script {
  const { hz = 50, tap = 'hose' } = world;
  const s = new Script({ setup: setupOf({ tap, rateHz: hz }) });
  return s.flow(3, 0, { hz }).say({ c: 'prove-supply', end: 'shut' }).flow(2, 0, { hz });
}

/** The supply is opened, stands, the valve is shut and the line is let down. */
function proved(world: World = {}): Script {
  const { hz = 50, sd = 0.002 } = world;
  const s = begun(world).flow(50, lockedAt(world), { hz, sd });
  const at = viewOf(s.w, s.tS * 1e6).bar!;
  s.say({ c: 'supply', said: 'valve-shut' }).flow(6, at, { hz, sd });
  return s.flow(3, (t) => at * Math.exp(-t / 0.4), { hz, sd });
}

const supply = (s: Script): Told[] => s.of('supply');
const whats = (s: Script) => supply(s).map((e) => e.what);
const lastOf = (s: Script, what: Told['what']) => supply(s).findLast((e) => e.what === what);

describe('a proof of the supply', () => {
  it.each([4, 20, 50, 200])('at %s Hz is begun, locked, proved and let down, and no alarm cries', (hz) => {
    const s = proved({ hz });
    expect(whats(s)).toEqual(['begun', 'locked', 'proved', 'vented']);
    const { lockUpBar, creepMbarPerMin, verdict, riseS } = lastOf(s, 'proved')!;
    expect(verdict).toBe('stands');
    expect(lockUpBar!.low).toBeLessThanOrEqual(1.82);
    expect(lockUpBar!.high).toBeGreaterThanOrEqual(1.82);
    expect(lockUpBar!.high - lockUpBar!.low).toBeLessThan(0.005);
    expect(creepMbarPerMin!.low).toBeLessThanOrEqual(0);
    expect(creepMbarPerMin!.high).toBeGreaterThanOrEqual(0);
    expect(riseS).toBeLessThan(1.5);
    expect(s.heard()).toEqual([]);
    // Nobody is counted down to a valve, and nothing is learnt of a packer.
    expect(s.of('cue')).toEqual([]);
    expect(s.of('knee')).toEqual([]);
    expect(s.w.guard.stops).toEqual([]);
  });

  // The regulator's rest and the heat of filling fade: what creeps for two seconds is no creep, and nobody is told of one.
  it('is called creeping only once its creep was watched', () => {
    const fades = (t: number) => lockedAt({})(t) + 0.012 * (1 - Math.exp(-Math.max(0, t - 2) / 8));
    const s = begun();
    const seen = new Set<string>();
    for (let k = 0; k < 30; k++) {
      s.flow(1, (t) => fades(k + t), { hz: 50, sd: 0.0005 });
      seen.add(viewOf(s.w, s.tS * 1e6).supply?.verdict ?? '');
    }
    expect([...seen].sort()).toEqual(['', 'stands']);
    expect(lastOf(s, 'locked')?.verdict).toBe('stands');
  });

  it.each([
    [1.95, 'over-working'],
    [1.5, 'under-working'],
    [LIMITS.ceilingBar - 0.01, 'over-working'],
  ] as const)('that stands at %s bar is told as %s', (at, verdict) => {
    expect(lastOf(proved({ at }), 'proved')?.verdict).toBe(verdict);
  });

  it('over the ceiling is told at the ceiling and again when it has locked up', () => {
    const s = begun().flow(12, lockedAt({ at: 2.6 }), { hz: 50 });
    expect(s.heard()).toContain('over-rated');
    expect(lastOf(s, 'locked')?.verdict).toBe('over-ceiling');
    expect(viewOf(s.w, s.tS * 1e6).supply?.verdict).toBe('over-ceiling');
  });

  it.each([0.0002, 0.002, 0.02])('that creeps by %s bar/s says when it passes the ceiling', (creepBarS) => {
    const s = begun().flow(45, lockedAt({ creepBarS }), { hz: 50, sd: 0.002 });
    const seen = viewOf(s.w, s.tS * 1e6).supply!;
    if (creepBarS < 0.015) {
      expect(lastOf(s, 'asked') !== undefined).toBe(creepBarS > 0.0003);
      expect(seen.verdict).toBe('creeps');
      const truth = (LIMITS.ceilingBar - 1.82) / creepBarS;
      expect(seen.ceilingInS!.low).toBeLessThan(1.05 * truth);
      expect(seen.ceilingInS!.high).toBeGreaterThan(0.95 * truth);
    } else expect(s.heard()).toContain('ceiling');
  });

  it('is not begun on a line that holds air, without a reading, or once the packer is up', () => {
    const pressed = new Script({ setup: setupOf() }).flow(3, 0.2).say({ c: 'prove-supply', end: 'shut' });
    expect(supply(pressed)).toMatchObject([{ what: 'refused', reason: 'not-empty' }]);
    expect(supply(pressed)[0]!.bar).toBeCloseTo(0.2, 2);
    const blind = new Script({ setup: setupOf() }).say({ c: 'prove-supply', end: 'uncoupled' });
    expect(supply(blind)).toMatchObject([{ what: 'refused', reason: 'no-reading' }]);
    const up = new Script({ setup: setupOf() }).flow(3, 0).say({ c: 'stage', to: 'seat' });
    up.say({ c: 'prove-supply', end: 'shut' });
    expect(supply(up)).toMatchObject([{ what: 'refused', reason: 'not-in-prepare' }]);
  });

  it('takes no spike for a line under pressure, nor for what the line held when its valve was shut', () => {
    const s = new Script({ setup: setupOf({ tap: 'hose', rateHz: 10 }) }).flow(3, 0, { hz: 10 });
    s.flow(0.1, 6, { hz: 10, sd: 0 }).flow(0.2, 0, { hz: 10 }).say({ c: 'prove-supply', end: 'shut' });
    expect(whats(s)).toEqual(['begun']);
    s.flow(50, lockedAt({}), { hz: 10 }).flow(0.1, 6, { hz: 10, sd: 0 }).flow(0.2, 1.82, { hz: 10 });
    s.say({ c: 'supply', said: 'valve-shut' }).flow(7, 1.82, { hz: 10 });
    expect(supply(s).at(-1)?.what).toBe('proved');
  });

  it('asks whether the packer is on the hose where the line fills slowly, and then its rise is announced no longer', () => {
    const s = begun().flow(8, (t) => 0.09 * t, { hz: 50 });
    expect(lastOf(s, 'asked')?.reason).toBe('slow-rise');
    // There is time for an answer; then air that nobody announces is told.
    s.flow(4, (t) => 0.72 + 0.09 * t, { hz: 50 });
    expect(s.heard()).toEqual([]);
    const asked = lastOf(s, 'asked')!.tUs / 1e6;
    s.flow(asked + 13.5 - s.tS, 1.1, { hz: 50 }).flow(1, (t) => 1.1 + 0.05 * t, { hz: 50 });
    expect(s.heard()).toEqual([]);
    s.flow(4, (t) => 1.15 + 0.05 * t, { hz: 50 });
    expect(s.heard()).toContain('rebound');
    s.say({ c: 'supply', said: 'packer-on' });
    expect(supply(s).at(-1)).toMatchObject({ what: 'broken-off', reason: 'packer-on' });
    expect(s.w.supply).toMatchObject({ proof: null, proved: null });
  });

  // The practice site: 22 l behind 20 m of 8 mm, valve at 60 to 100 %. The hose’s share comes at once, the packer’s evenly after it.
  it.each([10, 50])(
    'asks within seconds at %s Hz where a wide hose hides how slowly the rest comes',
    (hz) => {
      const s = begun({ hz }).flow(7, (t) => 0.28 * (1 - Math.exp(-t / 0.3)) + 0.021 * t, { hz });
      expect(lastOf(s, 'asked')).toMatchObject({ reason: 'slow-rise' });
    },
  );

  it('goes on where the valve was opened slowly, and waits for that word', () => {
    const slow = (t: number) => Math.min(1.82, 0.3 * t);
    const s = begun().flow(60, slow, { hz: 50 });
    expect(whats(s)).toEqual(['begun', 'asked', 'locked']);
    expect(viewOf(s.w, s.tS * 1e6).supply?.phase).toBe('watching');
    s.say({ c: 'supply', said: 'slow-valve' }).flow(2, 1.82, { hz: 50 });
    expect(viewOf(s.w, s.tS * 1e6).supply?.phase).toBe('shut');
  });

  it('is none where the line empties when the valve is shut: its end is open or leaks', () => {
    const s = begun().flow(50, lockedAt({ at: 1.4 }), { hz: 50 });
    s.say({ c: 'supply', said: 'valve-shut' }).flow(3, (t) => 1.4 * Math.exp(-t / 2), { hz: 50 });
    expect(supply(s).at(-1)).toMatchObject({ what: 'broken-off', reason: 'end-leaks' });
    expect(s.w.supply.proved).toBeNull();
  });

  it('is none where it never comes to rest', () => {
    const s = begun().flow(100, (t) => 1 + 0.3 * Math.sin(t / 3), { hz: 50 });
    expect(supply(s).at(-1)).toMatchObject({ what: 'broken-off', reason: 'never-still' });
  });

  it('follows a regulator that is set anew meanwhile', () => {
    const s = begun().flow(12, lockedAt({ at: 2.3 }), { hz: 50 });
    expect(lastOf(s, 'locked')?.verdict).toBe('over-working');
    s.flow(1, (t) => 2.3 - 0.5 * t, { hz: 50 }).flow(45, 1.8, { hz: 50 });
    expect(lastOf(s, 'locked')?.verdict).toBe('stands');
    expect(viewOf(s.w, s.tS * 1e6).supply?.phase).toBe('shut');
  });

  it('begins anew where the line is let down, and is broken off by a gap, a stage or another device', () => {
    const again = begun().flow(10, lockedAt({}), { hz: 50 }).flow(3, 0, { hz: 50 });
    expect(viewOf(again.w, again.tS * 1e6).supply?.phase).toBe('open');
    const gap = begun().flow(10, lockedAt({}), { hz: 50 }).silence(5).flow(2, 1.8, { hz: 50 });
    expect(supply(gap).at(-1)).toMatchObject({ what: 'broken-off', reason: 'gap' });
    const stage = begun().say({ c: 'stage', to: 'seat' });
    expect(supply(stage).at(-1)).toMatchObject({ what: 'broken-off', reason: 'stage' });
    const other = proved().notice({ n: 'device', what: 'taken', bootId: 1, deviceId: 'b' });
    expect(supply(other).at(-1)).toMatchObject({ what: 'void', reason: 'device' });
  });

  it('is judged anew by limits that were lowered', () => {
    const s = proved();
    const lower = { ...LIMITS, ratedBar: 1.8, ceilingBar: 1.78, workingBar: 1.5 };
    s.setup(setupOf({ number: 2, tap: 'hose', rateHz: 50, limits: lower }));
    expect(viewOf(s.w, s.tS * 1e6).supply?.verdict).toBe('over-ceiling');
  });

  it('needs no word about the valve where the sensor sits before it', () => {
    const s = begun({ tap: 'supply' }).flow(45, lockedAt({}), { hz: 50 });
    expect(whats(s)).toEqual(['begun', 'locked', 'proved']);
  });
});

describe('the hose of a proof, and nobody doubts it', () => {
  const shut = (at = 1.82) => {
    const s = begun({ at }).flow(50, lockedAt({ at }), { hz: 50, sd: 0.002 });
    return s.say({ c: 'supply', said: 'valve-shut' }).flow(6, at, { hz: 50, sd: 0.002 });
  };

  it('is to be emptied: air that comes in meanwhile was not announced, and a packer may be on it', () => {
    const s = shut();
    expect(viewOf(s.w, s.tS * 1e6).supply?.phase).toBe('vent');
    // Coupled under pressure, the packer takes the hose's air and fills on.
    s.flow(3, 0.3, { hz: 50 });
    expect(s.heard()).toEqual([]);
    const fromS = s.tS;
    s.flow(60, (t) => 0.3 + 0.03 * t, { hz: 50 });
    expect(s.at('rebound', 'unacknowledged') - fromS).toBeLessThan(4);
    expect(s.at('rising', 'unacknowledged')).toBeGreaterThan(fromS);
    expect(s.w.supply).toMatchObject({ proof: null, leftBar: null });
    expect(s.w.supply.proved).not.toBeNull();
  });

  it('a valve that was opened slowly was so once: what comes in slowly later is asked about', () => {
    const s = begun().flow(5, (t) => Math.min(1.8, 0.36 * t), { hz: 50 });
    s.say({ c: 'supply', said: 'slow-valve' }).flow(8, 1.8, { hz: 50 }).flow(1, 0.3, { hz: 50 });
    s.flow(40, (t) => 0.3 + 0.03 * t, { hz: 50 });
    expect(whats(s).filter((w) => w === 'asked')).toHaveLength(2);
    expect(s.heard()).toContain('rebound');
  });

  it('stands under pressure when the proof is stopped, which is no air that comes in', () => {
    const s = begun().flow(12, lockedAt({}), { hz: 50 }).say({ c: 'supply', said: 'stop' });
    s.flow(20, 1.82, { hz: 50 });
    expect(s.heard()).toEqual([]);
    s.flow(4, (t) => 1.82 + 0.05 * t, { hz: 50 });
    expect(s.heard()).toContain('rebound');
    const on = begun().flow(12, lockedAt({}), { hz: 50 }).say({ c: 'supply', said: 'packer-on' });
    expect(on.flow(1, 1.82, { hz: 50 }).heard()).toContain('rebound');
  });

  it('over the rating is the hose’s alone: no peak of the packer, nor the order that one over its rating needs', () => {
    const over = (s: Script) => viewOf(s.w, s.tS * 1e6);
    const s = begun({ at: 2.7 }).flow(12, lockedAt({ at: 2.7 }), { hz: 50 });
    const alarm = () => over(s).alarms.find((a) => a.alarm === 'over-rated');
    expect(alarm()).toMatchObject({ priority: 'urgent', values: { cause: 'hose' } });
    s.say({ c: 'supply', said: 'stop' }).flow(5, 2.7, { hz: 50 });
    expect(alarm()?.values.cause).toBe('hose');
    s.flow(3, (t) => 2.7 * Math.exp(-t / 0.4), { hz: 50 });
    expect(over(s).peakBar).toBeLessThan(0.1);
    // On the packer it counts.
    s.say({ c: 'stage', to: 'inflate' }).flow(14, (t) => 0.2 * t, { hz: 50 });
    expect(over(s).peakBar).toBeCloseTo(2.8, 1);
    expect(alarm()?.values.cause).toBeUndefined();
  });

  it('is doubted where the rise was asked about: then a packer may be over its rating', () => {
    const s = begun().flow(31, (t) => 0.09 * t, { hz: 50 });
    expect(viewOf(s.w, s.tS * 1e6).peakBar).toBeCloseTo(2.79, 1);
    expect(
      viewOf(s.w, s.tS * 1e6).alarms.find((a) => a.alarm === 'over-rated')?.values.cause,
    ).toBeUndefined();
  });
});

describe('a fill after a proof', () => {
  const fill = (s: Script, barPerS: number, to: number) =>
    s.say({ c: 'stage', to: 'inflate' }).flow(to / barPerS, (t) => barPerS * t, { hz: 50, sd: 0.002 });

  it('over what was proved says that the regulator has moved, under the working pressure too', () => {
    const s = fill(proved({ at: 1.6 }), 0.15, 1.58);
    expect(s.heard()).toEqual([]);
    s.flow(20, (t) => 1.58 + 0.008 * t, { hz: 50, sd: 0.002 });
    const at = s.at('supply-moved', 'unacknowledged');
    expect(at).toBeGreaterThan(0);
    const passed = s.tS - 20 + (1.6 + 2 * s.w.supply.proved!.uBar - 1.58) / 0.008;
    expect(at - passed).toBeLessThan(2.5);
  });

  it('is no alarm where it stands at what was proved, nor where warmth lifts a hold a little', () => {
    const s = fill(proved(), 0.15, 1.82).flow(20, 1.82, { hz: 50, sd: 0.004 });
    s.say({ c: 'stage', to: 'hold' }).flow(300, (t) => 1.82 + 0.0003 * t, { hz: 50, sd: 0.003 });
    expect(s.heard()).not.toContain('supply-moved');
  });

  it('is no alarm by a spike of the sensor, however high', () => {
    const s = proved({ hz: 10 }).say({ c: 'stage', to: 'inflate' });
    s.flow(12, (t) => 0.15 * t, { hz: 10, sd: 0.002 });
    for (let k = 0; k < 20; k++) s.flow(3, 1.8, { hz: 10, sd: 0.003 }).flow(0.1, 3.6, { hz: 10 });
    expect(s.heard()).not.toContain('supply-moved');
  });

  it('as fast as the hose was: the packer was on it, and the proof is void', () => {
    const s = proved().say({ c: 'stage', to: 'inflate' });
    s.flow(3, lockedAt({}), { hz: 50 });
    expect(supply(s).at(-1)).toMatchObject({ what: 'void', reason: 'fill-as-fast' });
  });

  it('that stands still under what was proved is told once', () => {
    const s = fill(proved(), 0.15, 1.6).flow(40, 1.6, { hz: 50 });
    expect(whats(s).filter((w) => w === 'elsewhere')).toHaveLength(1);
  });

  it('counts by the new zero where one was taken, and not at all where the regulator was set anew', () => {
    const s = proved().flow(3, 0.01, { hz: 50 }).say({ c: 'zero' });
    expect(s.w.supply.proved!.lockUp.value).toBeCloseTo(1.81, 2);
    s.say({ c: 'supply', said: 'turned' });
    expect(supply(s).at(-1)).toMatchObject({ what: 'void', reason: 'turned' });
    expect(s.w.supply.proved).toBeNull();
  });
});
