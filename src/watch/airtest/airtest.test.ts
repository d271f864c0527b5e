import { describe, expect, it } from 'vitest';
import type { AirTestSetup } from '../../job/air-test.ts';
import { PRESSURE_CHANNEL, setupOf } from '../../job/testing/givens.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';

/** A sensor of 1 bar at 24 bits: its part is under a tenth of every method's drop but LA's. */
const FINE = { ...PRESSURE_CHANNEL, rangeHi: 1, bits: 24, rawHi: 2 ** 24 - 1, perKelvin: 1e-4 };
const LC: AirTestSetup = { method: 'LC', mm: 150, lengthM: 10, headBar: null };
const quiet = { sd: 0.0001, hz: 5 };

const begun = (more: Parameters<typeof setupOf>[0] = {}, said: 'begin' | 'begin-probed' = 'begin') =>
  new Script({ setup: setupOf({ channels: [FINE], airTest: LC, ...more }) })
    .flow(5, 0, quiet)
    .say({ c: 'stage', to: 'air-test' })
    .flow(5, 0, quiet)
    .say({ c: 'air-test', said });
/** To 112 mbar, five minutes there, down to 101 mbar. */
const ready = (s = begun()) =>
  s
    .flow(20, (t) => (0.112 * t) / 20, quiet)
    .flow(305, 0.112, quiet)
    .flow(3, (t) => 0.112 - (0.011 * t) / 3, quiet);
/** And the drop of so many mbar in the three minutes of LC. */
const timed = (dropMbar: number, s = ready(), temps: (tS: number) => number | null = () => null) => {
  const flow = {
    ...quiet,
    temps: (tS: number) => {
      const c = temps(tS);
      return c === null ? [] : [{ channel: 1, place: 'air' as const, c, uC: 0.5, flags: 0 }];
    },
  };
  return s.flow(215, (t) => 0.101 - (dropMbar / 1000) * (Math.max(0, t - 21) / 180), flow);
};
const told = (s: Script) => s.of('air-test').map((e) => e.what);
const last = (s: Script) => s.of('air-test').findLast((e) => e.what !== 'vented')!;
const view = (s: Script) => viewOf(s.w, Math.round(s.tS * 1e6)).airTest!;

