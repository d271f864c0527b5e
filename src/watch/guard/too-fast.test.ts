import { describe, expect, it } from 'vitest';
import { PLATE_LIMITS } from '../../job/testing/givens.ts';
import type { TooFast } from '../view.ts';
import { type Fill, firstAt, type Played, play, stopsAt } from './testing/fills.ts';

// The way from working to ceiling is 0.285 bar and a hand takes 0.6 s to shut a valve: from 0.4 bar/s on it is late. The
// closing time is a setting (common practice, no source).
const WAY = PLATE_LIMITS.ceilingBar - PLATE_LIMITS.workingBar;

/** A straight rise: a supply so high that the flow is choked throughout. */
const straight = (barPerS: number, more: Partial<Fill> = {}): Fill => ({
  seconds: 1.25 / barPerS + 1,
  k: barPerS / 13,
  supply: () => 12 - 0.01325,
  ...more,
});
const shown = (p: Played): number | null => firstAt(p.verdicts, (v) => v.view.tooFast !== null);
const adviceAt = (p: Played, i: number): TooFast => p.verdicts[i]!.view.tooFast!;

describe('too fast', () => {
  it.each([10, 20, 50, 200])('is said well before the working pressure, at %i Hz', (hz) => {
    const p = play(straight(0.55), hz);
    const at = shown(p)!;
    expect(p.truth[at]).toBeLessThan(0.5);
    expect(p.verdicts[at]!.rising).toBeNull();
  });

  it('says by how much a hand is late, and up to which slope it is in time', () => {
    const p = play(straight(0.55), 50);
    const { lateBar, rateBarPerS, mostBarPerS } = adviceAt(p, shown(p)! + 25);
    expect(rateBarPerS).toBeCloseTo(0.55, 1);
    // 0.6 s of closing, and a little for the air in the hose: 0.6-0.8 s of slope less the way.
    expect(lateBar).toBeGreaterThan(0.55 * 0.6 - WAY);
    expect(lateBar).toBeLessThan(0.55 * 0.8 - WAY);
    expect(mostBarPerS * 0.6).toBeLessThan(WAY);
    expect(mostBarPerS * 0.8).toBeGreaterThan(WAY);
  });

  it('is not said where a hand is in time', () => {
    for (const hz of [10, 50]) expect(shown(play(straight(0.3, { sd: 0.005 }), hz))).toBeNull();
  });

  it('ends where the valve is throttled, and goes on through noise', () => {
    const throttled = straight(0.55, { hand: () => (_, t) => (t < 1.2 ? 1 : 0.3), seconds: 4, sd: 0.004 });
    const p = play(throttled, 50);
    const said = p.verdicts.map((v) => v.view.tooFast !== null);
    const from = said.indexOf(true);
    const to = said.lastIndexOf(true);
    expect(said.slice(from, to + 1)).not.toContain(false);
    expect(to / 50).toBeGreaterThan(1.2);
    expect(to / 50).toBeLessThan(2);
  });

  it('is for the way to the working pressure: at it, only shutting helps', () => {
    const p = play(straight(0.55), 50);
    const at = firstAt(p.truth, (bar) => bar >= PLATE_LIMITS.workingBar + 0.03)!;
    expect(p.verdicts.slice(at).some((v) => v.view.tooFast !== null)).toBe(false);
  });

  it('is not said of a regulator that is sure to end the fill, nor without a working pressure', () => {
    const quick: Fill = { seconds: 12, k: 0.25, supply: () => 1.15, fromBar: 0.2 };
    const p = play(quick, 50);
    const sure = firstAt(p.verdicts, (v) => v.view.settleBar !== null)!;
    expect(p.truth[sure]).toBeLessThan(1.15);
    expect(p.verdicts.slice(sure).some((v) => v.view.tooFast !== null)).toBe(false);
    const bare = { limits: { ...PLATE_LIMITS, workingBar: PLATE_LIMITS.ceilingBar, cue: false } };
    expect(shown(play(straight(0.9, { ctx: bare }), 50))).toBeNull();
    expect(shown(play(straight(0.9, { ctx: { limits: null } }), 50))).toBeNull();
    expect(shown(play(straight(0.9, { ctx: { ventOpen: true } }), 50))).toBeNull();
  });

  it('knows a hand by its stops: a slow one is warned of earlier', () => {
    const withStop = (closeS: number): Fill =>
      straight(0.36, { hand: () => stopsAt([0.45, 1.19], 3, closeS), seconds: 9 });
    const late = (p: Played) => firstAt(p.verdicts, (v) => v.view.tooFast !== null);
    expect(late(play(withStop(0.2), 50))).toBeNull();
    const slow = play(withStop(2.2), 50);
    const at = late(slow)!;
    expect(slow.truth[at]).toBeGreaterThan(0.45);
  });
});
