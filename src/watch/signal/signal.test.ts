import { describe, expect, it } from 'vitest';
import { FLAG } from '../../sensing/reading.ts';
import { readingOf } from '../../sensing/testing/readings.ts';
import { createSignal, signalFrame, signalStray, usability } from './signal.ts';

describe('whether a reading may be used', () => {
  it.each([
    ['plain', readingOf(1, 1), 'usable'],
    ['held over', readingOf(1, 1, { flags: FLAG.held }), 'held'],
    ['no value', readingOf(1, null, { flags: FLAG.fault }), 'fault'],
    ['over the span, no value', readingOf(1, null, { flags: FLAG.outOfRange }), 'range'],
    ['over the span', readingOf(1, 6.1, { flags: FLAG.outOfRange }), 'over'],
    ['noise under zero', readingOf(1, -0.01, { flags: FLAG.outOfRange }), 'usable'],
    ['far under zero', readingOf(1, -0.5, { flags: FLAG.outOfRange }), 'range'],
    ['doubtful but kept', readingOf(1, 1, { flags: FLAG.rate | FLAG.stuck }), 'usable'],
  ] as const)('%s', (_, reading, expected) => {
    expect(usability(reading)).toBe(expected);
  });
});

describe('holes', () => {
  const from = (at: number) => {
    const s = createSignal();
    for (let k = 0; k <= at * 20; k++) signalFrame(s, readingOf(k / 20, 1));
    return s;
  };

  it('a spacing of five periods and a second is a hole, with its reason', () => {
    const s = from(3);
    expect(signalFrame(s, readingOf(3.9, 1))).toBeNull();
    expect(signalFrame(s, readingOf(5, 1))).toMatchObject({
      reason: 'silence',
      fromUs: 3.9e6,
      toUs: 5e6,
      unreported: true,
    });
    expect(s.median).toBeNull();
  });

  it('frames that come late in a bunch leave none', () => {
    const s = from(3);
    for (let k = 1; k <= 60; k++) {
      const late = { ...readingOf(3 + k / 20, 1), tUs: 6e6 + k };
      expect(signalFrame(s, late)).toBeNull();
    }
  });

  it('names the port, the reset, the clock', () => {
    const port = from(3);
    port.portLost = true;
    expect(signalFrame(port, readingOf(9, 1))!.reason).toBe('port');
    const reset = from(3);
    reset.resetUs = 4e6;
    expect(signalFrame(reset, readingOf(9, 1))!.reason).toBe('reset');
    const clock = from(3);
    clock.jumpUs = 4e6;
    expect(signalFrame(clock, readingOf(9, 1))!.reason).toBe('clock');
  });

  it('knows what was reported already', () => {
    const s = from(3);
    s.gapToUs = 8.9e6;
    expect(signalFrame(s, readingOf(9, 1))!.unreported).toBe(false);
  });

  it('a device with one sample in ten seconds has none', () => {
    const s = createSignal();
    const holes = [0, 10, 20, 30, 40].map((t) => signalFrame(s, readingOf(t, 1)));
    // The very first spacing is not known yet.
    expect(holes.slice(2).every((h) => h === null)).toBe(true);
  });
});

describe('what is kept', () => {
  it('peak is of medians: a spike is no peak', () => {
    const s = createSignal();
    [1, 1, 1, 5, 1, 1].forEach((p, i) => {
      signalFrame(s, readingOf(i / 20, p));
    });
    expect(s.peakBar).toBe(1);
  });

  it('counts strays in runs', () => {
    const s = createSignal();
    signalStray(s, 100, 1e6);
    signalStray(s, 50, 5e6);
    expect(s.strayRun).toBe(150);
    signalStray(s, 50, 20e6);
    expect(s.strayRun).toBe(50);
  });
});
