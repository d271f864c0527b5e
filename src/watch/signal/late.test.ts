import { describe, expect, it } from 'vitest';
import { Script } from '../testing/script.ts';
import { createLate, lateReading } from './late.ts';

/** Readings of ten a second whose way takes so long, s after the start. */
function behind(seconds: number, wayS: (s: number) => number, clock = 1): number {
  const l = createLate();
  for (let k = 0; k <= seconds * 10; k++) lateReading(l, (k / 10) * clock, k / 10 + wayS(k / 10));
  return l.lateS;
}

describe('readings that come late', () => {
  it('a constant way is none, and a moment that is caught up is over', () => {
    expect(behind(60, () => 0.4)).toBeCloseTo(0, 9);
    expect(behind(60, (s) => (s > 20 && s < 21 ? 0.9 : 0))).toBeCloseTo(0, 9);
  });

  it('a line that takes nine in ten falls behind by a tenth of the time', () => {
    expect(behind(30, (s) => 0.1 * s)).toBeGreaterThan(2.5);
    expect(behind(30, (s) => 0.1 * s)).toBeLessThan(3.1);
  });

  it('a clock that is a percent slow is no way, one of three percent is told after a minute and a half', () => {
    expect(behind(3600, () => 0, 0.991)).toBeLessThan(0.1);
    expect(behind(60, () => 0, 0.97)).toBeLessThan(1.5);
    expect(behind(90, () => 0, 0.97)).toBeGreaterThan(1.5);
  });

  it('are told in a fill, high, by how much they are late, and no more once they are caught up', () => {
    const s = new Script().flow(5, 0);
    s.say({ c: 'stage', to: 'inflate' });
    let late = 0;
    const flow = (seconds: number, grow: number) => {
      for (let k = 0; k < seconds * 20; k++) {
        late = Math.max(0, late + grow / 20);
        s.flow(0.05, 0.5, { more: { tS: s.tS + 0.05 - late } });
      }
    };
    flow(14, 0.1);
    expect(s.heard()).toEqual([]);
    flow(8, 0.1);
    expect(s.heard()).toEqual(['slow-readings']);
    const told = s.of('alarm').find((e) => e.alarm === 'slow-readings');
    expect([told?.priority, told?.values.cause]).toEqual(['high', 'late']);
    expect(told?.values.seconds).toBeGreaterThan(1.4);
    flow(10, -1);
    flow(3, 0);
    expect(s.states('slow-readings').at(-1)).toBe('returned');
  });
});
