import { describe, expect, it } from 'vitest';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import { Script } from '../testing/script.ts';

/** Pieces of a straight course: [seconds, bar at its end]. */
function course(from: number, ...pieces: [number, number][]): (t: number) => number {
  return (t) => {
    let at = 0;
    let p = from;
    for (const [s, to] of pieces) {
      if (t <= at + s) return p + ((to - p) * (t - at)) / s;
      at += s;
      p = to;
    }
    return p;
  };
}

const vent = (from: number, tau: number) => (t: number) => from * Math.exp(-t / tau);
const stages = (s: Script) => s.of('stage').map((e) => `${e.stage} ${e.attempt}`);
const bare = { ...LIMITS, seatBar: null, floorBar: null, workingBar: 2.48, cue: false };

for (const hz of [10, 50])
  for (const limits of [LIMITS, bare, null])
    describe(`stages read off the data at ${hz} Hz, limits ${limits === null ? 'none' : limits === bare ? 'rated only' : 'all'}`, () => {
      const script = () => new Script({ infer: true, setup: setupOf({ limits, rateHz: hz }) });

      it('a fill with a seat pause, a hold, a let-down', () => {
        const s = script()
          .flow(10, 0, { hz })
          .flow(60, course(0, [8, 0.4], [20, 0.4], [28, 1.8]), { hz })
          .flow(600, (t) => 1.8 - 0.04 * (1 - Math.exp(-t / 120)), { hz })
          .flow(90, vent(1.76, 15), { hz });
        expect(stages(s)).toEqual(['seat 1', 'inflate 1', 'hold 1', 'let-down 1']);
        // Told within seconds, and with the time at which it began: 10, 38, 66 and 670 s.
        const begun = [10, 38, 66, 670];
        s.of('stage').forEach((e, i) => {
          expect(Math.abs(e.fromUs! / 1e6 - begun[i]!)).toBeLessThan(1.6);
          expect(e.tUs).toBeGreaterThanOrEqual(e.fromUs!);
          expect(e.tUs / 1e6 - begun[i]!).toBeLessThan(13);
        });
        expect(s.of('hold')[0]).toMatchObject({ minutesInBand: expect.closeTo(604 / 60, 0) });
        expect(s.of('hold')[0]!.minBar!).toBeGreaterThan(1.745);
        expect(s.of('stage').every((e) => e.by === 'data')).toBe(true);
        expect(s.heard()).toEqual([]);
      });

      it('a fill without a pause', () => {
        const s = script()
          .flow(5, 0, { hz })
          .flow(30, course(0, [30, 1.6]), { hz })
          .flow(100, 1.6, { hz });
        expect(stages(s)).toEqual(['inflate 1', 'hold 1']);
      });

      it('a hand that fills in steps is not a string of holds', () => {
        const s = script()
          .flow(2, 0, { hz })
          .flow(
            70,
            course(0, [6, 0.4], [6, 0.4], [6, 0.8], [6, 0.8], [8, 1.3], [6, 1.3], [8, 1.8], [24, 1.8]),
            { hz },
          )
          .flow(100, 1.8, { hz });
        expect(s.of('stage').filter((e) => e.stage === 'hold')).toHaveLength(1);
        expect(stages(s).at(-1)).toBe('hold 1');
      });

      it('wrong place: down, moved, up again is a second attempt', () => {
        const up = course(0, [8, 0.4], [15, 0.4], [30, 1.8]);
        const s = script()
          .flow(53, up, { hz })
          .flow(60, 1.8, { hz })
          .flow(90, vent(1.8, 12), { hz })
          .flow(60, 0, { hz })
          .flow(53, up, { hz })
          .flow(60, 1.8, { hz });
        expect(stages(s)).toEqual([
          'seat 1',
          'inflate 1',
          'hold 1',
          'let-down 1',
          'seat 2',
          'inflate 2',
          'hold 2',
        ]);
      });

      it('a slow leak is no let-down, a top-up no new fill', () => {
        const s = script()
          .flow(30, course(0, [30, 1.8]), { hz })
          .flow(1200, (t) => 1.8 - 0.0006 * t, { hz })
          .flow(6, course(1.08, [6, 1.8]), { hz })
          .flow(120, 1.8, { hz });
        expect(stages(s)).toEqual(['inflate 1', 'hold 1']);
        expect(s.of('segment').filter((e) => e.why === 'top-up')).toHaveLength(1);
      });

      it('a blown hose is an alarm first', () => {
        const s = script()
          .flow(30, course(0, [30, 1.8]), { hz })
          .flow(60, 1.8, { hz });
        const from = s.tS;
        s.flow(20, (t) => 1.8 * Math.exp(-t / 0.1), { hz });
        expect(s.at('fast-fall', 'unacknowledged') - from).toBeLessThan(1);
        expect(stages(s).at(-1)).toBe('let-down 1');
      });
    });

describe('a trace with one sample in two seconds', () => {
  it('is read as well, only later', () => {
    const s = new Script({ infer: true, setup: setupOf({ rateHz: 0.5 }) })
      .flow(20, 0, { hz: 0.5 })
      .flow(80, course(0, [80, 1.8]), { hz: 0.5 })
      .flow(600, 1.8, { hz: 0.5 })
      .flow(200, vent(1.8, 20), { hz: 0.5 });
    expect(stages(s)).toEqual(['inflate 1', 'hold 1', 'let-down 1']);
    expect(s.heard()).toEqual([]);
  });
});
