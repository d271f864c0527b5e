import { describe, expect, it } from 'vitest';
import { PRESSURE_CHANNEL, setupOf } from '../../job/testing/givens.ts';
import { Script } from '../testing/script.ts';

/** Held, let down, empty, and the work said to be over. */
const over = (stage: 'done' | 'abandoned') =>
  new Script()
    .say({ c: 'stage', to: 'inflate' })
    .flow(20, (s) => Math.min(1.2, 0.06 * s))
    .say({ c: 'stage', to: 'hold' })
    .flow(30, 1.2)
    .say({ c: 'stage', to: 'let-down' })
    .flow(20, (s) => Math.max(0, 1.2 - 0.1 * s))
    .flow(10, 0)
    .say({ c: 'stage', to: stage })
    .flow(10, 0);

describe('a packer that fills when the work is over', () => {
  it.each(['done', 'abandoned'] as const)(
    'is said long before any limit, in %s: hands may be on it',
    (stage) => {
      const s = over(stage);
      expect(s.heard()).not.toContain('rebound');
      const from = s.tS;
      // Slower than what only an opened valve does, which is told as such (guard/opened.ts).
      s.flow(8, (t) => 0.05 * t);
      expect(s.at('rebound', 'unacknowledged') - from).toBeLessThan(2);
      expect(s.heard()).not.toContain('rising');
      // Let out again it is over.
      s.acknowledge()
        .flow(4, (t) => 0.4 - 0.1 * t)
        .flow(10, 0);
      expect(s.states('rebound').at(-1)).toBe('normal');
    },
  );

  it('is said in the let-down too, once the line was empty and the vent is said shut', () => {
    const s = over('done').say({ c: 'stage', to: 'let-down' }).flow(5, 0);
    // The link fails in the test of the vent: broken off, so that nothing else watches the line any more.
    s.say({ c: 'vent', open: false }).flow(3, 0).silence(2).flow(5, 0);
    expect(s.heard()).not.toContain('rebound');
    const from = s.tS;
    s.flow(4, (t) => 0.1 * t);
    expect(s.at('rebound', 'unacknowledged') - from).toBeLessThan(2);
  });

  it('a line that was never empty is no empty packer: shutting the vent half way asks nothing', () => {
    const s = over('done')
      .say({ c: 'stage', to: 'inflate' })
      .flow(20, (t) => Math.min(1.2, 0.06 * t))
      .say({ c: 'stage', to: 'let-down' })
      .flow(8, (t) => 1.2 - 0.1 * t)
      .say({ c: 'vent', open: false })
      .flow(10, (t) => 0.4 + 0.2 * (1 - Math.exp(-t / 2)));
    expect(s.heard()).not.toContain('rebound');
  });

  it('a line that stands at zero, or moves by its noise, says nothing', () => {
    const s = over('done').flow(60, 0, { sd: 0.004 });
    expect(s.heard()).not.toContain('rebound');
  });
});

/** Every time that the alarm asked for attention: why, how urgent, and at which pressure. */
const asked = (s: Script) =>
  s.events.flatMap((e) =>
    e.e === 'alarm' && e.alarm === 'rebound' && e.to === 'unacknowledged'
      ? [{ why: e.why, priority: e.priority, bar: e.values.bar ?? 0, tUs: e.tUs }]
      : [],
  );