describe('an air test', () => {
  it('goes its way by itself, and each step of it is told', () => {
    const s = begun();
    expect(view(s)).toMatchObject({ phase: 'fill', attempt: 1 });
    s.flow(20, (t) => (0.112 * t) / 20, quiet).flow(60, 0.112, quiet);
    expect(view(s).phase).toBe('stabilise');
    expect(view(s).leftS).toBeCloseTo(240, -1);
    s.flow(245, 0.112, quiet);
    expect(view(s).phase).toBe('adjust');
    s.flow(3, (t) => 0.112 - (0.011 * t) / 3, quiet).flow(5, 0.101, quiet);
    expect(view(s).phase).toBe('settle');
    s.flow(20, 0.101, quiet).flow(100, (t) => 0.101 - 0.00002 * t, quiet);
    expect(view(s)).toMatchObject({ phase: 'timing', verdict: null });
    expect(view(s).dropBar).toBeCloseTo(0.002, 3);
    s.flow(90, 0.099, quiet);
    expect(view(s)).toMatchObject({ phase: 'vent', verdict: 'passed' });
    s.flow(5, 0.01, quiet);
    expect(view(s)).toMatchObject({ phase: 'idle', verdict: 'passed' });
    expect(told(s)).toEqual(['begun', 'stabilised', 'timed', 'judged', 'vented']);
    expect(last(s)).toMatchObject({ method: 'LC', allowedMbar: 15, seconds: 180, attempt: 1, reason: null });
  });

  it.each([
    [0, 'passed', null],
    [5, 'passed', null],
    [14.5, 'cannot-say', 'near'],
    [15.5, 'cannot-say', 'near'],
    [-6, 'cannot-say', 'rose'],
  ] as const)('a drop of %d mbar of 15: %s', (mbar, verdict, reason) => {
    const s = timed(mbar);
    expect(last(s)).toMatchObject({ verdict, reason });
    expect(Math.abs(last(s).dropMbar! - mbar)).toBeLessThan(0.3);
    expect(last(s).uMbar!).toBeGreaterThan(1);
    expect(last(s).uMbar!).toBeLessThan(3);
  });

  it('a drop that is surely too large is told before the time is over', () => {
    const s = timed(45);
    expect(last(s)).toMatchObject({ what: 'judged', verdict: 'failed' });
    expect(last(s).seconds!).toBeLessThan(120);
  });

  it('air that warms hides a leak: with a probe in it the drop is told at constant temperature, without it is not known so well', () => {
    // 2 K hide 2 · 1.11 bar / 283 K = 7.9 mbar (gas law).
    const warming = (from: number) => (tS: number) => 10 + (2 * Math.max(0, tS - from)) / 180;
    const probed = ready(begun({}, 'begin-probed'));
    const from = probed.tS + 21;
    timed(4, probed, warming(from));
    expect(last(probed).warmedK).toBeCloseTo(2, 1);
    expect(last(probed).dropMbar).toBeCloseTo(4 + 7.9, 0);
    // A probe that nobody has put between the plugs says nothing.
    const beside = timed(4, ready(), warming(0));
    expect(last(beside)).toMatchObject({ warmedK: null });
    expect(last(beside).dropMbar).toBeCloseTo(4, 0);
    // Steady, the probe makes the drop better known.
    const steady = timed(4, ready(begun({}, 'begin-probed')), () => 10);
    expect(last(steady).uMbar!).toBeLessThan(last(timed(4)).uMbar!);
  });

  it.each([
    ['sensor-too-coarse', { channels: [{ ...PRESSURE_CHANNEL, rangeHi: 10, bits: 12, rawHi: 4095 }] }],
    ['no-plan', { airTest: { method: 'F1417', mm: 150, lengthM: null, headBar: null } as const }],
    ['over-plugs', { airTest: { method: 'F1417', mm: 150, lengthM: 10, headBar: 0.5 } as const }],
    ['no-reading', { channels: [] }],
  ] as const)('is not begun: %s', (reason, more) => {
    const s = begun(more as Parameters<typeof setupOf>[0]);
    expect(last(s)).toMatchObject({ what: 'refused', reason, attempt: 0 });
    s.flow(10, 0.1, quiet);
    expect(told(s)).toEqual(['refused']);
  });

  it('is not begun in another stage', () => {
    const s = new Script({ setup: setupOf({ channels: [FINE], airTest: LC }) }).flow(5, 0, quiet);
    s.say({ c: 'air-test', said: 'begin' });
    expect(last(s)).toMatchObject({ what: 'refused', reason: 'not-in-stage' });
  });

  it('keeps every attempt: stopped, let out, begun again', () => {
    const s = begun().flow(10, 0.05, quiet).say({ c: 'air-test', said: 'stop' });
    expect(last(s)).toMatchObject({ what: 'broken-off', reason: 'stopped', attempt: 1 });
    s.flow(5, 0, quiet).say({ c: 'air-test', said: 'begin' });
    timed(3, ready(s));
    expect(s.of('air-test').map((e) => `${e.what} ${e.attempt}`)).toEqual([
      'begun 1',
      'broken-off 1',
      'vented 1',
      'begun 2',
      'stabilised 2',
      'timed 2',
      'judged 2',
    ]);
  });

  it('what does not stay at the test pressure before the time begins is not timed', () => {
    const s = begun()
      .flow(20, (t) => (0.112 * t) / 20, quiet)
      .flow(305, 0.112, quiet);
    for (let k = 0; k < 3; k++) s.flow(4, (t) => 0.104 - 0.003 * t, quiet);
    expect(last(s)).toMatchObject({ what: 'broken-off', reason: 'not-held' });
    expect(last(begun().flow(9, 0.02, quiet).say({ c: 'air-test', said: 'not-held' }))).toMatchObject({
      reason: 'not-held',
    });
  });

  it('air that is let in while the drop is timed, missing readings, another stage and the end break it off', () => {
    const running = () => ready().flow(60, 0.101, quiet);
    expect(view(running()).phase).toBe('timing');
    expect(last(running().flow(10, (t) => 0.101 + 0.002 * t, quiet))).toMatchObject({
      reason: 'air-came-in',
    });
    expect(last(running().silence(20).flow(5, 0.1, quiet))).toMatchObject({ reason: 'gap' });
    expect(last(running().say({ c: 'stage', to: 'done' }))).toMatchObject({ reason: 'stage' });
    expect(last(running().notice({ n: 'end' }))).toMatchObject({ reason: 'end' });
    const other = running().setup(setupOf({ number: 2, channels: [FINE], airTest: { ...LC, method: 'LB' } }));
    expect(last(other)).toMatchObject({ reason: 'device' });
  });

  it('over what the test allows between plugs is urgent, and nothing is in other stages', () => {
    const s = begun().flow(20, (t) => 0.0065 * t, quiet);
    expect(s.heard()).toEqual(['over-test']);
    expect(s.of('alarm')[0]).toMatchObject({ priority: 'urgent', values: { ceilingBar: 0.12 } });
    const fill = new Script({ setup: setupOf({ channels: [FINE], airTest: LC }) })
      .say({ c: 'stage', to: 'inflate' })
      .flow(20, (t) => 0.02 * t);
    expect(fill.heard()).not.toContain('over-test');
    // Where none is planned, no more than plugs ever get: 9 psi.
    const none = new Script({ setup: setupOf() }).say({ c: 'stage', to: 'air-test' });
    none.flow(20, (t) => 0.028 * t, quiet);
    expect(none.heard()).toEqual([]);
    expect(none.flow(5, 0.63, quiet).heard()).toEqual(['over-test']);
  });

  it('in its stage a line that fills is no packer that fills again', () => {
    const s = new Script({ setup: setupOf({ channels: [FINE], airTest: LC }) })
      .say({ c: 'stage', to: 'inflate' })
      .flow(10, (t) => 0.05 * t)
      .say({ c: 'stage', to: 'let-down' })
      .flow(10, (t) => Math.max(0, 0.5 - 0.1 * t))
      .say({ c: 'vent', open: false })
      .flow(40, 0)
      .say({ c: 'stage', to: 'done' })
      .flow(10, 0)
      .say({ c: 'stage', to: 'air-test' })
      .flow(30, (t) => 0.0037 * t);
    expect(s.heard()).toEqual([]);
  });
});
