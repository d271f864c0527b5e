import { describe, expect, it } from 'vitest';
import { endOf, HARMONICS, PATTERNS, type Sound } from './patterns.ts';

const ORDER = ['urgent', 'high', 'low'] as const;
const hz = (sound: Sound) => PATTERNS[sound].pulses.map((p) => p.hz);

describe('sounds', () => {
  it('urgent is three bursts that rise, lost is the same falling, and both come again after half a second', () => {
    for (const sound of ['urgent', 'lost'] as const) {
      const { pulses, everyS } = PATTERNS[sound];
      expect(pulses).toHaveLength(9);
      for (const burst of [0, 3, 6]) {
        const [a, b, c] = hz(sound).slice(burst, burst + 3) as [number, number, number];
        if (sound === 'urgent') expect([a < b, b < c]).toEqual([true, true]);
        else expect([a > b, b > c]).toEqual([true, true]);
      }
      expect(everyS! - endOf({ pulses })).toBeCloseTo(0.5);
    }
  });

  it('high is two level notes each five seconds, low is one soft note, once', () => {
    expect(new Set(hz('high')).size).toBe(1);
    expect(PATTERNS.high.pulses).toHaveLength(2);
    expect(PATTERNS.high.everyS).toBe(5);
    expect(PATTERNS.low.pulses).toHaveLength(1);
    expect(PATTERNS.low.everyS).toBeNull();
  });

  it('the count has two soft notes, a tick and one long note; what is no alarm sounds once', () => {
    expect(PATTERNS.cue.pulses).toHaveLength(2);
    expect(endOf(PATTERNS.tick)).toBeLessThan(0.1);
    expect(endOf(PATTERNS.now)).toBeGreaterThan(0.8);
    for (const sound of ['cue', 'tick', 'now', 'reached', 'well'] as const) {
      expect(PATTERNS[sound].everyS).toBeNull();
      expect(PATTERNS[sound].gain).toBeLessThan(PATTERNS.high.gain);
    }
    expect(Math.max(...hz('reached'))).toBeLessThan(Math.min(...hz('low')));
    expect(endOf(PATTERNS.well)).toBeLessThan(0.2);
  });

  it('no two sounds share a pitch', () => {
    const all = Object.values(PATTERNS).flatMap(({ pulses }) => [...new Set(pulses.map((p) => p.hz))]);
    expect(new Set(all).size).toBe(all.length);
  });

  it('pitch lies in 150-1000 Hz, four harmonics or more in 300-4000 Hz (IEC 60601-1-8 through secondary pages)', () => {
    for (const { pulses } of Object.values(PATTERNS))
      for (const pulse of pulses) {
        expect(pulse.hz).toBeGreaterThanOrEqual(150);
        expect(pulse.hz).toBeLessThanOrEqual(1000);
        const heard = HARMONICS.map((_, i) => pulse.hz * (i + 1)).filter((f) => f >= 300 && f <= 4000);
        expect(heard.length).toBeGreaterThanOrEqual(4);
      }
  });

  it('pulses follow each other without overlap and end before the pattern begins again', () => {
    for (const { pulses, everyS } of Object.values(PATTERNS)) {
      let end = 0;
      for (const p of pulses) {
        expect(p.atS).toBeGreaterThanOrEqual(end);
        end = p.atS + p.durS;
      }
      if (everyS !== null) expect(end).toBeLessThan(everyS);
    }
  });

  it('the more urgent, the louder and the sooner again', () => {
    for (let i = 1; i < ORDER.length; i++) {
      const more = PATTERNS[ORDER[i - 1]!];
      const less = PATTERNS[ORDER[i]!];
      expect(more.gain).toBeGreaterThan(less.gain);
      expect(more.everyS!).toBeLessThan(less.everyS ?? Number.POSITIVE_INFINITY);
    }
  });
});
