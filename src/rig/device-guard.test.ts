import { describe, expect, it } from 'vitest';
import { DeviceGuard } from './device-guard.ts';

const CONFIG = { channel: 0, small: 460, floor: 330, deadband: 33, top: 4095 };
const LIMIT = { channel: 0, counts: 1200, mbar: 1460 };

function armed(): DeviceGuard {
  const g = new DeviceGuard(CONFIG);
  g.step(0, 410);
  expect(g.set(0, LIMIT)).toBe('ok');
  return g;
}

describe('device guard', () => {
  it('trips at the limit at once, and returns after a second below its deadband', () => {
    const g = armed();
    g.step(1, 1199);
    expect(g.state).toBe('armed');
    g.step(1.01, 1200);
    expect(g.state).toBe('tripped');
    g.step(2, 1180);
    g.step(4, 1180);
    expect(g.state).toBe('tripped');
    g.step(5, 1100);
    g.step(5.9, 1100);
    expect(g.state).toBe('tripped');
    g.step(6, 1100);
    expect(g.state).toBe('armed');
    expect([g.trips, g.returns]).toEqual([1, 1]);
  });

  it('a broken sensor reads low: that is no return', () => {
    const g = armed();
    g.step(1, 1300);
    for (let s = 2; s < 20; s++) g.step(s, 0);
    expect(g.state).toBe('tripped');
  });

  it('may be lowered under pressure, never raised or disarmed', () => {
    const g = armed();
    g.step(1, 900);
    expect(g.set(1, { ...LIMIT, counts: 1100, mbar: 1300 })).toBe('ok');
    expect(g.set(1, LIMIT)).toBe('refused');
    expect(g.set(1, { ...LIMIT, counts: 1000, mbar: 1500 })).toBe('refused');
    expect(g.disarm(1)).toBe('refused');
    expect(g.limit?.counts).toBe(1100);
    g.step(2, 420);
    expect(g.set(2, LIMIT)).toBe('ok');
    expect(g.disarm(2)).toBe('ok');
    expect(g.state).toBe('unarmed');
  });

  it('takes an old or an unbelievable reading for no proof of small pressure', () => {
    const g = armed();
    g.step(1, 420);
    expect(g.disarm(2.5)).toBe('refused');
    g.step(3, 100);
    expect(g.disarm(3)).toBe('refused');
    g.step(4, 420);
    g.follow(0.5);
    expect(g.disarm(4)).toBe('refused');
  });

  it('follows a low supply downwards only', () => {
    const g = armed();
    g.follow(0.95);
    g.step(1, 1150);
    expect(g.state).toBe('tripped');
    const h = armed();
    h.follow(1.1);
    h.step(1, 1199);
    expect(h.state).toBe('armed');
  });

  it('silenced it sounds again after two minutes over the limit', () => {
    const g = armed();
    g.step(1, 1300);
    g.silence(1);
    g.step(60, 1300);
    expect(g.state).toBe('silenced');
    g.step(121, 1300);
    expect(g.state).toBe('tripped');
  });

  it('refuses another channel, a limit over the converter and one under the small pressure', () => {
    const g = new DeviceGuard(CONFIG);
    expect(g.set(0, { ...LIMIT, channel: 1 })).toBe('range');
    expect(g.set(0, { ...LIMIT, counts: 5000 })).toBe('range');
    expect(g.set(0, { ...LIMIT, counts: 400 })).toBe('range');
    expect(g.state).toBe('unarmed');
  });
});
