import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LiveBuffer } from './live-buffer.ts';

const none = new Map<number, string | null>();
const fresh = (s: number[], bar: number[]) => ({
  s: Float64Array.from(s),
  bar: Float32Array.from(bar),
  second: null,
  temps: [],
});

describe('live buffer', () => {
  it('keeps lowest and highest of each tenth of a second', () => {
    const buffer = new LiveBuffer();
    buffer.append(fresh([0, 0.02, 0.04, 0.11], [1, 3, 2, 5]));
    const w = buffer.window(0, 1, 100, none);
    expect([...w.s]).toEqual([0, 0.1]);
    expect([...w.series[0]!.min]).toEqual([1, 5]);
    expect([...w.series[0]!.max]).toEqual([3, 5]);
  });

  it('leaves a gap empty instead of bridging it', () => {
    const buffer = new LiveBuffer();
    buffer.append(fresh([0, 0.5], [1, 2]));
    const w = buffer.window(0, 1, 100, none);
    expect([...w.series[0]!.min].map(Number.isNaN)).toEqual([false, true, true, true, true, false]);
  });

  it('a reading without a value marks nothing', () => {
    const buffer = new LiveBuffer();
    buffer.append(fresh([0, 0.1], [Number.NaN, 2]));
    expect(Number.isNaN(buffer.window(0, 1, 10, none).series[0]!.max[0]!)).toBe(true);
  });

  it('never loses a peak when it merges buckets, whatever the window', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 8, noNaN: true }), { minLength: 1, maxLength: 400 }),
        fc.integer({ min: 1, max: 60 }),
        (bars, points) => {
          const buffer = new LiveBuffer();
          buffer.append(
            fresh(
              bars.map((_, i) => i * 0.05),
              bars,
            ),
          );
          const w = buffer.window(0, bars.length * 0.05, points, none);
          expect(w.s.length).toBeLessThanOrEqual(points + 1);
          expect(Math.max(...[...w.series[0]!.max])).toBe(Math.max(...bars.map(Math.fround)));
          expect(Math.min(...[...w.series[0]!.min])).toBe(Math.min(...bars.map(Math.fround)));
        },
      ),
    );
  });

  it('grows past its first capacity and keeps what it had', () => {
    const buffer = new LiveBuffer();
    buffer.append({
      s: Float64Array.of(1),
      bar: Float32Array.of(4),
      second: null,
      temps: [{ channel: 2, c: Float32Array.of(9) }],
    });
    buffer.append({
      s: Float64Array.of(5000),
      bar: Float32Array.of(1),
      second: null,
      temps: [{ channel: 2, c: Float32Array.of(8) }],
    });
    const w = buffer.window(0, 2, 100, new Map([[2, 'pipe']]));
    expect(w.series[1]!.place).toBe('pipe');
    expect(w.series[1]!.max[w.s.length > 10 ? 10 : 0]).toBe(9);
    expect(buffer.lastS).toBeCloseTo(5000.1);
  });

  it('keeps a second pressure beside the first, live and of a record, and none where none was read', () => {
    const buffer = new LiveBuffer();
    buffer.append(fresh([0], [1]));
    expect(buffer.window(0, 1, 10, none).series.map((s) => s.name)).toEqual(['bar']);
    buffer.append({ ...fresh([0.1, 5000], [1, 1]), second: Float32Array.of(2, 3) });
    const w = buffer.window(0, 1, 100, none);
    expect(w.series.map((s) => s.name)).toEqual(['bar', 'second']);
    expect([...w.series[1]!.max].slice(0, 2)).toEqual([Number.NaN, 2]);
    const resumed = new LiveBuffer();
    resumed.load(w);
    expect(resumed.window(0, 1, 100, none).series[1]).toEqual(w.series[1]);
    // It stands at no rung of the first's own stretch: what the supply holds moves no scale.
    expect(buffer.barSpan(0, 6000)).toEqual({ low: 1, high: 1 });
  });

  it('tells the ends of a stretch as its readings do, over whole chunks and parts of them', () => {
    const buffer = new LiveBuffer();
    const bars = Array.from({ length: 3000 }, (_, i) => Math.sin(i / 300) + (i === 1200 ? 5 : 0));
    buffer.append(
      fresh(
        bars.map((_, i) => i * 0.1),
        bars,
      ),
    );
    for (const [from, to] of [
      [0, 300],
      [51.2, 102.3],
      [119, 121],
      [200, 230],
    ] as const) {
      const inside = bars.filter((_, i) => i >= from * 10 - 1e-9 && i <= to * 10 + 1e-9).map(Math.fround);
      expect(buffer.barSpan(from, to)).toEqual({ low: Math.min(...inside), high: Math.max(...inside) });
    }
    expect(buffer.barSpan(400, 500)).toBeNull();
    expect(buffer.temperatureSpan(0, 300)).toBeNull();
  });

  it('a piece of a window is the same whichever window it is asked for in', () => {
    const buffer = new LiveBuffer();
    const bars = Array.from({ length: 900 }, (_, i) => Math.cos(i / 17));
    buffer.append(
      fresh(
        bars.map((_, i) => i * 0.1),
        bars,
      ),
    );
    const whole = buffer.strided(0, 90, 7, none);
    const piece = buffer.strided(40, 90, 7, none);
    const from = whole.s.indexOf(piece.s[0]!);
    expect([...piece.s]).toEqual([...whole.s.slice(from)]);
    expect([...piece.series[0]!.max]).toEqual([...whole.series[0]!.max.slice(from)]);
  });
});
