import { describe, expect, it } from 'vitest';
import { FLAG } from '../../sensing/reading.ts';
import { probeOf } from '../../sensing/testing/readings.ts';
import { Script } from '../testing/script.ts';
import { ZERO_LIMIT_BAR } from './sensor-checks.ts';

describe('zero', () => {
  it('is taken from the last second, with the coupling open', () => {
    const s = new Script().flow(3, 0.012).say({ c: 'zero' });
    const [zero] = s.of('zero');
    expect(zero).toMatchObject({ taken: true, reason: 'ok' });
    expect(zero!.offsetBar).toBeCloseTo(0.012, 3);
  });

  it.each([
    ['too-far', () => new Script().flow(3, 0.06)],
    ['noisy', () => new Script().flow(3, 0, { sd: 0.03 })],
    ...(['seat', 'inflate', 'hold', 'let-down', 'done', 'abandoned'] as const).map(
      (to) => ['in-run', () => new Script().flow(3, 0).say({ c: 'stage', to })] as const,
    ),
    ['no-reading', () => new Script()],
    ['no-reading', () => new Script().flow(3, 0).silence(5)],
    ['no-reading', () => new Script().flow(3, null, { more: { flags: FLAG.fault } })],
  ] as const)('is refused: %s', (reason, script) => {
    expect(script().say({ c: 'zero' }).of('zero')).toMatchObject([{ taken: false, reason }]);
  });

  it('several small ones may not add up to a large one', () => {
    const s = new Script();
    const taken: boolean[] = [];
    for (let k = 0; k < 4; k++) {
      s.flow(3, 0.6 * ZERO_LIMIT_BAR).say({ c: 'zero' });
      taken.push(s.of('zero').at(-1)!.taken);
    }
    expect(taken).toEqual([true, false, false, false]);
  });
});

describe('dial gauge', () => {
  it('agrees within both uncertainties', () => {
    const s = new Script().flow(3, 0.4).say({ c: 'gauge', bar: 0.46 }).flow(1, 0.4);
    expect(s.of('gauge')).toMatchObject([{ gaugeBar: 0.46, agrees: true }]);
    expect(s.heard()).toEqual([]);
  });

  it('beyond them it is an alarm until another comparison agrees', () => {
    const s = new Script().flow(3, 0.4).say({ c: 'gauge', bar: 0.6 }).flow(1, 0.4);
    expect(s.heard()).toEqual(['gauge-differs']);
    s.say({ c: 'gauge', bar: 0.41 }).flow(1, 0.4);
    expect(s.states('gauge-differs')).toEqual(['unacknowledged', 'returned']);
  });

  it('without a reading there is nothing to compare', () => {
    expect(new Script().say({ c: 'gauge', bar: 0.4 }).of('gauge')).toMatchObject([
      { agrees: null, readingBar: null },
    ]);
  });
});

describe('probe in the warm hand', () => {
  const temps = (c: number) => () => [probeOf('sleeve', c, 1.5, FLAG.unchecked)];
  const check = { c: 'warm-check', place: 'sleeve', thermometerC: 33 } as const;

  it('agrees, and the place counts as checked', () => {
    const s = new Script().flow(2, 0, { temps: temps(32) }).say(check);
    expect(s.of('warm-check')).toMatchObject([{ agrees: true, readingC: 32 }]);
    expect(s.w.sensorChecks.warm).toEqual(['sleeve']);
  });

  it('shorted (reads the junction) or reversed does not; a failed check takes an earlier one back', () => {
    const s = new Script()
      .flow(2, 0, { temps: temps(33) })
      .say(check)
      .flow(2, 0, { temps: temps(25) })
      .say(check);
    expect(s.of('warm-check').map((e) => e.agrees)).toEqual([true, false]);
    expect(s.w.sensorChecks.warm).toEqual([]);
  });

  it('without a probe at that place there is nothing to compare', () => {
    expect(new Script().flow(2, 0).say(check).of('warm-check')).toMatchObject([{ agrees: null }]);
  });
});
