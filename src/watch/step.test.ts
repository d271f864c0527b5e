import { describe, expect, it } from 'vitest';
import { LIMITS, PRESSURE_CHANNEL, setupOf } from '../job/testing/givens.ts';
import { STATUS } from '../link/frames.ts';
import { FLAG } from '../sensing/reading.ts';
import { readingOf } from '../sensing/testing/readings.ts';
import { viewOf } from './step.ts';
import { Script } from './testing/script.ts';

const fill = (t: number) => Math.min(1.8, Math.max(0, t * 0.05));

it('the marks of two packers on one line, of one to be inspected and of a resin that light cures stand as long as the Setup says so', () => {
  const s = new Script();
  const marks = () => viewOf(s.w, s.tS * 1e6).standing;
  expect(marks()).not.toContain('only-one-seen');
  const resin = {
    name: 'L',
    curedBy: 'light' as const,
    criterion: 'unstated' as const,
    points: [],
    lowestC: null,
    potLifeMin: null,
    exotherm: 'unknown' as const,
    expectedRiseK: null,
  };
  s.setup(setupOf({ number: 2, sharedLine: true, inspectFirst: true, resin }));
  expect(marks()).toEqual(
    expect.arrayContaining(['packer-not-inspected', 'only-one-seen', 'cure-not-judged']),
  );
  s.setup(setupOf({ number: 3 }));
  for (const mark of ['packer-not-inspected', 'only-one-seen', 'cure-not-judged'] as const)
    expect(marks()).not.toContain(mark);
});

it('the marks of a sensor that was not zeroed or has no calibration stand by its readings', () => {
  const s = new Script();
  const marks = () =>
    viewOf(s.w, s.tS * 1e6).standing.filter((m) => m === 'not-zeroed' || m === 'uncalibrated');
  expect(s.flow(1, 0) && marks()).toEqual([]);
  s.flow(1, 0, { more: { flags: FLAG.uncalibrated } });
  expect(marks()).toEqual(['uncalibrated']);
  s.flow(1, 0, { more: { flags: FLAG.notZeroed } });
  expect(marks()).toEqual(['not-zeroed']);
});

describe('limits within a run', () => {
  it('the ceiling only falls; a limit is never taken away; numbers ascend', () => {
    const s = new Script();
    const raised = setupOf({ number: 2, limits: { ...LIMITS, ceilingBar: 2.49 } });
    s.setup(raised)
      .setup(setupOf({ number: 3, limits: null }))
      .setup(setupOf({ number: 1 }));
    expect(s.of('setup-refused').map((e) => [e.setup, e.reason])).toEqual([
      [2, 'ceiling-raised'],
      [3, 'ceiling-raised'],
      [1, 'not-newer'],
    ]);
    expect(viewOf(s.w, 0).limits).toEqual(LIMITS);
    s.setup(setupOf({ number: 4, limits: { ...LIMITS, ceilingBar: 2.2 } }));
    expect(s.of('limits').at(-1)).toMatchObject({ setup: 4, ceilingBar: 2.2 });
    s.setup(setupOf({ number: 5 }));
    expect(s.of('setup-refused').at(-1)).toMatchObject({ setup: 5 });
  });

  it('without a limit it says so all the time, and a limit may be set at any time', () => {
    const s = new Script({ setup: null }).flow(3, 1.2);
    expect(viewOf(s.w, s.tS * 1e6).standing).toContain('no-limit');
    s.setup(setupOf({ limits: { ...LIMITS, ceilingBar: 1 } })).flow(1, 1.2);
    expect(viewOf(s.w, s.tS * 1e6).standing).not.toContain('no-limit');
    expect(s.heard()).toEqual(['ceiling']);
    expect(viewOf(s.w, s.tS * 1e6).alarms).toMatchObject([{ alarm: 'ceiling', shelvable: false }]);
  });
});

