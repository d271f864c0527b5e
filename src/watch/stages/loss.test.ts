import { describe, expect, it } from 'vitest';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';

const slow = { hz: 5 };
/** Held at a pressure for two minutes. */
const held = (bar = 1.8, limits = {}) =>
  new Script({
    setup: setupOf({ tap: 'hose', line: 'closed', limits: { ...LIMITS, workingBar: bar, ...limits } }),
  })
    .say({ c: 'stage', to: 'inflate' })
    .flow(20, (t) => (bar * t) / 20, slow)
    .flow(5, bar, slow)
    .say({ c: 'stage', to: 'hold' })
    .flow(150, bar, slow);
const now = (s: Script) => viewOf(s.w, Math.round(s.tS * 1e6));
const values = (s: Script, alarm: string) => now(s).alarms.find((a) => a.alarm === alarm)?.values;

describe('a packer that tears in a hold', () => {
  it.each([0.002, 0.005, 0.01, 0.015, 0.05])('at %d bar/s is told, and no air is asked for', (rate) => {
    const s = held();
    const from = s.tS;
    for (let k = 0; k < 1.7 / rate / 5; k++) {
      s.flow(5, (t) => 1.8 - rate * (5 * k + t), slow);
      // Until it is told there is nothing to act on; from there on the loss comes first.
      if (s.heard().length > 0) expect(now(s).airNotWanted).toBe('fast-fall');
    }
    expect(s.heard()[0]).toBe('fast-fall');
    expect(s.at('fast-fall', 'unacknowledged') - from).toBeLessThan(Math.max(15, 0.1 / rate + 5));
  });

  it('so does a soft one that empties within minutes', () => {
    const s = held(0.8, { floorBar: 0.5, ratedBar: 1.2, ceilingBar: 1.17, seatBar: 0.2 });
    const from = s.tS;
    s.flow(120, (t) => 0.8 * Math.exp(-t / 60), slow);
    expect(s.at('fast-fall', 'unacknowledged') - from).toBeLessThan(15);
    s.flow(30, 0.1, slow);
    expect(values(s, 'below-floor')).toMatchObject({ cause: 'fast-fall' });
  });

  it('a small leak is one that air makes up for, however long it goes on', () => {
    const s = held(1.8, { floorBar: 1.5 }).flow(2000, (t) => 1.8 - (0.01 / 60) * t, slow);
    expect(s.heard()).not.toContain('fast-fall');
    s.flow(20, 1.46, slow);
    expect(values(s, 'below-floor')?.cause).toBeUndefined();
    expect(now(s).airNotWanted).toBeNull();
  });

  it('a leak that somebody knows of is told again as it empties the packer, and as a loss when it tears', () => {
    const air = { ...slow, temps: () => [{ channel: 1, place: 'air' as const, c: 15, uC: 0.5, flags: 0 }] };
    const s = held().flow(900, (t) => 1.8 - (0.01 / 60) * t, air);
    expect(s.heard()).toContain('leaking');
    s.acknowledge();
    s.flow(900, (t) => 1.65 - (0.01 / 60) * t, air);
    expect(s.of('alarm').filter((e) => e.alarm === 'leaking' && e.why === 're-annunciated')).toHaveLength(1);
    s.acknowledge();
    s.flow(60, (t) => 1.5 * Math.exp(-t / 120), slow);
    expect(s.heard()).toContain('fast-fall');
    expect(now(s).airNotWanted).toBe('fast-fall');
  });
});

