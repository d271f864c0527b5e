import { expect, it } from 'vitest';
import { bits32 } from '../../estimate/testing/random.ts';
import { createSeep, creepsUp, risenBy, type Seep, seepBreak, seepReading, seepRestart } from './seep.ts';

function noise(seed: number): () => number {
  const next = bits32(seed);
  // The sum of twelve uniform values is near a normal one.
  return () => Array.from({ length: 12 }, () => next() / 4294967296).reduce((a, b) => a + b, -6);
}

function flow(s: Seep, fromS: number, seconds: number, hz: number, bar: (t: number) => number): boolean {
  let crept = false;
  for (let i = 0; i < seconds * hz; i++) {
    seepReading(s, fromS + i / hz, bar(i / hz));
    crept ||= creepsUp(s);
  }
  return crept;
}

it.each([10, 20, 50])(
  'a millibar a second is told within forty seconds at %s Hz and a noise of 4 mbar',
  (hz) => {
    for (let seed = 1; seed <= 20; seed++) {
      const [s, n] = [createSeep(), noise(seed)];
      expect(flow(s, 0, 60, hz, () => 0.004 * n())).toBe(false);
      expect(
        flow(s, 60, 41, hz, (t) => 0.001 * t + 0.004 * n()),
        `seed ${seed}`,
      ).toBe(true);
    }
  },
);

it('noise alone, a step, and what the sun does are none in an hour', () => {
  for (let seed = 1; seed <= 5; seed++) {
    const n = noise(100 + seed);
    expect(flow(createSeep(), 0, 3600, 10, () => 0.006 * n())).toBe(false);
    expect(flow(createSeep(), 0, 3600, 10, (t) => (t > 100 ? 0.2 : 0) + 0.004 * n())).toBe(false);
    // A shut line at one atmosphere that warms by 2 K a minute: 1.013 bar · 2/293.
    expect(flow(createSeep(), 0, 600, 10, (t) => (0.0069 / 60) * t + 0.004 * n())).toBe(false);
  }
});

it('the level is kept over a gap, and not over a restart', () => {
  const s = createSeep();
  flow(s, 0, 60, 10, () => 0.02);
  seepBreak(s);
  expect(risenBy(s, 0.32)).toBeCloseTo(0.3, 9);
  seepRestart(s);
  expect(risenBy(s, 0.32)).toBeNull();
});