describe('ceiling', () => {
  it('speaks at the second reading over it (median of three), in any stage, and clears under the deadband', () => {
    for (const stage of ['prepare', 'hold', 'done'] as const) {
      const s = new Script().flow(2, 2.4, { sd: 0 });
      if (stage !== 'prepare') s.say({ c: 'stage', to: stage });
      const from = s.tS;
      s.flow(1, 2.481, { sd: 0 });
      expect(s.at('ceiling', 'unacknowledged') - from).toBeCloseTo(0.1, 6);
      s.flow(5, 2.47, { sd: 0 });
      expect(s.states('ceiling')).toEqual(['unacknowledged']);
      s.flow(5, 2.4, { sd: 0 });
      expect(s.states('ceiling')).toEqual(['unacknowledged', 'returned']);
    }
  });

  it('one spike raises nothing', () => {
    const s = new Script().flow(2, 1.8).flow(0.05, 6).flow(2, 1.8);
    expect(s.heard()).toEqual([]);
    expect(viewOf(s.w, s.tS * 1e6).peakBar!).toBeLessThan(1.81);
  });

  it('is not cleared by a hole in the readings of a slow device', () => {
    const slow = { hz: 0.2 };
    const s = new Script({ setup: setupOf({ rateHz: 0.2 }) })
      .flow(40, 2.49, slow)
      .silence(60)
      .flow(5, 2.49, slow)
      .silence(4);
    expect(s.of('gap')).toHaveLength(1);
    expect(s.states('ceiling')).toEqual(['unacknowledged']);
  });
});

describe('the device', () => {
  it('its button acknowledges, its trip is an alarm', () => {
    const s = new Script().flow(2, 1);
    const frame = (code: 'trip' | 'button' | 'return') => ({
      i: 'device' as const,
      tUs: s.tS * 1e6,
      frame: { t: 'E' as const, number: 1, tick: 1, code, channel: null, value: null },
    });
    s.give(frame('trip'));
    expect(s.states('device-trip')).toEqual(['unacknowledged']);
    s.flow(1, 1).give(frame('button'));
    expect(s.states('device-trip')).toEqual(['unacknowledged', 'acknowledged']);
    s.give(frame('return')).flow(2, 1);
    expect(s.states('device-trip').at(-1)).toBe('normal');
    expect(s.of('device').map((e) => e.what)).toEqual(['trip', 'button', 'return']);
  });

  it('a reset is told until readings come again', () => {
    const s = held().silence(0.1).notice({ n: 'device', what: 'reset', bootId: 2, deviceId: 'a' }).silence(4);
    // The lost reading takes over from it; neither ends before there is a reading.
    expect(s.states('device-reset')).toEqual(['unacknowledged', 'suppressed']);
    s.flow(1, 1.8);
    expect(s.states('device-reset').at(-1)).toBe('normal');
  });

  it('an unarmed or higher limit of the device is told while the packer is up', () => {
    const guard = (state: 'armed' | 'unarmed', limitMbar: number | null) => ({
      i: 'device' as const,
      tUs: 0,
      frame: { t: 'G' as const, tick: 1, state, channel: 0, limitCounts: 1, limitMbar, sounder: 0 as const },
    });
    const s = new Script().give(guard('unarmed', null)).flow(10, 0);
    expect(s.heard()).toEqual([]);
    s.say({ c: 'stage', to: 'inflate' }).flow(1, 0.2);
    expect(s.heard()).toEqual(['device-unarmed']);
    s.give(guard('armed', 2480)).flow(1, 0.2);
    expect(s.states('device-unarmed').at(-1)).toBe('returned');
    s.give(guard('armed', 2600)).flow(4, 0.2);
    expect(s.states('device-unarmed').at(-1)).toBe('unacknowledged');
  });

  it('a device without a limit is a standing mark only where there is a limit that it could be told', () => {
    const marks = (limits: typeof LIMITS | null) => {
      const s = new Script({ setup: setupOf({ limits }) }).flow(1, 0);
      return viewOf(s.w, s.tS * 1e6).standing;
    };
    expect(marks(LIMITS)).toContain('device-unarmed');
    expect(marks(null)).toContain('no-limit');
    expect(marks(null)).not.toContain('device-unarmed');
  });
});

/** Let up to 1.8 bar and held. */
const held = (more: Parameters<typeof setupOf>[0] = {}) =>
  new Script({ setup: setupOf(more) })
    .flow(2, 0)
    .say({ c: 'stage', to: 'inflate' })
    .flow(40, fill)
    .say({ c: 'stage', to: 'hold' })
    .flow(30, 1.8);

