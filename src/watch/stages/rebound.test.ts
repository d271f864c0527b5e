import { describe, expect, it } from 'vitest';
import { FLAG } from '../../sensing/reading.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';
import { REBOUND_S } from './rebound.ts';

const vented = () =>
  new Script()
    .say({ c: 'stage', to: 'inflate' })
    .flow(30, (t) => t * 0.06)
    .say({ c: 'stage', to: 'hold' })
    .flow(30, 1.8)
    .say({ c: 'stage', to: 'let-down' })
    .flow(30, (t) => 1.8 * Math.exp(-t / 3));

describe('rebound test', () => {
  it('stays at zero for the whole time, and says no more than that', () => {
    const s = vented().say({ c: 'vent', open: false }).flow(20, 0);
    expect(viewOf(s.w, s.tS * 1e6).rebound).toMatchObject({ needS: REBOUND_S });
    s.flow(10, 0);
    expect(s.of('rebound').map((e) => [e.what, e.seconds])).toEqual([
      ['started', 0],
      ['stayed', 25],
    ]);
    expect(viewOf(s.w, s.tS * 1e6).rebound).toBeNull();
    expect(s.heard()).toEqual([]);
  });

  it('a packer that is not empty comes back through the hose: an alarm', () => {
    const s = vented()
      .say({ c: 'vent', open: false })
      .flow(20, (t) => 0.3 * (1 - Math.exp(-t / 10)));
    expect(s.of('rebound').map((e) => e.what)).toEqual(['started', 'came-back']);
    expect(s.of('rebound')[1]!.seconds).toBeLessThan(4);
    expect(s.heard()).toEqual(['rebound']);
    // Told as soon as it is no noise, and then how far it came.
    expect(s.of('rebound')[1]!.bar).toBeLessThan(0.05);
    const told = viewOf(s.w, s.tS * 1e6).alarms.find((a) => a.alarm === 'rebound');
    expect(told?.values.bar).toBeCloseTo(0.3 * (1 - Math.exp(-2)), 1);
    // It stays until a later test stays at zero.
    s.say({ c: 'vent', open: true }).flow(60, 0);
    expect(s.states('rebound')).toEqual(['unacknowledged']);
    s.say({ c: 'vent', open: false }).flow(30, 0);
    expect(s.states('rebound')).toEqual(['unacknowledged', 'returned']);
  });

  it('does not begin while the line is not at zero', () => {
    const s = new Script().say({ c: 'stage', to: 'let-down' }).flow(5, 0.3).say({ c: 'vent', open: false });
    expect(s.of('rebound')).toMatchObject([{ what: 'broken-off', bar: 0.3 }]);
  });

  it('gives no verdict when it is broken off: vent opened, no readings, another stage', () => {
    expect(
      vented()
        .say({ c: 'vent', open: false })
        .flow(9, 0)
        .say({ c: 'vent', open: true })
        .of('rebound')
        .map((e) => e.what),
    ).toEqual(['started', 'broken-off']);
    expect(
      vented()
        .say({ c: 'vent', open: false })
        .flow(9, 0)
        .say({ c: 'stage', to: 'prepare' })
        .flow(30, 0)
        .of('rebound')
        .map((e) => e.what),
    ).toEqual(['started', 'broken-off']);
    const silent = vented().say({ c: 'vent', open: false }).flow(9, 0).silence(40);
    expect(silent.of('rebound').map((e) => e.what)).toEqual(['started', 'broken-off']);
    // Nor when the sensor is put away, or reads over its span: alarm or not, nobody saw the line stay at zero.
    for (const unseen of [
      (t: Script) => t.flow(20, null, { more: { flags: FLAG.fault } }),
      (t: Script) => t.flow(20, 4.1, { more: { flags: FLAG.outOfRange } }),
    ]) {
      const s = vented().say({ c: 'stage', to: 'done' }).say({ c: 'vent', open: false }).flow(9, 0);
      unseen(s).flow(20, 0);
      expect(s.of('rebound').map((e) => e.what)).toEqual(['started', 'broken-off']);
    }
  });

  it('noise and a small zero error are no rebound', () => {
    const zero = { sd: 0.004 };
    const s = vented().flow(3, 0.012, zero).say({ c: 'vent', open: false }).flow(30, 0.012, zero);
    expect(s.of('rebound').map((e) => e.what)).toEqual(['started', 'stayed']);
  });

  it('goes on over a few lost lines, and is broken off by more than a second of them', () => {
    const gap = (seconds: number) => {
      const s = vented().say({ c: 'vent', open: false }).flow(5, 0);
      const toUs = s.tS * 1e6;
      s.notice({ n: 'gap', reason: 'dropped', fromUs: toUs - seconds * 1e6, toUs, lost: 9 }).flow(5, 0);
      return s.of('rebound').map((e) => e.what);
    };
    expect(gap(0.9)).toEqual(['started']);
    expect(gap(1.1)).toEqual(['started', 'broken-off']);
  });
});
