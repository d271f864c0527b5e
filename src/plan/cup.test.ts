import { describe, expect, it } from 'vitest';
import { blankResin, type ResinDocument, resinSchema } from '../job/resin-document.ts';
import type { ChannelSetup } from '../job/setup.ts';
import { PRESSURE_CHANNEL } from '../job/testing/givens.ts';
import { MOST_MARKS, markOf, planCup, withMark, withoutMark } from './cup.ts';
import { Notes } from './notes.ts';

const CUP: readonly ChannelSetup[] = [{ ...PRESSURE_CHANNEL, index: 5, role: 'temperature', place: 'cup' }];
const row = (massG: number, mark: number, riseK = 40) => ({ massG, mark, riseK });
const resin = (...cupMarks: ResinDocument['cupMarks']): ResinDocument => ({ ...blankResin('R'), cupMarks });

function planned(
  of: ResinDocument | null,
  used: { mixC: number | null; cupMassG: number | null },
  channels = CUP,
) {
  const notes = new Notes();
  const cup = planCup(of, used, channels, notes);
  return { cup, warned: notes.warnings.map((w) => w.code) };
}

describe('the mark of a resin', () => {
  it('is the middle of what batches told; its scatter is the usual one until they say another', () => {
    expect(markOf([])).toBeNull();
    const one = markOf([row(200, 0.4)])!;
    expect(one.age).toBeCloseTo(0.4, 9);
    // 8 %, and the one batch's own 8 % against it.
    expect(one.scatter).toBeCloseTo(0.08 * Math.SQRT2, 9);
    const many = markOf(Array.from({ length: 12 }, () => row(200, 0.4)))!;
    expect(many.scatter).toBeLessThan(0.05);
    const wild = markOf([0.2, 0.4, 0.8, 0.3, 0.6].map((m) => row(200, m)))!;
    expect(wild.scatter).toBeGreaterThan(0.3);
    expect(wild.batches).toBe(5);
  });

  it('takes the least warming as the usual one', () => {
    expect(markOf([row(200, 0.4, 50), row(200, 0.4, 21)])!.riseK).toBe(21);
  });
});

describe('the cup of a job', () => {
  it('is none without a probe in it, nor without its mass', () => {
    expect(planned(resin(row(200, 0.4)), { mixC: 16, cupMassG: 200 }, []).cup).toBeNull();
    expect(planned(resin(row(200, 0.4)), { mixC: 16, cupMassG: null })).toEqual({
      cup: null,
      warned: ['cup-coarse'],
    });
  });

  it('goes by marks of cups about as full, and says where there are none', () => {
    const of = resin(row(200, 0.4), row(250, 0.42), row(800, 0.9));
    const { cup, warned } = planned(of, { mixC: 16, cupMassG: 220 });
    expect(cup!.mark!.batches).toBe(2);
    expect(warned).toEqual([]);
    expect(planned(of, { mixC: 16, cupMassG: 40 })).toEqual({
      cup: { massG: 40, mark: null },
      warned: ['cup-coarse'],
    });
  });

  it('uses no mark without the temperature at mixing: nobody could tell that the probe is in the cup', () => {
    expect(planned(resin(row(200, 0.4)), { mixC: null, cupMassG: 200 }).cup).toEqual({
      massG: 200,
      mark: null,
    });
  });
});

describe('a run’s mark in the resin’s document', () => {
  it('is kept once with the run it is of, beside what was typed, and taken back by it', () => {
    const typed = resin(row(200, 0.4));
    const kept = withMark(withMark(typed, { ...row(250, 0.3), runId: 'r-1' }), {
      ...row(250, 0.31),
      runId: 'r-1',
    });
    expect(kept.cupMarks).toEqual([row(200, 0.4), { ...row(250, 0.31), runId: 'r-1' }]);
    expect(withoutMark(kept, 'r-1')).toEqual(typed);
    expect(withoutMark(kept, 'r-2')).toEqual(kept);
  });

  it('as many as the document takes, and no more', () => {
    const many = (n: number) =>
      resinSchema.safeParse(
        resin(...Array.from({ length: n }, (_, i) => ({ ...row(200, 0.4), runId: `r-${i}` }))),
      );
    expect(many(MOST_MARKS).success).toBe(true);
    expect(many(MOST_MARKS + 1).success).toBe(false);
  });
});
