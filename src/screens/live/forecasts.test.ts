import { describe, expect, it } from 'vitest';
import type { LeakFigure } from '../../watch/events.ts';
import type { HoldView } from '../../watch/view.ts';
import { bandExitShown, liftShown } from './forecasts.ts';

const leak = (part: Partial<LeakFigure>): LeakFigure => ({
  verdict: 'cannot-tell',
  mbarPerMin: null,
  low: null,
  high: null,
  paM3PerS: null,
  reason: null,
  ...part,
});
const at = (value: number) => ({ value, low: value - 0.02, high: value + 0.02 });

describe('which forecasts are shown', () => {
  it('a far exit upwards is not shown beside a lift that ends under the ceiling; a near one always is', () => {
    const hold = (inS: number, peakBar: number | null): HoldView => ({
      sinceS: 3000,
      minutesInBand: 50,
      minBar: 1.37,
      maxBar: 1.44,
      still: true,
      leak: leak({}),
      bandExit: { direction: 'up', inS: { value: inS, low: inS / 2, high: inS * 2 } },
      lift:
        peakBar === null
          ? null
          : { peakBar: at(peakBar), ceilingInS: null, adviceLowBar: null, adviceHighBar: null },
    });
    expect(bandExitShown(hold(6000, 1.47), 1.78)).toBeNull();
    expect(bandExitShown(hold(600, 1.47), 1.78)).not.toBeNull();
    expect(bandExitShown(hold(6000, 1.77), 1.78)).not.toBeNull();
    expect(bandExitShown(hold(6000, null), 1.78)).not.toBeNull();
  });

  it('a lift that ends under the ceiling is not foretold beside a falling pressure; one that may pass it is', () => {
    const hold = (direction: 'down' | 'up', adviceHighBar: number | null): HoldView => ({
      sinceS: 3000,
      minutesInBand: 50,
      minBar: 1.37,
      maxBar: 1.44,
      still: true,
      leak: leak({}),
      bandExit: { direction, inS: { value: 6000, low: 4000, high: 9000 } },
      lift: { peakBar: at(1.43), ceilingInS: null, adviceLowBar: null, adviceHighBar },
    });
    expect(liftShown(hold('down', null))).toBeNull();
    expect(liftShown(hold('up', null))).not.toBeNull();
    expect(liftShown(hold('down', 1.35))).not.toBeNull();
  });
});