describe('an acknowledgement of air that comes back', () => {
  it.each([
    [0.02, 0.12],
    [0.04, 0.12],
    [0.04, 0.8],
  ])('at %s bar/s, given at %s bar, lasts for no more than 0.15 bar', (rate, ackBar) => {
    const s = over('done').flow(ackBar / rate, (t) => rate * t);
    s.acknowledge();
    const heard = asked(s).length;
    s.flow((1.7 - ackBar) / rate, (t) => ackBar + rate * t);
    // Nobody presses again: one more is heard, and it stays unacknowledged.
    expect(asked(s)).toHaveLength(heard + 1);
    expect(asked(s).at(-1)!.bar).toBeLessThan(ackBar + 0.16);
  });

  it('has to be given anew at each 0.15 bar, urgent from where hands have seconds', () => {
    const s = over('done');
    for (let k = 0; k < 850; k++) {
      s.flow(0.1, (t) => 0.02 * (0.1 * k + t));
      s.acknowledge('rebound');
    }
    const bars = asked(s).map((a) => a.bar);
    for (let i = 1; i < bars.length; i++) expect(bars[i]! - bars[i - 1]!).toBeLessThan(0.17);
    expect(bars.at(-1)!).toBeGreaterThan(1.5);
    expect(asked(s)[1]!.priority).toBe('urgent');
  });

  it('is asked for again after two minutes while the air stands there, and not once it was let out', () => {
    const s = over('done')
      .flow(60, (t) => Math.min(0.14, 0.004 * t))
      .acknowledge();
    expect(asked(s)).toHaveLength(1);
    s.flow(119, 0.14);
    expect(asked(s)).toHaveLength(1);
    s.flow(2, 0.14);
    expect(asked(s).map((a) => [a.why, a.priority])).toEqual([
      ['condition', 'high'],
      ['re-annunciated', 'high'],
    ]);
    s.acknowledge()
      .flow(10, (t) => Math.max(0, 0.14 - 0.02 * t))
      .flow(130, 0);
    expect(asked(s)).toHaveLength(2);
  });
});

describe('air that seeps back into a packer that was empty', () => {
  const CHANNEL = (span: number) => setupOf({ channels: [{ ...PRESSURE_CHANNEL, rangeHi: span }] });
  const tested = (span = 4) =>
    new Script({ setup: CHANNEL(span) })
      .say({ c: 'stage', to: 'inflate' })
      .flow(20, (t) => Math.min(1.2, 0.06 * t))
      .say({ c: 'stage', to: 'let-down' })
      .flow(20, (t) => Math.max(0, 1.2 - 0.1 * t))
      .say({ c: 'vent', open: false })
      .flow(30, 0);
  const raisedAt = (s: Script, rate: number, seconds: number) => {
    const from = s.tS;
    s.flow(seconds, (t) => rate * t, { sd: 0.003 });
    return (s.at('rebound', 'unacknowledged') - from) * rate;
  };

  it.each([0.0002, 0.001, 0.002, 0.005])('at %s bar/s is told at 0.05 bar, in let-down and done', (rate) => {
    for (const to of ['let-down', 'done', 'abandoned'] as const) {
      const s = tested().say({ c: 'stage', to });
      const bar = raisedAt(s, rate, 0.08 / rate);
      expect(bar).toBeGreaterThan(0.04);
      expect(bar).toBeLessThan(0.06);
      // What the test had said is taken back.
      expect(s.of('rebound').map((e) => e.what)).toEqual(['started', 'stayed', 'came-back']);
    }
  });

  it('is urgent from the seat pressure on, however slow', () => {
    const s = tested().say({ c: 'stage', to: 'done' });
    s.flow(250, (t) => 0.002 * t);
    expect(asked(s).map((a) => [a.priority, a.bar > 0.39])).toEqual([
      ['high', false],
      ['urgent', true],
    ]);
  });

  it('is not the warmth of a sensor, nor its noise, in a long done', () => {
    for (const [span, swing] of [
      [4, 0.028],
      [10, 0.05],
    ] as const) {
      const s = tested(span).say({ c: 'stage', to: 'done' });
      s.flow(3600, (t) => swing * Math.sin((Math.PI * t) / 3600), { sd: 0.006, hz: 5 });
      expect(s.heard()).toEqual([]);
    }
  });

  it('is told anew after it was let out and comes again', () => {
    const s = tested()
      .say({ c: 'stage', to: 'done' })
      .flow(60, (t) => 0.002 * t);
    s.say({ c: 'stage', to: 'let-down' })
      .flow(20, (t) => Math.max(0, 0.12 - 0.02 * t))
      .say({ c: 'vent', open: false })
      .flow(30, 0);
    expect(s.states('rebound').at(-1)).toBe('returned');
    s.flow(60, (t) => 0.002 * t);
    expect(asked(s)).toHaveLength(2);
  });
});
