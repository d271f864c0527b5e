import { expect, it } from 'vitest';
import { readingOf } from '../sensing/testing/readings.ts';
import { createTally, tallyAfter, tallyEvent, tallyReading, tallySaidEmpty } from './tally.ts';

/** What a run knew at its end after 100 s, and whether a reading of the line after it is one of a packer with air. */
function pressedAfter(run: Partial<ReturnType<typeof createTally>>, bar: number): boolean {
  const after = tallyAfter({ ...createTally(), ...run }, 100e6);
  tallyReading(after, readingOf(1, bar));
  return after.pressedUs !== null;
}

it('after a run its packer is what it was, and what rises over that is in it', () => {
  const known = tallyAfter({ ...createTally(), pressedUs: 20e6, last: { bar: 1.2, tUs: 99e6 } }, 100e6);
  expect(known).toMatchObject({ pressedUs: -80e6, last: { bar: 1.2, tUs: -1e6 }, up: false, proof: null });
  tallySaidEmpty(known, 5e6, 0);
  expect(known).toMatchObject({ pressedUs: null, proof: { how: 'said', tUs: 5e6 } });
  expect(pressedAfter({}, 0.05)).toBe(false);
  expect(pressedAfter({}, 0.2)).toBe(true);
  // Said to be empty against a line that stands.
  expect(pressedAfter({ restBar: 0.3 }, 0.35)).toBe(false);
  expect(pressedAfter({ restBar: 0.3 }, 0.45)).toBe(true);
});

it('a hose whose supply was being proved at the end is no packer, unless it rises on', () => {
  const proving = { proving: true, last: { bar: 1.5, tUs: 99e6 } };
  expect(pressedAfter(proving, 1.5)).toBe(false);
  expect(pressedAfter(proving, 1.7)).toBe(true);
});

it('a dial gauge that shows air where the reading shows none says that the packer may be full', () => {
  const gauge = { tUs: 5e6, e: 'gauge', readingBar: 0 } as const;
  const after = (tally: ReturnType<typeof createTally>, gaugeBar: number, agrees: boolean) => {
    tallyEvent(tally, { ...gauge, gaugeBar, agrees }, null);
    return tally.pressedUs;
  };
  expect(after(createTally(), 0.5, false)).toBe(5e6);
  expect(after(createTally(), 0.06, true)).toBeNull();
  expect(after({ ...createTally(), proving: true }, 0.5, false)).toBeNull();
});

it('what a proof leaves in the hose is in no packer; what comes on top of it, or was asked about, may be', () => {
  const told = { tUs: 9e6, e: 'supply', end: 'shut', verdict: null, lockUpBar: null } as const;
  const none = { creepMbarPerMin: null, ceilingInS: null, riseS: null, bar: null } as const;
  const after = (
    ...ends: readonly [what: 'begun' | 'asked' | 'proved' | 'broken-off', reason?: 'stopped'][]
  ) => {
    const tally = createTally();
    for (const [what, reason = null] of ends) {
      tallyEvent(tally, { ...told, ...none, what, reason }, null);
      if (what === 'begun') tallyReading(tally, readingOf(1, 1.8));
    }
    tallyReading(tally, readingOf(10, 1.8));
    return tally;
  };
  for (const tally of [after(['begun'], ['proved']), after(['begun'], ['broken-off', 'stopped'])]) {
    expect(tally.pressedUs).toBeNull();
    // The packer is coupled, its air makes the level fall, and more comes in.
    tallyReading(tally, readingOf(11, 0.3));
    expect(tally.pressedUs).toBeNull();
    tallyReading(tally, readingOf(12, 0.45));
    expect(tally.pressedUs).toBe(12e6);
  }
  expect(after(['begun'], ['asked'], ['broken-off', 'stopped']).pressedUs).toBe(10e6);
  expect(after(['begun'], ['broken-off']).pressedUs).toBe(10e6);
});