describe('a poor line', () => {
  const badLine = (s: Script) =>
    s.notice({ n: 'gap', reason: 'garbage', fromUs: s.tS * 1e6 - 1e5, toUs: s.tS * 1e6, lost: 1 });

  it('one bad line ends no segment; a second of garbage does', () => {
    const s = badLine(held()).flow(1, 1.8);
    expect(s.of('segment').map((e) => e.what)).toEqual(['opened']);
    s.notice({ n: 'gap', reason: 'garbage', fromUs: s.tS * 1e6 - 1.1e6, toUs: s.tS * 1e6, lost: 21 });
    expect(s.of('segment').at(-1)).toMatchObject({ what: 'closed', why: 'gap' });
  });

  it('a bad line a second delays no warning of a fill that will not stop', () => {
    const warned = (bad: boolean) => {
      const s = new Script().flow(3, 0).say({ c: 'stage', to: 'inflate' });
      for (let k = 0; k < 32; k++) {
        s.flow(1, (t) => 3.2 * (1 - Math.exp(-(k + t) / 25)));
        if (bad) badLine(s);
      }
      return s.at('rising', 'unacknowledged');
    };
    expect(warned(false)).toBeLessThan(30);
    expect(warned(true)).toBe(warned(false));
  });

  it('a line that loses nearly all of its frames is not taken for a slow device', () => {
    const s = new Script()
      .flow(3, 0)
      .say({ c: 'stage', to: 'inflate' })
      .flow(5, (t) => t * 0.05);
    let seq = 10_000;
    for (let k = 0; k < 6; k++) {
      s.silence(2.45);
      const tS = s.tS + 0.05;
      seq += 50;
      s.give({ i: 'reading', tUs: Math.round(tS * 1e6), reading: readingOf(tS, 0.3, { seq }) });
      s.tS = tS;
    }
    expect(viewOf(s.w, (s.tS + 0.6) * 1e6).stale).toBe(true);
    s.silence(1.1);
    expect(s.states('pressure-lost').at(-1)).toBe('unacknowledged');
  });
});

describe('a slow rise in a hold', () => {
  it('is told well before the ceiling on a line where no warmth is forecast, too', () => {
    // A regulator that creeps: 50 mbar/min, far under what the guard takes for a fill.
    const s = held({ line: 'supplied-relieving' }).flow(700, (t) => 1.8 + (0.05 / 60) * t, { hz: 4 });
    expect(s.at('lift', 'unacknowledged')).toBeLessThan(s.at('ceiling', 'unacknowledged') - 300 || 500);
    expect(s.of('alarm').find((e) => e.alarm === 'lift')!.values).toMatchObject({ ceilingBar: 2.48 });
    // The band is left upwards: nobody is told to top up.
    expect(s.states('band-exit')).toEqual([]);
  });
});

describe('what ends with a stage', () => {
  it('cure counts nothing after the let-down', () => {
    const resin = {
      name: 'R',
      criterion: 'let-down' as const,
      points: [{ c: 10, minutes: 20 }],
      lowestC: 5,
      potLifeMin: null,
      exotherm: 'low' as const,
      expectedRiseK: null,
    };
    const s = held({ resin }).flow(60, 1.8, { hz: 4 }).say({ c: 'stage', to: 'let-down' });
    const low = viewOf(s.w, s.tS * 1e6).cure!.low;
    expect(low).toBeGreaterThan(0.01);
    expect(viewOf(s.flow(60, 0, { hz: 4 }).w, s.tS * 1e6).cure!.low).toBe(low);
  });

  it('the question of a fall stays open on a step back to the fill, and ends with the let-down', () => {
    const s = held().flow(3, (t) => 1.8 - 0.2 * t);
    expect(viewOf(s.w, s.tS * 1e6).question).toBe('let-down-or-loss');
    s.say({ c: 'stage', to: 'inflate' });
    expect(viewOf(s.w, s.tS * 1e6).question).toBe('let-down-or-loss');
    s.say({ c: 'stage', to: 'let-down' });
    expect(viewOf(s.w, s.tS * 1e6).question).toBeNull();
  });

  it('a hold that falls slowly presses when five minutes are left', () => {
    // On a line where no leak can be seen: where one is, it speaks for the other.
    const s = held({ line: 'supplied-nonrelieving' }).flow(1500, (t) => 1.8 - 0.0008 * t, { hz: 4 });
    const told = s.of('alarm').filter((e) => e.alarm === 'band-exit');
    expect(told.map((e) => e.priority)).toContain('high');
    const first = told.find((e) => e.priority === 'high')!;
    // 1.1 bar at 0.8 mbar/s: the floor is reached 1375 s after the fall began.
    expect(first.tUs / 1e6 - 72).toBeGreaterThan(1375 - 400);
    expect(first.tUs / 1e6 - 72).toBeLessThan(1375 - 200);
  });
});

