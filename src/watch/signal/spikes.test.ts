import { describe, expect, it } from 'vitest';
import { setupOf } from '../../job/testing/givens.ts';
import { Script } from '../testing/script.ts';

/** Readings at a level, with one spike of so much at the 33rd. */
const spiked = (at: number, by: number) => {
  let n = 0;
  return () => at + (++n === 33 ? by : 0);
};
const held = (hz: number) =>
  new Script({ setup: setupOf({ rateHz: hz }) })
    .flow(3, 0, { hz })
    .say({ c: 'stage', to: 'inflate' })
    .flow(20, (t) => Math.min(1.8, 0.1 * t), { hz })
    .say({ c: 'stage', to: 'hold' })
    .flow(10, 1.8, { hz });

/** A contact or a starting compressor: one reading of many that stands for nothing (sizes and rates: common practice, no source). */
describe.each([10, 20, 50])('one spike at %i Hz', (hz) => {
  it.each([0.5, 1.9, -1.5])('of %s bar in a hold is no loss', (by) => {
    const s = held(hz).flow(10, spiked(1.8, by), { hz });
    expect(s.heard()).toEqual([]);
    expect(s.of('question')).toEqual([]);
  });

  it('in the test of the vent is no air that came back, and at its start no pressure', () => {
    const s = held(hz)
      .say({ c: 'stage', to: 'let-down' })
      .flow(30, (t) => 1.8 * Math.exp(-t / 3), { hz })
      .flow(32 / hz, 0, { hz })
      .flow(1 / hz, 1, { hz })
      .flow(2 / hz, 0, { hz })
      .say({ c: 'vent', open: false })
      .flow(30, spiked(0, 1), { hz });
    expect(s.of('rebound').map((e) => e.what)).toEqual(['started', 'stayed']);
    expect(s.heard()).toEqual([]);
  });
});

it('a hose that comes off is a loss at once all the same', () => {
  const s = held(20);
  const offS = s.tS;
  s.flow(10, (t) => 1.8 * Math.exp(-t / 0.3));
  expect(s.at('fast-fall', 'unacknowledged') - offS).toBeLessThan(0.6);
});
