import { describe, expect, it } from 'vitest';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';

/** A sensor that is known to read too low: the dial gauge showed more, or its reading jumped down. */

const filled = (toBar = 1.8) =>
  new Script()
    .flow(3, 0)
    .say({ c: 'stage', to: 'inflate' })
    .flow(toBar / 0.1, (t) => 0.1 * t)
    .flow(2, toBar);
const held = () => filled().say({ c: 'stage', to: 'hold' }).flow(20, 1.8);
const shown = (s: Script) => viewOf(s.w, s.tS * 1e6);
const letDown = (s: Script, from: number) =>
  s.say({ c: 'stage', to: 'let-down' }).flow(20, (t) => Math.max(0, from - 0.2 * t));
const LOW = {
  'the dial gauge showed more': () => held().say({ c: 'gauge', bar: 2.2 }).flow(1, 1.8),
  'its reading jumped down': () => held().flow(10, 1.4),
};

it('a dial gauge over the ceiling is as urgent as a reading over it, and asks again', () => {
  const s = held().say({ c: 'gauge', bar: 2.7 }).flow(1, 1.8);
  const differs = () => shown(s).alarms.find((a) => a.alarm === 'gauge-differs');
  expect(differs()).toMatchObject({ priority: 'urgent', values: { gaugeBar: 2.7, cause: 'over' } });
  s.acknowledge().flow(121, 1.8);
  expect(differs()).toMatchObject({ state: 'unacknowledged' });
});

it('it is as urgent as soon as the pressure has risen so far', () => {
  const s = filled(1).say({ c: 'gauge', bar: 1.6 }).flow(1, 1).acknowledge();
  s.flow(12, (t) => 1 + 0.05 * t);
  expect(shown(s).alarms.find((a) => a.alarm === 'gauge-differs')).toMatchObject({ priority: 'high' });
  s.flow(8, (t) => 1.6 + 0.05 * t);
  expect(shown(s).alarms.find((a) => a.alarm === 'gauge-differs')).toMatchObject({ priority: 'urgent' });
  // 1.88 bar and the 0.6 bar that it reads too low by are the ceiling.
  const at = s.of('alarm').find((e) => e.alarm === 'gauge-differs' && e.why === 'escalated')!;
  expect(at.tUs / 1e6 - (s.tS - 8)).toBeCloseTo(5.6, 0);
});

it('nothing is counted down by it', () => {
  const s = filled(1).say({ c: 'gauge', bar: 1.4 }).flow(1, 1).acknowledge();
  s.flow(5, (t) => 1 + 0.1 * t);
  expect(shown(s).guard.closeInS).toBeNull();
  const other = filled(1).say({ c: 'gauge', bar: 1.02 }).flow(1, 1);
  other.flow(5, (t) => 1 + 0.1 * t);
  expect(shown(other).guard.closeInS).not.toBeNull();
});

describe.each(Object.entries(LOW))('%s', (_, low) => {
  it('a test of the vent breaks off: its zero is none', () => {
    const s = letDown(low().acknowledge(), 1.4).say({ c: 'vent', open: false }).flow(30, 0);
    expect(s.of('rebound').map((e) => e.what)).toEqual(['started', 'broken-off']);
  });

  it('a plug that is pulled at its zero is a lost reading', () => {
    const s = letDown(low().acknowledge(), 1.4).say({ c: 'stage', to: 'done' }).flow(5, 0);
    s.notice({ n: 'link', state: 'lost' }).silence(8);
    expect(s.heard()).toContain('pressure-lost');
  });
});

it('once the comparison agrees the test says what it always said', () => {
  const s = letDown(LOW['its reading jumped down']().acknowledge(), 1.4)
    .say({ c: 'gauge', bar: 0 })
    .say({ c: 'vent', open: false })
    .flow(30, 0);
  expect(s.of('rebound').map((e) => e.what)).toEqual(['started', 'stayed']);
});
