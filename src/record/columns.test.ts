import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SampleFrame } from '../link/frames.ts';
import { GrowingColumns, makeColumnList, readColumns, sampleAt, sampleBytes } from './columns.ts';

const sample = (channels: number): fc.Arbitrary<SampleFrame> =>
  fc.record({
    t: fc.constant('S' as const),
    seq: fc.integer({ min: 0, max: 0xffff_ffff }),
    tick: fc.integer({ min: 0, max: 0xffff_ffff }),
    counts: fc.array(fc.option(fc.integer({ min: -0x8000_0000, max: 0x7fff_ffff })), {
      minLength: channels,
      maxLength: channels,
    }),
    status: fc.integer({ min: 0, max: 0xffff }),
  });

/** What one page's worth of columns gives back, read from where the bytes lie `shift` after a multiple of 8. */
function through(frames: readonly SampleFrame[], shift: number): SampleFrame[] {
  const columns = new GrowingColumns();
  frames.forEach((frame, i) => {
    expect(columns.push(i, frame)).toBe(true);
  });
  const channels = frames[0]!.counts.length;
  const bytes = sampleBytes(channels) * frames.length;
  const page = new Uint8Array(shift + bytes);
  expect(columns.write(page, shift)).toBe(shift + bytes);
  const back = readColumns(page.subarray(shift), channels, frames.length);
  expect([...back.dt]).toEqual(frames.map((_, i) => i));
  return frames.map((_, i) => sampleAt(back, i));
}

describe('columns of a page', () => {
  it('are the ones that docs/record.md lists: kind, channel, type, zero', () => {
    expect([...makeColumnList(2)]).toEqual(
      [
        [1, 0, 3, 0], // dt, u32
        [2, 0, 3, 0], // seq, u32
        [3, 0, 3, 0], // tick, u32
        [4, 0, 4, 0], // counts, i32
        [4, 1, 4, 0],
        [5, 0, 2, 0], // status, u16
        [6, 0, 1, 0], // nulls, u8
      ].flat(),
    );
    // Three u32, one u16, one u8, and an i32 a channel.
    for (const channels of [0, 1, 7]) expect(sampleBytes(channels)).toBe(3 * 4 + 2 + 1 + 4 * channels);
  });

  it('give back the samples that they took, wherever they lie', () => {
    const run = fc.integer({ min: 1, max: 7 }).chain((n) => fc.array(sample(n), { minLength: 1 }));
    fc.assert(
      fc.property(run, fc.integer({ min: 0, max: 7 }), (frames, shift) => {
        expect(through(frames, shift)).toEqual(frames);
      }),
      { numRuns: 100 },
    );
  });

  it('grow, and are used again', () => {
    const frames = Array.from(
      { length: 200 },
      (_, i): SampleFrame => ({ t: 'S', seq: i, tick: 200 * i, counts: [i, null], status: 0 }),
    );
    expect(through(frames, 0)).toEqual(frames);
    const columns = new GrowingColumns();
    for (const frame of frames) columns.push(0, frame);
    columns.reset();
    expect(columns.push(0, { ...frames[0]!, counts: [1] })).toBe(true);
    expect([columns.n, columns.channels]).toEqual([1, 1]);
  });

  it('leave a sample of another number of channels, and one too late for 32 bits, to the texts', () => {
    const columns = new GrowingColumns();
    const frame: SampleFrame = { t: 'S', seq: 0, tick: 0, counts: [0], status: 0 };
    expect(columns.push(0x1_0000_0000, frame)).toBe(false);
    expect(columns.push(0xffff_ffff, frame)).toBe(true);
    expect(columns.push(0, { ...frame, counts: [0, 0] })).toBe(false);
    expect(columns.n).toBe(1);
  });
});
