import { describe, expect, it } from 'vitest';
import { STATUS } from '../../link/frames.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';

const look = (s: Script) => viewOf(s.w, s.tS * 1e6);
const shown = (s: Script, alarm: string) => look(s).alarms.find((a) => a.alarm === alarm);
const NOISY = { sd: 0.006, hz: 50 };
const show = (bar: number) => Math.round(bar * 1000) / 1000;

describe('numbers beside a raised alarm', () => {
  it('are those of the digits, whatever the alarm was judged by', () => {
    const s = new Script().flow(1, 2.6, NOISY);
    for (let k = 0; k < 50; k++) {
      s.flow(0.02, 2.6, NOISY);
      const { bar } = look(s);
      expect(shown(s, 'over-rated')!.values.bar).toBe(show(bar!));
      expect(shown(s, 'over-rated')!.values.overBar).toBe(show(show(bar!) - 2.5));
    }
  });

  it('go on with the digits through deadband and off-delay', () => {
    const s = new Script().flow(2, 2.49).flow(0.5, 2.47);
    expect(shown(s, 'ceiling')!.state).toBe('unacknowledged');
    expect(shown(s, 'ceiling')!.values.bar).toBe(show(look(s).bar!));
    s.flow(0.5, 2.3);
    expect(shown(s, 'ceiling')!.state).toBe('unacknowledged');
    expect(shown(s, 'ceiling')!.values.bar).toBe(show(look(s).bar!));
  });

  it('of a rise that is warned of are pressure and time of now, not of the last evaluation that was sure', () => {
    const s = new Script().flow(2, 0).say({ c: 'stage', to: 'inflate' });
    s.flow(26, (t) => 0.08 * t, { sd: 0.002, hz: 50 });
    const times: number[] = [];
    for (let k = 0; k < 20; k++) {
      s.flow(0.04, (t) => 0.08 * (26 + 0.04 * k + t), { sd: 0.002, hz: 50 });
      const values = shown(s, 'rising')?.values;
      if (values === undefined) continue;
      expect(values.bar).toBe(show(look(s).bar!));
      if (values.inS !== undefined) {
        times.push(values.inS);
        expect(Math.abs(values.inS - (2.48 - look(s).bar!) / 0.08)).toBeLessThan(0.6);
      }
    }
    expect(times.length).toBeGreaterThan(5);
  });
});

it('beside a trip of the device the limit is the device’s own; where it said none, that of the run', () => {
  const guard = (limitMbar: number | null) => ({
    i: 'device' as const,
    tUs: 0,
    frame: {
      t: 'G' as const,
      tick: 1,
      state: 'tripped' as const,
      channel: 0,
      limitCounts: 1,
      limitMbar,
      sounder: 0 as const,
    },
  });
  const trip = { more: { status: STATUS.armed | STATUS.tripped } };
  for (const [limitMbar, ceilingBar] of [
    [2100, 2.1],
    [null, 2.48],
  ] as const) {
    const s = new Script().give(guard(limitMbar)).flow(1, 1.8, trip);
    expect(shown(s, 'device-trip')!.values).toMatchObject({ ceilingBar });
  }
});

describe('numbers of an alarm that is over', () => {
  it('are those of its worst moment, and move no more', () => {
    const s = new Script().flow(2, 2.49).flow(2, 2.497, { sd: 0 }).flow(5, 1.8);
    const over = shown(s, 'ceiling')!;
    expect(over).toMatchObject({ state: 'returned', values: { bar: 2.497, ceilingBar: 2.48 } });
    expect(shown(s.flow(3, 1.2), 'ceiling')!.values).toEqual(over.values);
  });
});
