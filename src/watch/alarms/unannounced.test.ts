import { describe, expect, it } from 'vitest';
import { setupOf } from '../../job/testing/givens.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';

const raised = (s: Script) => s.of('alarm').find((e) => e.alarm === 'rebound' && e.to === 'unacknowledged');

const stands = (s: Script) =>
  viewOf(s.w, s.tS * 1e6).alarms.some((a) => a.alarm === 'rebound' && a.state === 'unacknowledged');

describe('air that comes in before the work', () => {
  it.each([
    [0.04, 0.16],
    [0.02, 0.13],
    [0.18, 0.5],
  ])('at %s bar/s is told by %s bar, with or without a limit', (rate, byBar) => {
    for (const setup of [setupOf(), null]) {
      const s = new Script({ setup }).flow(10, 0).flow(1.2 / rate, (t) => rate * t);
      const first = raised(s);
      expect(first?.values.cause).toBe('unannounced');
      expect(first?.values.bar ?? 9).toBeLessThan(byBar);
    }
  });

  it.each([
    [0.001, 0.12],
    [0.003, 0.16],
    [0.005, 0.22],
  ])('creeping in by %s bar/s is told by %s bar, at any rate of readings', (rate, byBar) => {
    for (const rateHz of [10, 20, 50]) {
      const s = new Script({ setup: setupOf({ tap: 'hose', rateHz }) })
        .flow(20, 0)
        .flow(0.3 / rate, (t) => rate * t);
      const first = raised(s);
      expect(first?.values.cause).toBe('unannounced');
      expect(first?.values.bar ?? 9).toBeLessThan(byBar);
    }
  });

  it('after the work, in a line that was never seen quite empty, it is told too', () => {
    for (const to of ['done', 'abandoned'] as const) {
      const s = new Script({ setup: setupOf({ tap: 'hose' }) })
        .flow(5, 0)
        .say({ c: 'stage', to: 'inflate' })
        .flow(20, (t) => 0.09 * t)
        .say({ c: 'stage', to: 'let-down' })
        .flow(30, (t) => Math.max(0.03, 1.8 - 0.1 * t))
        .say({ c: 'stage', to })
        .flow(20, 0.03);
      expect(stands(s)).toBe(false);
      s.flow(60, (t) => 0.03 + 0.003 * t);
      expect(stands(s), to).toBe(true);
    }
  });

  it('stands while it is there, and is over once it was let out', () => {
    const s = new Script()
      .flow(10, 0)
      .flow(10, (t) => 0.05 * t)
      .flow(60, 0.5);
    expect(stands(s)).toBe(true);
    s.flow(5, (t) => Math.max(0, 0.5 - 0.2 * t)).flow(5, 0);
    expect(stands(s)).toBe(false);
  });

  it('is none at a line that stands still, at a jump of a hose, before the last valve, and once it was announced', () => {
    const still = new Script().flow(60, 1);
    const jump = new Script()
      .flow(10, 0)
      .flow(0.2, (t) => t)
      .flow(60, 0.2);
    const supply = new Script({ setup: setupOf({ tap: 'supply' }) }).flow(10, 0).flow(10, (t) => 0.1 * t);
    const announced = new Script()
      .flow(10, 0)
      .say({ c: 'stage', to: 'seat' })
      .flow(10, (t) => 0.04 * t);
    for (const s of [still, jump, supply, announced]) expect(raised(s)).toBeUndefined();
  });
});

describe('a packer that is left full', () => {
  const filled = (tap: 'hose' | 'supply' = 'hose') =>
    new Script({ setup: setupOf({ tap }) })
      .say({ c: 'stage', to: 'inflate' })
      .flow(15, (t) => 0.1 * t)
      .flow(5, 1.5);

  it('is told as soon as the work is said to be done, urgent where it grips, until it is let down', () => {
    const s = filled().say({ c: 'stage', to: 'done' }).flow(1, 1.5);
    expect(raised(s)).toMatchObject({ priority: 'urgent', values: { cause: 'full' } });
    const from = s.events.length;
    s.acknowledge()
      .flow(20, (t) => 1.5 - 0.075 * t)
      .flow(5, 0);
    expect(
      s.events.slice(from).flatMap((e) => (e.e === 'alarm' && e.alarm === 'rebound' ? [e.to] : [])),
    ).toEqual(['acknowledged', 'normal']);
    expect(
      raised(
        filled()
          .say({ c: 'stage', to: 'let-down' })
          .flow(10, (t) => 1.5 - 0.133 * t)
          .say({ c: 'stage', to: 'done' })
          .flow(2, 0.17),
      )?.priority,
    ).toBe('high');
  });

  it('given up, is told when nobody lets it down for a minute', () => {
    const s = filled().say({ c: 'stage', to: 'abandoned' }).flow(59, 1.5);
    expect(raised(s)).toBeUndefined();
    expect(raised(s.flow(2, 1.5))?.values.cause).toBe('full');
    expect(
      raised(
        filled()
          .say({ c: 'stage', to: 'abandoned' })
          .flow(300, (t) => 1.5 * Math.exp(-t / 60)),
      ),
    ).toBeUndefined();
  });

  it('is nothing that a line before the last valve tells', () => {
    expect(raised(filled('supply').say({ c: 'stage', to: 'done' }).flow(5, 1.5))).toBeUndefined();
  });
});
