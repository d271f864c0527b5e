import { describe, expect, it } from 'vitest';
import { setupOf } from '../../job/testing/givens.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';
import { createStand, STANDS_S, standFollow, standRestart, stands } from './stand.ts';

describe('a level that stands', () => {
  it('has not moved by 20 mbar for a minute, up or down', () => {
    const s = createStand();
    expect(stands(s, 1e12)).toBe(false);
    standFollow(s, 0.3, 1e6);
    standFollow(s, 0.319, 30e6);
    expect(stands(s, 1e6 + STANDS_S * 1e6 - 1)).toBe(false);
    expect(stands(s, 1e6 + STANDS_S * 1e6)).toBe(true);
    standFollow(s, 0.27, 80e6);
    expect(stands(s, 90e6)).toBe(false);
    expect(stands(s, 140e6)).toBe(true);
    standRestart(s);
    expect(stands(s, 200e6)).toBe(false);
  });
});

describe('a reading that stands in a fill', () => {
  const seen = (s: Script) => viewOf(s.w, Math.round(s.tS * 1e6)).fillStands;
  const noisy = { sd: 0.006 };
  const start = (stage: 'seat' | 'inflate' | 'prepare' | 'hold', bar: number) =>
    new Script({ setup: setupOf({ tap: 'hose' }) })
      .say({ c: 'stage', to: stage })
      .flow(5, (t) => (bar * t) / 5, noisy);

  it.each(['seat', 'inflate'] as const)('is told after a minute in %s, at zero or above it', (stage) => {
    for (const bar of [0, 0.3]) {
      const s = start(stage, bar).flow(50, bar, noisy);
      expect(seen(s)).toBe(false);
      expect(seen(s.flow(12, bar, noisy))).toBe(true);
      // Air comes in: it is over. Nothing is seen any more: nothing is said of it.
      expect(seen(s.flow(3, (t) => bar + 0.05 * t, noisy))).toBe(false);
      expect(seen(s.flow(62, bar + 0.15, noisy).silence(2))).toBe(false);
    }
  });

  it('is none in other stages, while it moves, and for a minute after somebody has looked or nothing was read', () => {
    for (const stage of ['prepare', 'hold'] as const) expect(seen(start(stage, 0).flow(70, 0))).toBe(false);
    expect(seen(start('inflate', 0).flow(120, (t) => 0.001 * t, noisy))).toBe(false);
    const looked = start('inflate', 0.3).flow(62, 0.3).say({ c: 'gauge', bar: 0.3 });
    expect(seen(looked.flow(50, 0.3))).toBe(false);
    expect(seen(looked.flow(12, 0.3))).toBe(true);
    expect(seen(looked.silence(3).flow(50, 0.3))).toBe(false);
    expect(seen(start('seat', 0.3).flow(62, 0.3).say({ c: 'stage', to: 'inflate' }).flow(50, 0.3))).toBe(
      false,
    );
  });
});
