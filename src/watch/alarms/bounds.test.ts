import { describe, expect, it } from 'vitest';
import { LIMITS, resinOf, setupOf } from '../../job/testing/givens.ts';
import { createHold } from '../hold/hold.ts';
import type { WatchState } from '../step.ts';
import { Script } from '../testing/script.ts';
import { conditionOf, priorityOf } from './conditions.ts';

// Both sides of the figures that docs/alarms.md names (common practice where it gives no source). The state is plain data: each is
// put where it decides.

/** A watch with quiet readings at 1.8 bar in a hold. */
function held(): WatchState {
  const { w } = new Script({ setup: setupOf({ resin: resinOf({ potLifeMin: 60 }) }) }).flow(2, 1.8);
  w.hold = createHold(0, 0);
  w.stages.stage = 'hold';
  return w;
}
const exitIn = (direction: 'up' | 'down', s: number, eases = false): WatchState => {
  const w = held();
  w.hold!.exit = { direction, inS: { value: s, low: s / 2, high: 2 * s } };
  w.hold!.eases = eases;
  return w;
};

describe('the way out of the band', () => {
  it('downwards is told under half an hour and presses under five minutes', () => {
    expect(conditionOf(exitIn('down', 1799), 'band-exit')).toBe('on');
    expect(conditionOf(exitIn('down', 1800), 'band-exit')).toBe('off');
    expect(priorityOf(exitIn('down', 299), 'band-exit')).toBe('high');
    expect(priorityOf(exitIn('down', 300), 'band-exit')).toBe('low');
    expect(conditionOf(exitIn('up', 100), 'band-exit')).toBe('off');
  });

  it('upwards within nine minutes, within six and a half where the forecast ends below; gone at twice nine', () => {
    const at = (s: number, eases?: boolean) => conditionOf(exitIn('up', s, eases), 'lift');
    expect([at(539), at(540), at(1079), at(1080)]).toEqual(['on', 'between', 'between', 'off']);
    expect([at(389, true), at(390, true)]).toEqual(['on', 'between']);
    expect(conditionOf(exitIn('down', 100), 'lift')).toBe('off');
  });
});

describe('what is let be or told by a figure', () => {
  const guarded = (limitMbar: number | null, state: 'armed' | 'unarmed' = 'armed') => {
    const w = held();
    w.device.guard = { t: 'G', tick: 0, state, channel: 0, limitCounts: 1, limitMbar, sounder: 0 };
    return conditionOf(w, 'device-unarmed');
  };
  it('a device’s limit may be two millibars over the ceiling, which it keeps in whole ones', () => {
    const mbar = LIMITS.ceilingBar * 1000;
    expect([guarded(mbar + 1), guarded(mbar + 3), guarded(null), guarded(mbar, 'unarmed')]).toEqual([
      'off',
      'on',
      'on',
      'on',
    ]);
  });

  it('a quarter of the pot life, ten minutes at most', () => {
    const left = (minutes: number, potLifeMin: number) => {
      const w = held();
      w.setup = setupOf({ resin: resinOf({ potLifeMin }) });
      w.stages.stage = 'prepare';
      w.mixedUs = w.tUs - (potLifeMin - minutes) * 60e6;
      return conditionOf(w, 'pot-life');
    };
    expect([left(10.1, 60), left(10, 60)]).toEqual(['off', 'on']);
    expect([left(5.1, 20), left(5, 20)]).toEqual(['off', 'on']);
  });

  it('strays of over 128 bytes in a run, for ten seconds', () => {
    const stray = (bytes: number, ago: number) => {
      const w = held();
      w.signal.strayRun = bytes;
      w.signal.strayUs = w.tUs - ago;
      return conditionOf(w, 'garbage');
    };
    expect([stray(128, 0), stray(129, 0), stray(129, 9.9e6), stray(129, 10e6)]).toEqual([
      'off',
      'on',
      'on',
      'off',
    ]);
  });

  it('a restart for a second and until the pressure is read again; a sleep for a second', () => {
    const reset = (agoS: number, readAgoS: number) => {
      const w = held();
      w.signal.resetUs = w.tUs - agoS * 1e6;
      w.signal.lastUsableUs = w.tUs - readAgoS * 1e6;
      return conditionOf(w, 'device-reset');
    };
    expect([reset(0.9, 0), reset(1, 0), reset(5, 6)]).toEqual(['on', 'off', 'on']);
    const slept = (agoS: number) => {
      const w = held();
      w.unseen.sleptUs = w.tUs - agoS * 1e6;
      return conditionOf(w, 'clock-jump');
    };
    expect([slept(0.9), slept(1)]).toEqual(['on', 'off']);
  });

  it('readings that come late: over 1.5 s, until they are under half of it', () => {
    const late = (lateS: number) => {
      const w = held();
      w.signal.late.lateS = lateS;
      return conditionOf(w, 'slow-readings');
    };
    expect([late(1.5), late(1.49), late(0.75), late(0.74)]).toEqual(['on', 'between', 'between', 'off']);
  });
});

describe('a packer that was given up', () => {
  /** Read for so long at this pressure, which falls by this much in the last ten seconds. */
  const left = (seconds: number, bar: number, fallsBar = 0) => {
    const s = new Script()
      .flow(3, bar)
      .say({ c: 'stage', to: 'inflate' })
      .say({ c: 'stage', to: 'abandoned' });
    s.flow(seconds - 10, bar).flow(10, (t) => bar - (fallsBar * t) / 10, { sd: 0 });
    return conditionOf(s.w, 'rebound');
  };
  it('is left full after a minute, unless it falls by 20 mbar or a tenth in ten seconds', () => {
    expect([left(59, 1), left(61, 1)]).toEqual(['between', 'on']);
    expect([left(70, 1, 0.018), left(70, 1, 0.025)]).toEqual(['on', 'between']);
    expect([left(70, 0.15, 0.012), left(70, 0.15, 0.018)]).toEqual(['on', 'between']);
  });
  it('holds air from a tenth of a bar on, and is empty under half of that', () => {
    expect([left(70, 0.11), left(70, 0.09), left(70, 0.06), left(70, 0.04)]).toEqual([
      'on',
      'between',
      'between',
      'off',
    ]);
  });

  it('presses from its seat pressure or floor on, else from a fifth of rated, without limits from 0.3 bar', () => {
    const at = (bar: number, limits: typeof LIMITS | null) => {
      const { w } = new Script({ setup: setupOf({ limits }) }).flow(3, bar, { sd: 0 });
      w.stages.stage = 'done';
      return priorityOf(w, 'rebound');
    };
    expect([at(0.39, LIMITS), at(0.41, LIMITS)]).toEqual(['high', 'urgent']);
    const floor = { ...LIMITS, seatBar: null };
    expect([at(0.69, floor), at(0.71, floor)]).toEqual(['high', 'urgent']);
    const plate = { ...floor, floorBar: null };
    expect([at(0.49, plate), at(0.51, plate)]).toEqual(['high', 'urgent']);
    expect([at(0.29, null), at(0.31, null)]).toEqual(['high', 'urgent']);
  });
});
