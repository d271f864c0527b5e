import { describe, expect, it } from 'vitest';
import { HARMONICS, PATTERNS } from './patterns.ts';

const ORDER = ['urgent', 'high', 'low'] as const;

describe('alarm sounds', () => {
  it('pulse counts are told apart: 10, 3 and 1-2 (IEC 60601-1-8 through secondary pages)', () => {
    expect(PATTERNS.urgent.pulses).toHaveLength(10);
    expect(PATTERNS.high.pulses).toHaveLength(3);
    expect(PATTERNS.low.pulses.length).toBeLessThanOrEqual(2);
  });

  it('pitch lies in 150-1000 Hz, four harmonics or more in 300-4000 Hz (same source)', () => {
    for (const name of ORDER)
      for (const pulse of PATTERNS[name].pulses) {
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
      expect(more.everyS!).toBeLessThan(less.everyS!);
    }
  });
});