describe('what nobody saw', () => {
  it('a lower reading after a gap, or of another sensor, is a loss of unknown cause', () => {
    const gap = held().silence(60).flow(15, 0.5);
    const other = held()
      .notice({ n: 'device', what: 'other', bootId: 5, deviceId: 'b' })
      .flow(2, null)
      .notice({ n: 'device', what: 'taken', bootId: 5, deviceId: 'b' })
      .flow(20, 1.5);
    for (const s of [gap, other]) {
      expect(s.heard()).toContain('fast-fall');
      expect(now(s).airNotWanted).toBe('fast-fall');
      expect(s.of('alarm').find((e) => e.alarm === 'fast-fall')?.values).toMatchObject({ cause: 'unseen' });
    }
    // What is still there was not lost.
    expect(held().silence(600).flow(30, 1.75).heard()).not.toContain('fast-fall');
  });

  it('the dial gauge that shows the old pressure takes it back', () => {
    const s = held().silence(60).flow(15, 1.5).say({ c: 'gauge', bar: 1.8 }).flow(10, 1.5);
    expect(now(s).airNotWanted).toBeNull();
    expect(s.of('question').at(-1)).toMatchObject({ answer: 'held' });
  });
});

describe('a packer that tears in a fill', () => {
  const filled = (stage: 'seat' | 'inflate', bar: number) =>
    new Script({ setup: setupOf({ tap: 'hose' }) })
      .flow(5, 0)
      .say({ c: 'stage', to: stage })
      .flow(20, (t) => (bar * t) / 20)
      .flow(10, bar);
  it.each([
    ['seat', 0.4, 0.005],
    ['seat', 0.4, 0.05],
    ['inflate', 1.4, 0.01],
    ['inflate', 1.4, 0.05],
    ['inflate', 1.4, 0.1],
  ] as const)('in %s, from %d bar at %d bar/s, is told and not fed', (stage, bar, rate) => {
    const s = filled(stage, bar);
    const from = s.tS;
    s.flow((0.9 * bar) / rate, (t) => bar - rate * t);
    const least = Math.max(0.15, 0.15 * bar);
    expect(s.at('fast-fall', 'unacknowledged') - from).toBeLessThan(least / rate + 5);
    expect(now(s)).toMatchObject({ airNotWanted: 'fast-fall', question: 'let-down-or-loss' });
    // Nobody has answered: it stays.
    s.flow(20, 0.1 * bar);
    expect(now(s).alarms.find((a) => a.alarm === 'fast-fall')?.state).toBe('unacknowledged');
  });

  it('is neither the heat of a fill that fades, nor a hose that evens out, nor a vent that was said open', () => {
    const cools = filled('inflate', 1.4).flow(120, (t) => 1.4 - 0.09 * (1 - Math.exp(-t / 30)));
    const evens = filled('inflate', 1.4).flow(60, (t) => 1.1 + 0.3 * Math.exp(-t / 0.8));
    const vented = filled('inflate', 1.4)
      .say({ c: 'vent', open: true })
      .flow(20, (t) => 1.4 - 0.05 * t);
    for (const s of [cools, evens, vented]) expect(s.heard()).not.toContain('fast-fall');
  });

  it('and a step back from the hold makes nothing good that was lost', () => {
    const s = held().flow(40, (t) => 1.8 - 0.02 * t);
    s.say({ c: 'answer', question: 'let-down-or-loss', answer: 'loss' }).say({ c: 'stage', to: 'inflate' });
    s.flow(10, 1);
    expect(now(s).airNotWanted).toBe('fast-fall');
    // Let down, it is another filling.
    s.say({ c: 'stage', to: 'let-down' })
      .flow(30, (t) => Math.max(0, 1 - 0.1 * t))
      .say({ c: 'stage', to: 'inflate' });
    expect(now(s).airNotWanted).toBeNull();
  });
});

describe('a reading that is told to be false', () => {
  it('orders no air while its jump stands, acknowledged or not', () => {
    const s = new Script({ setup: setupOf({ tap: 'packer', limits: { ...LIMITS, floorBar: 1.65 } }) })
      .say({ c: 'stage', to: 'inflate' })
      .flow(20, (t) => 0.09 * t)
      .flow(5, 1.8)
      .say({ c: 'stage', to: 'hold' })
      .flow(60, 1.8)
      .flow(20, 1.5);
    expect(now(s).airNotWanted).toBe('reading-jump');
    s.acknowledge().flow(30, 1.5);
    expect(now(s).airNotWanted).toBe('reading-jump');
    expect(s.heard()).not.toContain('below-floor');
  });
});
