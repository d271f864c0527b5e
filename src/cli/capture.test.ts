import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { english } from '../words/testing/english.ts';
import { parseOptions } from './options.ts';
import { replay } from './run.ts';

// What the C device sent over its pty in 65 s at 20 Hz (seed 7): open line, 0.4 bar for 10 s, 30 s up to 2.10 bar
// in a straight line, 3 s down to 1.40. Times are those of its hands: 4 s, ramp of 6 s, from 26 s on the long ramp.
const capture = new Uint8Array(
  readFileSync(new URL('../../fixtures/captures/fill-past-rated.txt', import.meta.url)),
);

it('a capture of the C device: warned before rated, peak and stages as they were driven', () => {
  const r = replay(parseOptions(['--trace', 'x', '--rated', '2.0']), capture, null, english);
  expect(r.gaps).toEqual([]);
  expect(r.readings).toBe(1301);
  expect(r.peakBar).toBeCloseTo(2.1, 2);
  // The ramp climbs 1.7 bar in 30 s: rated 2.0 is passed 28.2 s after its start, the ceiling 1.985 27.97 s after.
  const urgent = r.alarms.filter((a) => a.priority === 'urgent');
  expect(urgent.map((a) => a.alarm)).toContain('ceiling');
  const rampS = 20.1;
  expect(Math.min(...urgent.map((a) => a.raisedS))).toBeLessThan(rampS + 28.2);
  expect(urgent.find((a) => a.alarm === 'ceiling')?.raisedS).toBeCloseTo(rampS + 27.97, 0);
  expect(r.stages.map((s) => s.stage)).toEqual(['prepare', 'seat', 'inflate', 'hold']);
  expect(r.stages[3]!.fromS).toBeCloseTo(r.holds[0]!.fromS, 0);
});