describe('at the very limit', () => {
  const exact = { sd: 0 };
  it('the ceiling itself is an alarm, a millibar under it is none', () => {
    expect(new Script().flow(3, 2.479, exact).heard()).toEqual([]);
    expect(new Script().flow(3, 2.48, exact).heard()).toEqual(['ceiling']);
  });

  it('the floor itself is in the band; under it is an alarm, which ends beyond its deadband only', () => {
    const s = held({ line: 'supplied-nonrelieving' }).flow(60, (t) => Math.max(0.7, 1.8 - 0.02 * t), exact);
    expect(s.flow(20, 0.7, exact).states('below-floor')).toEqual([]);
    expect(s.flow(20, 0.69, exact).states('below-floor')).toEqual(['unacknowledged']);
    expect(s.flow(20, 0.71, exact).states('below-floor')).toEqual(['unacknowledged']);
    expect(s.flow(20, 0.73, exact).states('below-floor')).toEqual(['unacknowledged', 'returned']);
  });

  it('one broken line is no garbage, more than the longest line is', () => {
    const s = held().notice({ n: 'stray', bytes: 128 }).flow(1, 1.8);
    expect(s.states('garbage')).toEqual([]);
    expect(s.notice({ n: 'stray', bytes: 1 }).flow(1, 1.8).states('garbage')).toEqual(['unacknowledged']);
  });
});

describe('documents edited in a hold', () => {
  const absolute = { ...PRESSURE_CHANNEL, gaugeKind: 'absolute' as const };
  const calibration = {
    deviceId: 'a',
    channel: 0,
    sensorSerial: 's',
    date: '2026-01-01',
    asFound: [],
    asLeft: [],
    offset: -0.1,
    gain: 1,
    uReference: 0.001,
    uResidual: 0.001,
  };
  it.each([
    ['calibration', { channels: [{ ...absolute, calibration }] }],
    ['air pressure', { channels: [absolute], air: { bar: 1.113, uBar: 0.01, source: 'typed' as const } }],
  ])('another %s moves the reading by 100 mbar and is neither a fall nor a leak', (_, more) => {
    const s = held({ channels: [absolute] });
    s.setup(setupOf({ number: 2, ...more })).flow(20, 1.7);
    expect(s.of('segment').map((e) => [e.what, e.why])).toEqual([
      ['opened', 'still'],
      ['closed', 'gap'],
      ['opened', 'still'],
    ]);
    expect(s.heard()).toEqual([]);
  });

  it('a resin that is entered ends no segment', () => {
    const s = held({ channels: [absolute] });
    s.setup(setupOf({ number: 2, channels: [absolute], ground: { c: 8, uC: 1 } })).flow(5, 1.8);
    expect(s.of('segment').map((e) => e.what)).toEqual(['opened']);
  });
});

describe('doubt about the reading', () => {
  it('a supply that is named and not read is told; one that never was is the plan\u2019s business', () => {
    const flags = FLAG.noSupply;
    const channel = { ...PRESSURE_CHANNEL, signal: 'ratio' as const };
    const supply = { ...PRESSURE_CHANNEL, index: 1, role: 'supply' as const };
    const with_ = held({ channels: [{ ...channel, partner: 1 }, supply] }).flow(3, 1.8, { more: { flags } });
    expect(with_.heard()).toEqual(['supply-low']);
    const without = held({ channels: [channel] }).flow(3, 1.8, { more: { flags } });
    expect(without.heard()).toEqual([]);
  });

  it('the limit bit of a sample is believed where its event was lost', () => {
    const s = held().flow(1, 1.8, { more: { status: STATUS.armed | STATUS.tripped } });
    expect(s.heard()).toEqual(['device-trip']);
    s.flow(2, 1.8, { more: { status: STATUS.armed } });
    expect(s.states('device-trip').at(-1)).toBe('returned');
  });

  it('a stuck reading never passes the rebound test', () => {
    const s = held()
      .say({ c: 'stage', to: 'let-down' })
      .flow(30, (t) => Math.max(0, 1.8 - 0.1 * t))
      .say({ c: 'vent', open: false })
      .flow(40, 0, { sd: 0, more: { flags: FLAG.stuck } });
    expect(s.of('rebound').map((e) => e.what)).toEqual(['started', 'broken-off']);
  });
});

