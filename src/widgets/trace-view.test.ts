import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clampView, keyView, LEAST_SPAN_S, pan, zoom } from './trace-view.ts';

const whole = { fromS: 0, toS: 1000 };

describe('view of a trace', () => {
  it('keeps the place under the pointer while zooming', () => {
    const view = zoom({ fromS: 100, toS: 300 }, 0.5, 0.25, whole);
    expect(view.toS - view.fromS).toBeCloseTo(100);
    expect(view.fromS + 0.25 * 100).toBeCloseTo(150);
  });

  it('stops at the ends of the trace without changing its width', () => {
    expect(pan({ fromS: 900, toS: 1000 }, 0.5, whole)).toEqual({ fromS: 900, toS: 1000 });
    expect(pan({ fromS: 10, toS: 110 }, -0.5, whole)).toEqual({ fromS: 0, toS: 100 });
  });

  it('shows the whole trace at most, and never less than the least span', () => {
    expect(zoom({ fromS: 0, toS: 900 }, 50, 0.3, whole)).toEqual(whole);
    const near = zoom({ fromS: 5, toS: 5.2 }, 1e-6, 0.5, whole);
    expect(near.toS - near.fromS).toBeCloseTo(LEAST_SPAN_S);
  });

  it('obeys keys, and leaves other keys to the browser', () => {
    expect(keyView('End', { fromS: 0, toS: 100 }, whole)).toEqual({ fromS: 900, toS: 1000 });
    expect(keyView('0', { fromS: 0, toS: 100 }, whole)).toEqual(whole);
    expect(keyView('Tab', { fromS: 0, toS: 100 }, whole)).toBeNull();
  });

  it('any chain of moves stays inside the trace', () => {
    const key = fc.constantFrom('ArrowLeft', 'ArrowRight', '+', '-', 'Home', 'End', 'PageUp', 'PageDown');
    fc.assert(
      fc.property(fc.array(key, { maxLength: 40 }), (keys) => {
        let view = whole;
        for (const k of keys) view = keyView(k, view, whole) ?? view;
        expect(view.fromS).toBeGreaterThanOrEqual(0);
        expect(view.toS).toBeLessThanOrEqual(1000 + 1e-9);
        expect(view.toS - view.fromS).toBeGreaterThanOrEqual(LEAST_SPAN_S - 1e-9);
      }),
    );
  });

  it('holds a trace shorter than the least span', () => {
    const tiny = clampView({ fromS: 0, toS: 5 }, { fromS: 0, toS: 0.01 });
    expect(tiny.fromS).toBe(0);
    expect(tiny.toS).toBeCloseTo(LEAST_SPAN_S);
  });
});
