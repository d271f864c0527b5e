import { describe, expect, it } from 'vitest';
import { LIMITS, resinOf, setupOf } from '../../job/testing/givens.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';
import { AS_THE_SHEET, type Batch } from './cup-speed.ts';
import { createCure, cureTick, ofBatch } from './cure.ts';
import { cureSample } from './sample.ts';

/** A sheet of a few minutes, counted at the ground's temperature, which is known well. */
const SETUP = setupOf({
  limits: { ...LIMITS, headBar: 0 },
  ground: { c: 20, uC: 0.2 },
  resin: resinOf({
    points: [
      { c: 10, minutes: 10 },
      { c: 20, minutes: 5 },
    ],
  }),
});

function held(seconds: number): Script {
  const s = new Script({ setup: SETUP });
  s.flow(2, 0, { hz: 1 });
  for (const to of ['seat', 'inflate', 'hold'] as const) s.say({ c: 'stage', to });
  return s.flow(seconds, 1.5, { hz: 1 });
}
const feel = (s: Script, hard: boolean, atPipeTemperature = true) =>
  s.say({ c: 'witness', hard, atPipeTemperature });
const doubts = (s: Script) => s.events.flatMap((e) => (e.e === 'sample' ? [e.doubt] : []));
const met = (s: Script) => s.events.filter((e) => e.e === 'cure-met').length;
const low = (s: Script) => viewOf(s.w, s.w.tUs).cure!.low;

describe('a witness sample', () => {
  it('that is as the count has it moves nothing and is asked nothing', () => {
    const s = feel(held(420), true);
    expect([doubts(s), met(s)]).toEqual([[], 1]);
    const soft = held(200);
    const before = low(soft);
    expect([doubts(feel(soft, false)), low(soft)]).toEqual([[], before]);
  });

  it('hard long before its time is asked about, and shortens nothing', () => {
    const s = held(60);
    const before = low(s);
    expect(doubts(feel(s, true))).toEqual(['hard-early']);
    expect(low(s)).toBe(before);
  });

  it('not hard after the time was reached takes that back, until the batch has had as long again as it needs', () => {
    const s = held(420);
    expect(met(s)).toBe(1);
    feel(s, false);
    expect(low(s)).toBeLessThan(1);
    expect(viewOf(s.w, s.w.tUs).cure!.metAtS).toBeNull();
    s.flow(300, 1.5, { hz: 1 });
    expect(met(s)).toBe(2);
  });

  it('not hard long after is asked about', () => {
    expect(doubts(feel(held(700), false))).toEqual(['soft-late']);
  });

  it('that was kept elsewhere says nothing', () => {
    const s = feel(feel(held(700), false, false), true, false);
    expect([doubts(s), met(s)]).toEqual([[], 1]);
    expect(low(s)).toBeGreaterThan(1);
  });

  it('felt to be hard at last, the count is the sheet’s again', () => {
    const s = feel(held(420), false);
    feel(s.flow(30, 1.5, { hz: 1 }), true);
    expect(low(s)).toBeGreaterThan(1);
  });
});

describe('beside a witness cup', () => {
  const counted = (seconds: number, batch: Batch) => {
    const cure = createCure(0, 1, 'hold', () => {});
    const on = (to: number, by: Batch) => {
      for (let t = cure.lastUs / 1e6 + 1; t <= to; t++)
        cureTick(cure, t * 1e6, { setup: SETUP, probes: [], batch: by }, () => {});
    };
    on(seconds, batch);
    return { cure, on };
  };
  const slow = (seen: boolean): Batch => ({ log: Math.log(2), sd: 0.08, seen });

  it('hard is believed before a cup that never warmed, and not before one whose heat was seen', () => {
    for (const seen of [false, true]) {
      const { cure } = counted(420, slow(seen));
      expect(cure.low).toBeGreaterThan(1);
      expect(ofBatch(cure).low).toBeLessThan(0.7);
      cureSample(cure, true, 420e6, () => {});
      if (seen) expect(ofBatch(cure).low).toBeLessThan(0.7);
      else expect(ofBatch(cure).low).toBe(cure.low);
      cureSample(cure, false, 421e6, () => {});
      expect(ofBatch(cure).low).toBeLessThan(0.7);
    }
  });

  it('what was said to be reached is taken back when the batch proves slow', () => {
    const { cure, on } = counted(420, AS_THE_SHEET);
    expect(cure.metUs).not.toBeNull();
    on(430, slow(true));
    expect(cure.metUs).toBeNull();
    on(900, slow(true));
    expect(cure.metUs).not.toBeNull();
  });
});