describe('other faults', () => {
  it('a store that fails is told and stops nothing', () => {
    const s = new Script().flow(2, 1).notice({ n: 'store', ok: false, code: 'full' }).flow(1, 2.49);
    expect(s.heard()).toEqual(['store-fault', 'ceiling']);
    s.notice({ n: 'store', ok: true, code: 'ok' });
    expect(s.states('store-fault').at(-1)).toBe('returned');
  });

  it('a sleep is told and nothing is carried across it', () => {
    const s = new Script().flow(2, 0).say({ c: 'stage', to: 'hold' }).flow(30, 1.8);
    expect(s.of('segment').at(-1)).toMatchObject({ what: 'opened' });
    s.notice({ n: 'clock-jump', seconds: 40 });
    expect(s.of('segment').at(-1)).toMatchObject({ what: 'opened' });
    const fromUs = s.tS * 1e6;
    s.notice({ n: 'gap', reason: 'clock', fromUs, toUs: fromUs, lost: 800 });
    s.notice({ n: 'witness', deviceS: 40, runS: 0 });
    expect(s.of('segment').at(-1)).toMatchObject({ what: 'closed', why: 'gap' });
    s.flow(2, 1.8);
    expect(s.states('clock-jump')[0]).toBe('unacknowledged');
  });

  it('pot life: a quarter left is told, none left presses', () => {
    const resin = {
      name: 'R',
      criterion: 'let-down' as const,
      points: [{ c: 20, minutes: 60 }],
      lowestC: 5,
      potLifeMin: 4,
      exotherm: 'low' as const,
      expectedRiseK: null,
    };
    const s = new Script({ setup: setupOf({ resin }) }).flow(1, 0, { hz: 1 }).say({ c: 'mixed' });
    s.setup(setupOf({ number: 2, resin, rateHz: 1 })).flow(400, 0, { hz: 1 });
    expect(s.at('pot-life', 'unacknowledged')).toBeCloseTo(181, 0);
    expect(s.of('alarm').map((e) => [e.why, e.priority])).toEqual([
      ['condition', 'low'],
      ['escalated', 'high'],
    ]);
    s.say({ c: 'stage', to: 'inflate' }).flow(3, 0, { hz: 1 });
    expect(s.states('pot-life').at(-1)).not.toBe('unacknowledged');
  });
});

describe('the state', () => {
  const story = (s: Script) =>
    s
      .flow(3, 0)
      .say({ c: 'zero' })
      .say({ c: 'stage', to: 'seat' })
      .flow(20, (t) => Math.min(0.4, t * 0.04))
      .say({ c: 'gauge', bar: 0.42 })
      .say({ c: 'stage', to: 'inflate' })
      .flow(40, (t) => 0.4 + Math.min(1.4, t * 0.05));

  it('is plain: a snapshot through JSON goes on with the very same events', () => {
    const a = story(new Script());
    const b = story(new Script());
    const snapshot = JSON.parse(JSON.stringify(b.w)) as typeof b.w;
    expect(snapshot).toEqual(b.w);
    (b as { w: typeof b.w }).w = snapshot;
    for (const s of [a, b])
      s.say({ c: 'stage', to: 'hold' }).flow(500, 1.8).silence(7).flow(20, 1.75).notice({ n: 'end' });
    expect(b.events).toEqual(a.events);
    expect(a.events.length).toBeGreaterThan(8);
  });

  it('says nothing after the end', () => {
    const s = new Script().flow(2, 0).notice({ n: 'end' });
    const n = s.events.length;
    s.flow(5, 3).silence(9).notice({ n: 'end' });
    expect(s.events).toHaveLength(n);
    expect(s.events.at(-1)!.e).toBe('end');
  });

  it('events never go back in time, and every number in them is finite', () => {
    const s = story(new Script())
      .say({ c: 'stage', to: 'hold' })
      .flow(300, 1.8)
      .flow(20, 2.6)
      .notice({ n: 'end' });
    let last = 0;
    for (const e of s.events) {
      expect(e.tUs).toBeGreaterThanOrEqual(last);
      last = e.tUs;
      expect(JSON.parse(JSON.stringify(e))).toEqual(e);
    }
  });

  it('no story of readings and commands throws, and the view can always be made', () => {
    const s = new Script({ setup: null });
    for (const bar of [null, 0, -5, 100, 1e9]) {
      s.give({ i: 'reading', tUs: 1, reading: readingOf(0.001, bar) });
      viewOf(s.w, 2);
    }
    for (const to of ['hold', 'let-down', 'done', 'prepare', 'abandoned', 'seat', 'hold'] as const) {
      s.say({ c: 'stage', to }).flow(1, fill);
      expect(viewOf(s.w, s.tS * 1e6).stage).toBe(to);
    }
  });
});
