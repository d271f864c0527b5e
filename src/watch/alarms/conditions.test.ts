import { describe, expect, it } from 'vitest';
import { setupOf } from '../../job/testing/givens.ts';
import { FLAG } from '../../sensing/reading.ts';
import type { Stage } from '../codes.ts';
import { Script } from '../testing/script.ts';
import { conditionOf } from './conditions.ts';

describe('a fast fall', () => {
  const bled = (tap: 'packer' | 'hose' | 'supply' | 'unknown') =>
    new Script({ setup: setupOf({ tap }) })
      .say({ c: 'stage', to: 'inflate' })
      .flow(15, (t) => Math.min(1.8, 0.15 * t))
      .say({ c: 'stage', to: 'hold' })
      .flow(60, 1.8)
      .flow(3, (t) => 1.8 - 0.6 * t)
      .flow(30, 0);

  it('is the packer’s only where the tap sees the packer: a bled supply hose asks nothing', () => {
    for (const tap of ['supply', 'unknown'] as const) {
      expect(bled(tap).heard()).toEqual([]);
      expect(bled(tap).of('question')).toEqual([]);
    }
    for (const tap of ['packer', 'hose'] as const) expect(bled(tap).heard()[0]).toBe('fast-fall');
  });
});

describe('a reading that is stuck', () => {
  const STUCK = { more: { flags: FLAG.stuck }, sd: 0 };
  const stuckIn = (stage: Stage) =>
    new Script().flow(5, 0.3).say({ c: 'stage', to: stage }).flow(2, 0.3, STUCK);
  const raised = (s: Script) =>
    s
      .of('alarm')
      .filter((e) => e.alarm === 'stuck')
      .map((e) => [e.priority, e.to, e.why]);

  it('is urgent while a hand fills by it, else high', () => {
    for (const stage of ['seat', 'inflate'] as const)
      expect(raised(stuckIn(stage))).toEqual([['urgent', 'unacknowledged', 'condition']]);
    for (const stage of ['prepare', 'hold', 'let-down'] as const)
      expect(raised(stuckIn(stage))).toEqual([['high', 'unacknowledged', 'condition']]);
  });

  it('asks again when the fill goes on by it', () => {
    const s = stuckIn('hold').acknowledge();
    s.say({ c: 'stage', to: 'inflate' }).flow(1, 0.3, STUCK);
    expect(raised(s).at(-1)).toEqual(['urgent', 'unacknowledged', 'escalated']);
  });
});

describe('a lift', () => {
  // Within 9 minutes of the ceiling it is on, or within 6½ where the cure's warmth ends under it; it clears over 18.
  it.each([
    [539, false, 'on'],
    [541, false, 'between'],
    [389, true, 'on'],
    [391, true, 'between'],
    [1079, false, 'between'],
    [1081, false, 'off'],
  ] as const)('%d s from the ceiling, easing %s, is %s', (value, eases, condition) => {
    const s = new Script().say({ c: 'stage', to: 'hold' }).flow(1, 1.5);
    Object.assign(s.w.hold!, { exit: { direction: 'up', inS: { value, low: value, high: value } }, eases });
    expect(conditionOf(s.w, 'lift')).toBe(condition);
    Object.assign(s.w.hold!, { exit: { direction: 'down', inS: { value, low: value, high: value } } });
    expect(conditionOf(s.w, 'lift')).toBe('off');
  });
});
