import { expect, it } from 'vitest';
import { setupOf } from '../../job/testing/givens.ts';
import type { ProbeNow } from './coldest.ts';
import { coldestNow, createColdest } from './coldest-now.ts';

const PROBE: ProbeNow = { place: 'sleeve', c: 14, uC: 0.5, checked: true };
const SETUP = setupOf({ ground: { c: 10, uC: 1 } });

it('the models behind the probes begin at once and go on every ten seconds, however often it is asked', () => {
  const s = createColdest(0);
  const seen = new Set<unknown>();
  for (let t = 1; t <= 35; t++) {
    coldestNow(s, t * 1e6, false, [PROBE], SETUP);
    seen.add(s.watched);
    expect(s.watched).toHaveLength(1);
  }
  expect(seen.size).toBe(4);
});

it('after a gap they begin anew', () => {
  const s = createColdest(0);
  for (let t = 1; t <= 25; t++) coldestNow(s, t * 1e6, false, [PROBE], SETUP);
  const before = s.watched[0]!.likely;
  coldestNow(s, 90e6, true, [PROBE], SETUP);
  expect(s.watched[0]!.likely).not.toBe(before);
  expect(s.least.sinceUs).toBe(90e6);
});
