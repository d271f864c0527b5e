import { describe, expect, it } from 'vitest';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import { Script } from '../testing/script.ts';

const press = (s: Script) =>
  s.give({
    i: 'device',
    tUs: Math.round(s.tS * 1e6),
    frame: { t: 'E', number: 1, tick: 1, code: 'button', channel: null, value: null },
  });

/** A packer over its rated pressure, which asks again with each tenth. */
const over = () => {
  const s = new Script({ setup: setupOf({ limits: { ...LIMITS, cue: false } }) }).flow(3, 1);
  return s;
};

describe('the device’s button', () => {
  it('acknowledges what was heard for half a second, and nothing that began just now', () => {
    const now = over().flow(0.4, 2.6);
    expect(now.states('over-rated')).toEqual(['unacknowledged']);
    press(now);
    expect(now.states('over-rated')).toEqual(['unacknowledged']);
    press(now.flow(0.6, 2.6));
    expect(now.states('over-rated')).toEqual(['unacknowledged', 'acknowledged']);
  });

  it('that presses by itself silences no alarm that comes: ten times a second, once, and every three', () => {
    for (const everyS of [0.1, 1, 3]) {
      const s = over();
      const still = (seconds: number, bar: number) => {
        for (let k = 0; k < seconds / everyS; k++) press(s.flow(everyS, bar));
      };
      still(60, 1);
      still(30, 2.6);
      expect(s.states('over-rated'), `every ${everyS} s`).toEqual(['unacknowledged']);
    }
  });

  it('is believed again a minute after that, and by a hand that presses ten times', () => {
    const s = over();
    for (let k = 0; k < 40; k++) press(s.flow(1, 1));
    press(s.flow(61, 1).flow(2, 2.6));
    expect(s.states('over-rated')).toEqual(['unacknowledged', 'acknowledged']);
    const hand = over();
    for (let k = 0; k < 9; k++) press(hand.flow(2, 1));
    press(hand.flow(2, 2.6));
    expect(hand.states('over-rated')).toEqual(['unacknowledged', 'acknowledged']);
  });
});
