import { describe, expect, it } from 'vitest';
import type { GuardFrame } from '../link/frames.ts';
import type { LimitAnswer } from '../link/limit.ts';
import { settle } from '../link/testing/timers.ts';
import { createDeviceLimit, type LimitSession } from './device-limit.ts';
import { createCurrentBench, GREETING } from './testing/current.ts';

const GUARD: GuardFrame = {
  t: 'G',
  tick: 0,
  state: 'armed',
  channel: 0,
  limitCounts: 1,
  limitMbar: 2480,
  sounder: 0,
};

function bench() {
  const b = createCurrentBench();
  b.greet();
  const asked: { counts: number; mbar: number; answer(): void }[] = [];
  const session: LimitSession = {
    greeting: GREETING,
    limit: (_channel, counts, mbar) =>
      new Promise<LimitAnswer>((resolve) => {
        asked.push({ counts, mbar, answer: () => resolve({ kept: true, counts, mbar }) });
      }),
  };
  let connected = true;
  const limit = createDeviceLimit(b.timers, b.current, () => (connected ? session : null));
  const setup = (ceilingBar: number | null, number = 1) => {
    const given = b.setup({ number });
    const limits = ceilingBar === null || given.limits === null ? null : { ...given.limits, ceilingBar };
    b.current.entry({ l: 'setup', tUs: b.current.nowUs(), setup: { ...given, limits } });
  };
  return {
    ...b,
    limit,
    asked,
    setup,
    unplug: () => {
      connected = false;
    },
  };
}

describe('the limit in the device', () => {
  it('is the ceiling in whole millibars, rounded down, in the counts that read it', async () => {
    const b = bench();
    b.setup(2.4807);
    b.limit.renew();
    expect(b.asked).toMatchObject([{ mbar: 2480 }]);
    // 4-20 mA over 0-4 bar on 25 000 counts of 25 mA: 4000 counts a bar from 4000 on.
    expect(Math.abs(b.asked[0]!.counts - (4000 + 4000 * 2.48))).toBeLessThanOrEqual(1);
  });

  it('is left alone without limits and without a device', () => {
    const b = bench();
    b.limit.renew();
    b.setup(null);
    b.limit.renew();
    b.limit.check({ ...GUARD, state: 'unarmed', limitMbar: null });
    b.setup(2, 2);
    b.unplug();
    b.limit.renew();
    expect(b.asked).toEqual([]);
  });

  it('that was made another while one is being set is set after it, and only once', async () => {
    const b = bench();
    b.setup(2.4);
    b.limit.renew();
    b.setup(2.2, 2);
    b.limit.renew();
    b.setup(2, 3);
    b.limit.renew();
    expect(b.asked.map((a) => a.mbar)).toEqual([2400]);
    b.asked[0]!.answer();
    await settle();
    expect(b.asked.map((a) => a.mbar)).toEqual([2400, 2000]);
    b.asked[1]!.answer();
    await settle();
    expect(b.asked).toHaveLength(2);
  });

  it('is asked for again where the device tells of a higher one or of none, at most every 5 s', async () => {
    const b = bench();
    b.setup(2);
    b.limit.check({ ...GUARD, limitMbar: 2000 });
    expect(b.asked).toEqual([]);
    b.limit.check({ ...GUARD, limitMbar: 2001 });
    expect(b.asked).toHaveLength(1);
    b.asked[0]!.answer();
    await settle();
    await b.timers.run(4900);
    b.limit.check({ ...GUARD, limitMbar: 2001 });
    expect(b.asked).toHaveLength(1);
    await b.timers.run(100);
    b.limit.check({ ...GUARD, state: 'unarmed', limitMbar: null });
    expect(b.asked).toHaveLength(2);
  });
});
