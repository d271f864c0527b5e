import { describe, expect, it } from 'vitest';
import { resinOf } from '../job/testing/givens.ts';
import { holdByWatch } from './hold-time.ts';

const RESIN = resinOf({
  points: [
    { c: 5, minutes: 480 },
    { c: 10, minutes: 240 },
    { c: 20, minutes: 100 },
  ],
  lowestC: null,
});

describe('how long is held by the watch alone', () => {
  it('the row at the coldest that the ground may be, or the next colder: never less than the sheet asks for there', () => {
    expect(holdByWatch(RESIN, { c: 12, uC: 2 })).toEqual({ c: 10, minutes: 240 });
    expect(holdByWatch(RESIN, { c: 12, uC: 2.1 })).toEqual({ c: 5, minutes: 480 });
    expect(holdByWatch(RESIN, { c: 19, uC: 0 })).toEqual({ c: 10, minutes: 240 });
    expect(holdByWatch(RESIN, { c: 30, uC: 1 })).toEqual({ c: 20, minutes: 100 });
  });

  it('no row where the sheet says nothing: colder than it, no ground, cured by light', () => {
    expect(holdByWatch(RESIN, { c: 6, uC: 2 })).toBeNull();
    expect(holdByWatch({ ...RESIN, lowestC: 8 }, { c: 8, uC: 1 })).toBeNull();
    expect(holdByWatch(RESIN, null)).toBeNull();
    expect(holdByWatch(null, { c: 12, uC: 2 })).toBeNull();
    expect(holdByWatch({ ...RESIN, curedBy: 'light' }, { c: 12, uC: 2 })).toBeNull();
    expect(holdByWatch({ ...RESIN, points: [] }, { c: 12, uC: 2 })).toBeNull();
  });
});
