import { describe, expect, it } from 'vitest';
import { FLAG } from '../../sensing/reading.ts';
import { probeOf } from '../../sensing/testing/readings.ts';
import { createDoubt, type DoubtContext, doubtOf, doubtSettled, doubtValue } from './probe-doubt.ts';

const UP: DoubtContext = { isUp: true, ground: { c: 10, uC: 2 } };

/** A probe that was told these values, s and °C, and what is said of it after the last. */
function told(place: 'sleeve' | 'air' | 'pipe' | 'ground' | 'cup', values: [number, number][], ctx = UP) {
  const d = createDoubt();
  for (const [s, c] of values) doubtValue(d, probeOf(place, c), ctx, s * 1e6);
  return { d, says: doubtOf(d, (values.at(-1)?.[0] ?? 0) * 1e6) };
}
/** From 12 °C to that, so many seconds later. */
const step = (place: 'sleeve' | 'air' | 'pipe' | 'ground' | 'cup', afterS: number, c: number) =>
  told(place, [
    [0, 12],
    [0.25, 12],
    [0.25 + afterS, c],
  ]).says;

describe('a probe that leaps', () => {
  // 85 °C is what a common digital probe gives after its own supply came back (value from memory).
  it('is not believed: 85 °C at once on a pipe of 12 °C', () => {
    expect(step('pipe', 0.25, 85)).toBe('leapt');
    expect(step('sleeve', 0.25, 85)).toBe('leapt');
    expect(step('ground', 0.25, 19)).toBe('leapt');
  });

  it('by more than 5 K and 1 K a second: both sides of that, and of the ten seconds that a gap counts', () => {
    expect([step('pipe', 1, 17.9), step('pipe', 1, 18.1)]).toEqual([null, 'leapt']);
    expect([step('pipe', 9, 25.9), step('pipe', 9, 26.1)]).toEqual([null, 'leapt']);
    expect([step('pipe', 50, 26.9), step('pipe', 50, 27.1)]).toEqual([null, 'leapt']);
    // What was between is not known after a minute.
    expect([step('pipe', 60, 40), step('pipe', 60.1, 40)]).toEqual(['leapt', null]);
  });

  it('the air of a packer that is filled, and a cup in the hand, may', () => {
    expect([step('air', 0.25, 40), step('cup', 0.25, 40)]).toEqual([null, null]);
  });

  it('a sleeve under steam and a hand that is warmed before the work do not leap', () => {
    const steam = Array.from({ length: 400 }, (_, k): [number, number] => [k / 4, 12 + 0.8 * (k / 4)]);
    expect(told('sleeve', steam).says).toBeNull();
    const hand: [number, number][] = [
      [0, 12],
      [0.5, 34],
      [1, 12],
    ];
    expect(told('pipe', hand, { ...UP, isUp: false }).says).toBeNull();
  });

  it('stays doubted for as long as it stays there, over a gap too, and is believed again when it comes back', () => {
    const values: [number, number][] = [
      [0, 12],
      [0.25, 85],
      [600, 80],
      [900, 40],
    ];
    expect(told('pipe', values).says).toBe('leapt');
    expect(told('pipe', [...values, [901, 17.1]]).says).toBe('leapt');
    expect(told('pipe', [...values, [901, 16.9]]).says).toBeNull();
  });

  it('a plug that rattles from 40 to 12 and back shows the old warmth, which fades by 10 mK a second', () => {
    const rattle = (s: number): [number, number][] => [
      [0, 40],
      [1, 12],
      ...Array.from({ length: s }, (_, k): [number, number] => [2 + k, 12]),
      [2 + s, 40],
    ];
    expect(told('pipe', rattle(300)).says).toBeNull();
    expect(told('pipe', rattle(900)).says).toBe('leapt');
  });

  it('compared with a thermometer it is believed', () => {
    const { d } = told('pipe', [
      [0, 12],
      [0.25, 34],
    ]);
    doubtSettled(d);
    expect(doubtOf(d, 0.25e6)).toBeNull();
    doubtValue(d, probeOf('pipe', 34), UP, 0.5e6);
    expect(doubtOf(d, 0.5e6)).toBeNull();
  });
});

describe('a probe that stands still', () => {
  const still = (s: number) => {
    const d = createDoubt();
    for (let t = 0; t <= s; t++) doubtValue(d, probeOf('pipe', 25, 1, FLAG.stuck), UP, t * 1e6);
    return doubtOf(d, s * 1e6);
  };
  it('is doubted after five minutes of it, not before, and until it moves', () => {
    expect([still(299), still(300)]).toEqual([null, 'stands-still']);
    const d = createDoubt();
    doubtValue(d, probeOf('cup', 25, 1, FLAG.stuck), UP, 0);
    doubtValue(d, probeOf('cup', 25.1), UP, 400e6);
    expect(doubtOf(d, 400e6)).toBeNull();
  });
});

describe('a ground that is far warmer than the job sheet has it', () => {
  it('is doubted over 8 K and both uncertainties, and never where it is colder: that earns less', () => {
    expect([told('ground', [[0, 20.9]]).says, told('ground', [[0, 21.1]]).says]).toEqual([
      null,
      'over-ground',
    ]);
    expect(told('ground', [[0, -5]]).says).toBeNull();
    expect(told('pipe', [[0, 30]]).says).toBeNull();
    expect(told('ground', [[0, 30]], { isUp: true, ground: null }).says).toBeNull();
  });
});
