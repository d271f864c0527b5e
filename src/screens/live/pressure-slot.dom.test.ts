import { describe, expect, it } from 'vitest';
import { LIMITS } from '../../job/testing/givens.ts';
import { METRIC } from '../../words/format.ts';
import { PRESSURE_SLOT } from '../../words/orders.ts';
import { pressureSlot } from './pressure-slot.ts';
import { guard, sceneOf } from './testing/scene.ts';

const of = (...given: Parameters<typeof sceneOf>) => pressureSlot(sceneOf(...given), METRIC);

describe('the pressure', () => {
  it('is a number with its name and its uncertainty', () => {
    const slot = of({ stage: 'hold', bar: 1.466 });
    expect(slot).toMatchObject({ face: 'calm', digits: '1.47', tag: null, note: '' });
    expect(slot.label).toContain(PRESSURE_SLOT.line);
    expect(slot.label).toContain('0.02');
  });

  it('says how it moves while a hand is at a valve, and not at rest', () => {
    const moving = { bar: 1.1, guard: guard({ rateBarPerS: 0.047 }) };
    expect(of({ stage: 'inflate', ...moving }).note).toContain('47');
    expect(of({ stage: 'hold', ...moving }).note).toBe('');
    expect(of({ stage: 'let-down', bar: 1, guard: guard({ rateBarPerS: -0.02 }) }).note).toContain('falling');
  });

  it('turns on the reading itself, whatever the alarms say', () => {
    expect(of({ stage: 'inflate', bar: LIMITS.ceilingBar }).face).toBe('ceiling');
    const over = of({ stage: 'inflate', bar: LIMITS.ratedBar + 1.2 });
    expect(over.face).toBe('over-rated');
    expect(over.tag).toBe(`${PRESSURE_SLOT['over-rated']} +1.20`);
  });

  it('over the sensor’s end it is no number', () => {
    const slot = of({ bar: 4, overBar: 4 }, { trust: 'over' });
    expect(slot).toMatchObject({ face: 'over-range', digits: '>4.00', tag: PRESSURE_SLOT['over-range'] });
  });

  it('a lost reading shows no digit, an old one says so', () => {
    for (const trust of ['lost', 'none'] as const)
      expect(of({ bar: 1.46 }, { trust }).digits).not.toMatch(/\d/);
    const old = of({ bar: 1.46, stale: true, ageS: 3 }, { trust: 'stale' });
    expect(old.face).toBe('stale');
    expect(old.note).toContain('3');
    // Past the ceiling an old reading is past it all the same.
    expect(of({ bar: LIMITS.ceilingBar, stale: true }, { trust: 'stale' }).face).toBe('ceiling');
  });

  it('zero after the work looks unlike zero before it', () => {
    expect(of({ stage: 'prepare', bar: 0 })).toMatchObject({ face: 'calm', tag: null });
    const done = of({ stage: 'done', bar: 0 });
    expect(done.face).toBe('empty');
    expect(done.tag).not.toBeNull();
    expect(of({ stage: 'done', bar: 0.4 }).face).toBe('calm');
  });

  it('without a limit nothing turns', () => {
    expect(of({ stage: 'inflate', bar: 9, limits: null }).face).toBe('calm');
  });
});
