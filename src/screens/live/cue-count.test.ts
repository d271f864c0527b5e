import { describe, expect, it } from 'vitest';
import { type CueCount, type CueSeen, NO_CUE, nextCue, STEADY_S } from './cue-count.ts';

const at = (s: number, closeInS: number | null, more: Partial<CueSeen> = {}): CueSeen => ({
  tUs: s * 1e6,
  bar: 1.1,
  stale: false,
  stage: 'inflate',
  closeInS,
  rateBarPerS: 0.05,
  ...more,
});

/** The counts shown for estimates that come every tenth of a second. */
function run(estimates: readonly (number | null)[], more: Partial<CueSeen> = {}): CueCount[] {
  let cue = NO_CUE;
  return estimates.map((closeInS, i) => {
    cue = nextCue(cue, at(i / 10, closeInS, more));
    return cue;
  });
}

/** A fill of `from` seconds, its estimate off by a few tenths each time, from a fixed seed. */
function noisy(from: number): (number | null)[] {
  let seed = 7;
  const rnd = () => {
    seed = (seed * 16807) % 2147483647;
    return seed / 2147483647 - 0.5;
  };
  return Array.from({ length: from * 10 }, (_, i) => Math.max(0, from - i / 10 + 1.6 * rnd()));
}

describe('a count', () => {
  it('goes down from its first second to its last and never up, however the estimate trembles', () => {
    const shown = run(noisy(18)).map((c) => c.leftS);
    expect(shown[0]).toBeGreaterThanOrEqual(16);
    expect(shown.at(-1)).toBe(0);
    for (let i = 1; i < shown.length; i++) {
      expect(shown[i]).not.toBeNull();
      expect(shown[i]!).toBeLessThanOrEqual(shown[i - 1]!);
    }
  });

  it('has as many rungs as seconds at its begin, and at most what an eye can count', () => {
    expect(run([7.9])[0]).toMatchObject({ leftS: 7, ofS: 7 });
    expect(run([55])[0]).toMatchObject({ leftS: 55, ofS: STEADY_S });
  });

  it('jumps up once, by three seconds or more', () => {
    const shown = run([8.2, 9.9, 10.2, 11.3, 11.1, 16, 15.8]).map((c) => c.leftS);
    expect(shown).toEqual([8, 8, 8, 11, 11, 11, 11]);
    // What says 'now' does not go back to a count.
    expect(run([0.4, 9]).map((c) => c.leftS)).toEqual([0, 0]);
  });

  it('goes on by its own clock while the guard is not sure, then says so', () => {
    const gap = Array.from({ length: 25 }, () => null);
    const shown = run([8.5, ...gap]);
    expect(shown[10]?.leftS).toBe(7);
    expect(shown[19]?.leftS).toBe(7);
    expect(shown[24]).toMatchObject({ leftS: null, stopped: 'unsure' });
  });

  it('that comes back within that time does not blink', () => {
    const shown = run([8.5, null, null, 8.2, null, null, 7.9]).map((c) => c.leftS);
    expect(shown).toEqual([8, 8, 8, 8, 8, 8, 7]);
  });
});

describe('where it stops it says why, for a while', () => {
  const stopped = (more: Partial<CueSeen>) => nextCue(run([6])[0]!, at(0.1, null, more)).stopped;
  it('the rise has ended', () => expect(stopped({ rateBarPerS: 0.001 })).toBe('still'));
  it('the reading is lost', () => expect(stopped({ bar: null })).toBe('reading'));
  it('the reading is old', () => expect(stopped({ stale: true })).toBe('reading'));

  it('a valve that is shut at its last second is no news', () => {
    const end = nextCue(run([1.4])[0]!, at(0.1, null, { rateBarPerS: 0 }));
    expect(end).toEqual(NO_CUE);
  });

  it('and then no more', () => {
    const stop = nextCue(run([6])[0]!, at(0.1, null, { bar: null }));
    expect(nextCue(stop, at(5, null)).stopped).toBe('reading');
    expect(nextCue(stop, at(9, null))).toEqual(NO_CUE);
  });
});

it('belongs to a fill: a hold has none', () => {
  expect(nextCue(run([6])[0]!, at(0.1, 5, { stage: 'hold' }))).toEqual(NO_CUE);
});
