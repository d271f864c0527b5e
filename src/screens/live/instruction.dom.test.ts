import { describe, expect, it } from 'vitest';
import type { Setup } from '../../job/setup.ts';
import { LIMITS } from '../../job/testing/givens.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { METRIC } from '../../words/format.ts';
import { INSTRUCTIONS } from '../../words/orders.ts';
import { NO_CUE } from './cue-count.ts';
import { instructionOf, sayInstruction } from './instruction.ts';
import { alarm, at, CURE, guard, sceneOf } from './testing/scene.ts';

const RESIN = { resin: {} } as unknown as Setup;
const codeOf = (...given: Parameters<typeof sceneOf>) => {
  const { stage, code } = instructionOf(sceneOf(...given));
  return `${stage} ${code}`;
};
const event = (e: Partial<WatchEvent> & { e: string }) => ({ tUs: 50e6, ...e }) as unknown as WatchEvent;

describe('before a run', () => {
  it('leads through connecting, the packer and the zero', () => {
    expect(codeOf({}, { step: 'connect' })).toBe('prepare connect');
    expect(codeOf({ limits: null }, { step: 'packer' })).toBe('prepare packer');
    // A run before that was not seen to end empty left its ceiling in force: 'no limit' would be untrue.
    expect(codeOf({}, { step: 'packer' })).toBe('prepare packer-limited');
    // The key goes on with a practice that was left open: the sentence says no other thing.
    expect(codeOf({}, { step: 'packer', resumes: true })).toBe('prepare resume');
    expect(codeOf({ bar: 0.05 }, { step: 'zero' })).toBe('prepare zero');
  });
  it('after a run that was not closed is to shut the air off and keep clear, connected or not, whatever is read', () => {
    for (const step of ['connect', 'packer'] as const)
      for (const bar of [null, 0, 1.7])
        expect(codeOf({ bar }, { step, leftOpen: true })).toBe(
          step === 'connect' ? 'prepare left-open' : 'prepare left-open-seen',
        );
    for (const code of ['left-open', 'left-open-seen'] as const)
      expect(INSTRUCTIONS.prepare[code]().say).toBe('Air off, keep clear.');
  });
  it('after a run whose packer was not seen empty the same, until somebody says that it is', () => {
    for (const step of ['connect', 'packer'] as const)
      expect(codeOf({ bar: 0 }, { step, leftFull: true })).toBe('prepare left-full');
    expect(INSTRUCTIONS.prepare['left-full']().say).toBe('Air off, keep clear.');
  });
  it('never tells anybody to open a coupling under pressure', () => {
    expect(codeOf({ bar: 0.3 }, { step: 'zero' })).toBe('prepare pressure');
  });
  it('says so in every step before the work, whatever else is to be done, and by the last reading of a line that is silent', () => {
    for (const more of [
      {},
      { setup: RESIN },
      { step: 'zero' as const },
      { step: 'packer' as const },
      { soundTested: false },
    ])
      for (const view of [
        { bar: 0.87 },
        { bar: 1, mixedUs: 1 },
        { bar: null, overBar: 4 },
        { bar: 1, stale: true },
      ])
        expect(codeOf(view, more)).toBe('prepare pressure');
    expect(codeOf({ bar: 0.09 })).toBe('prepare ready-unproved');
    // A reading that is not sure of 0.15 bar does not know whether 0.12 is over zero.
    expect(codeOf({ bar: 0.12, uBar: 0.15 })).toBe('prepare ready-unproved');
    expect(codeOf({ bar: 0.16, uBar: 0.15 })).toBe('prepare pressure');
  });
  it('invites to prove the supply while there is time, in the way of nothing, until it was tried', () => {
    const view = { limits: LIMITS };
    expect(codeOf(view, { setup: RESIN })).toBe('prepare mix-unproved');
    expect(codeOf(view)).toBe('prepare ready-unproved');
    expect(codeOf({ ...view, mixedUs: 1 }, { setup: RESIN })).toBe('prepare ready');
    const tried = [event({ e: 'supply', what: 'broken-off', reason: 'stopped' } as never)];
    expect(codeOf(view, { setup: RESIN, events: tried })).toBe('prepare mix');
    // One that came to nothing by itself is said for a minute, whatever panel is open.
    const leaks = [event({ e: 'supply', what: 'broken-off', reason: 'end-leaks', tUs: 0 } as never)];
    expect(codeOf({ ...view, tUs: 50e6 }, { setup: RESIN, events: leaks })).toBe('prepare supply-failed');
    expect(codeOf({ ...view, tUs: 70e6 }, { setup: RESIN, events: leaks })).toBe('prepare mix');
    expect(codeOf({ ...view, tUs: 50e6, bar: 0.4 }, { setup: RESIN, events: leaks })).toBe(
      'prepare pressure',
    );
    expect(
      codeOf(
        { ...view, temps: [{ channel: 1, place: 'sleeve', c: 12, uC: 0.5, flags: 0 }] },
        { setup: RESIN },
      ),
    ).toBe('prepare warm');
    const told = (code: 'mix' | 'mix-unproved') => INSTRUCTIONS.prepare[code]();
    expect(told('mix-unproved').say).toBe(told('mix').say);
    expect(told('mix-unproved').besides).toContain('prove the supply');
  });
  it('asks for the probes and the resin, then says how long it lasts', () => {
    const probe = [{ channel: 1, place: 'sleeve' as const, c: 12, uC: 0.5, flags: 0 }];
    expect(codeOf({ temps: probe }, { setup: RESIN })).toBe('prepare warm');
    expect(codeOf({}, { setup: RESIN })).toBe('prepare mix-unproved');
    // Each of them: two that are mixed up do not agree with one hand.
    const compared = {
      e: 'warm-check',
      tUs: 0,
      place: 'sleeve',
      thermometerC: 34,
      readingC: 34,
      agrees: true,
    } as const;
    const air = { ...probe[0]!, channel: 2, place: 'air' as const };
    expect(codeOf({ temps: probe }, { setup: RESIN, events: [compared] })).toBe('prepare mix-unproved');
    expect(codeOf({ temps: [...probe, air] }, { setup: RESIN, events: [compared] })).toBe('prepare warm');
    expect(codeOf({}, { setup: RESIN, soundTested: false })).toBe('prepare sound');
    expect(codeOf({ mixedUs: 1 }, { setup: RESIN, soundTested: false })).toBe('prepare ready');
    const ready = instructionOf(sceneOf({ mixedUs: 1, potLifeLeftS: 1680 }, { setup: RESIN }));
    expect(sayInstruction(ready, METRIC).say).toContain('28');
    // Never more than the time slot beside it says: both are rounded down.
    const nearly = instructionOf(sceneOf({ mixedUs: 1, potLifeLeftS: 1439.8 }, { setup: RESIN }));
    expect(sayInstruction(nearly, METRIC).say).toMatch(/23\u00a0min\.$/);
  });
});

describe('in the seat pause', () => {
  const seat = (view: object, more = {}) => codeOf({ stage: 'seat', stageSinceUs: 10e6, ...view }, more);
  it('opens, shuts, waits, compares, goes on', () => {
    expect(seat({ bar: 0.1 })).toBe('seat open');
    expect(seat({ bar: LIMITS.seatBar ?? 0 })).toBe('seat shut');
    expect(seat({ bar: 0.4 }, { pauseLeftS: 7 })).toBe('seat settle');
    expect(seat({ bar: 0.4 }, { pauseLeftS: 0 })).toBe('seat compare');
    const compared = { e: 'gauge', gaugeBar: 0.4, readingBar: 0.4 };
    const gauge = (agrees: boolean, part = {}) => ({
      pauseLeftS: 0,
      events: [event({ ...compared, agrees, ...part } as never)],
    });
    expect(seat({ bar: 0.4 }, gauge(true))).toBe('seat compared');
    expect(seat({ bar: 0.4 }, gauge(false))).toBe('seat differs');
    // Typed while no reading came, or with no air to speak of: nothing was compared.
    const nothing = { agrees: null, readingBar: null, gaugeBar: 0.9 };
    expect(seat({ bar: 0.4 }, gauge(true, nothing))).toBe('seat compare');
    expect(seat({ bar: 0.4 }, gauge(true, { readingBar: 0, gaugeBar: 0 }))).toBe('seat compare');
  });
  it('a gauge that was compared in another pause is not this one’s', () => {
    const events = [event({ e: 'gauge', agrees: true, gaugeBar: 0.4, readingBar: 0.4, tUs: 5e6 } as never)];
    expect(seat({ bar: 0.4 }, { pauseLeftS: 0, events })).toBe('seat compare');
  });
});

describe('by a sensor that is known to read too low', () => {
  const state = 'acknowledged';
  const low = [
    alarm({ alarm: 'reading-jump', state, values: { jumpBar: -0.3 } }),
    alarm({ alarm: 'gauge-differs', state: 'shelved', values: { bar: 1.8, gaugeBar: 2.3 } }),
  ];
  const known = [
    alarm({ alarm: 'reading-jump', state, values: { jumpBar: 0.3 } }),
    alarm({ alarm: 'gauge-differs', state, values: { bar: 1.8, gaugeBar: 1.5 } }),
    alarm({ alarm: 'reading-jump', state: 'returned', values: { jumpBar: -0.3 } }),
  ];
  const loss = alarm({ alarm: 'below-floor', state, values: {} });

  it('no air goes in, and its zero is none', () => {
    for (const a of low) {
      expect(codeOf({ stage: 'inflate', bar: 1, alarms: [a] })).toBe('inflate reads-low');
      expect(codeOf({ stage: 'hold', bar: 0.7, alarms: [a, loss] })).toBe('hold reads-low');
      expect(codeOf({ stage: 'hold', bar: 1.8, alarms: [a] })).toBe('hold reads-low');
      expect(codeOf({ stage: 'let-down', bar: 0, alarms: [a] })).toBe('let-down reads-low');
      expect(codeOf({ stage: 'done', bar: 0, alarms: [a] })).toBe('done reads-low');
      expect(codeOf({ stage: 'abandoned', bar: 0, alarms: [a] })).toBe('abandoned reads-low');
    }
  });
  it('one that reads too high, or was mended, is gone by', () => {
    for (const a of known) {
      expect(codeOf({ stage: 'inflate', bar: 1, alarms: [a] })).toBe('inflate open');
      expect(codeOf({ stage: 'hold', bar: 0.7, alarms: [a, loss] })).toBe('hold top-up');
      expect(codeOf({ stage: 'let-down', bar: 0, alarms: [a] })).toBe('let-down shut');
    }
  });
});

it('a hold that leaks over its working pressure is not topped up to it', () => {
  const leaking = alarm({ alarm: 'leaking', priority: 'high', state: 'acknowledged' });
  expect(codeOf({ stage: 'hold', bar: LIMITS.workingBar + 0.15, alarms: [leaking] })).toBe('hold leak-high');
});

describe('in the fill', () => {
  const fill = (view: object, more = {}) => codeOf({ stage: 'inflate', ...view }, more);
  const cue = (leftS: number | null, stopped: 'unsure' | null = null) => ({
    cue: { ...NO_CUE, leftS, stopped },
  });
  it('opens, makes ready, counts, shuts', () => {
    expect(fill({ bar: 0.4 })).toBe('inflate open');
    expect(fill({ bar: 1.2, guard: guard({ rateBarPerS: 0.05 }) })).toBe('inflate ready');
    expect(fill({ bar: 1.2 }, cue(8))).toBe('inflate count-down');
    expect(fill({ bar: 1.7 }, cue(0))).toBe('inflate shut-now');
    expect(fill({ bar: LIMITS.workingBar })).toBe('inflate in-band');
    expect(fill({ bar: LIMITS.workingBar + 0.2 })).toBe('inflate over');
  });
  it('a rise that is too fast for a hand comes first, and a count that broke off says so', () => {
    const tooFast = { lateBar: 0.2, rateBarPerS: 0.5, mostBarPerS: 0.2 };
    expect(fill({ bar: 1.2, guard: guard({ tooFast }) }, cue(2))).toBe('inflate too-fast');
    expect(fill({ bar: 1.2 }, cue(null, 'unsure'))).toBe('inflate uncounted');
  });
  it('without a limit it goes by the plate', () => {
    expect(fill({ bar: 1.2, limits: null })).toBe('inflate no-limit');
  });
});

describe('once the packer was over its rating', () => {
  const peakBar = LIMITS.ratedBar + 0.6;
  it('it is let down fully and inspected, whatever was planned', () => {
    for (const stage of ['seat', 'inflate', 'hold'] as const) {
      expect(codeOf({ stage, bar: 1.2, peakBar })).toBe(`${stage} was-over-rated`);
      expect(codeOf({ stage, bar: 1.2, peakBar: LIMITS.ratedBar })).not.toContain('over-rated');
    }
    const { say, besides } = sayInstruction(
      instructionOf(sceneOf({ stage: 'inflate', bar: 1.2, peakBar })),
      METRIC,
    );
    expect(say).toBe('Let the packer down fully.');
    expect(besides).toContain(`${peakBar.toFixed(2)}\u00a0bar`);
  });
});

describe('in the hold', () => {
  const hold = (view: object, events: readonly WatchEvent[] = []) =>
    codeOf({ stage: 'hold', bar: 1.8, cure: CURE, ...view }, { events });
  const sample = (hard: boolean, atPipeTemperature = true) => [
    event({ e: 'witness', hard, atPipeTemperature } as never),
  ];
  const MET = { ...CURE, low: 1.02, metAtS: 50 };
  it('keeps hands off, and asks for the sample once the cure time is reached', () => {
    expect(hold({})).toBe('hold keep');
    expect(hold({ alarms: [alarm({ alarm: 'stuck', state: 'acknowledged', values: {} })] })).toBe(
      'hold unread',
    );
    expect(hold({ alarms: [alarm({ alarm: 'stuck', state: 'returned', values: {} })] })).toBe('hold keep');
    expect(hold({ cure: MET })).toBe('hold met');
    expect(hold({ cure: MET }, sample(true))).toBe('hold hard');
  });
  it('a sample that is soft, early, or was kept warm leads nowhere', () => {
    expect(hold({ cure: MET }, sample(false))).toBe('hold soft');
    expect(hold({}, sample(true))).toBe('hold early');
    // Hard so early that it cannot be the pipe's: where it was kept is asked, until another answer.
    const doubt: WatchEvent = { tUs: 2, e: 'sample', doubt: 'hard-early', age: 0.2 };
    expect(hold({}, [...sample(true), doubt])).toBe('hold doubted');
    expect(hold({}, [...sample(true), doubt, ...sample(true)])).toBe('hold early');
    expect(hold({ cure: MET }, sample(true, false))).toBe('hold warm');
  });
  it('an acknowledged fall keeps its order in sight, and never asks for air behind a blown hose', () => {
    const state = 'acknowledged' as const;
    expect(hold({ alarms: [alarm({ alarm: 'band-exit', state })] })).toBe('hold top-up-soon');
    const low = { bar: 0.5, alarms: [alarm({ alarm: 'below-floor', state })] };
    expect(hold(low)).toBe('hold top-up');
    expect(
      sayInstruction(instructionOf(sceneOf({ stage: 'hold', limits: LIMITS, ...low })), METRIC).say,
    ).toBe('Top up slowly to 1.80\u00a0bar.');
    const lost = alarm({ alarm: 'below-floor', state, values: { cause: 'fast-fall' } });
    const known = { bar: 0.5, alarms: [lost], airNotWanted: 'fast-fall' as const };
    expect(hold(known)).toBe('hold find-loss');
    expect(hold({ ...known, cure: MET })).toBe('hold find-loss');
  });
  it('no stage lets air in after a loss, or by a reading that has jumped; the count of a fill goes on', () => {
    for (const stage of ['seat', 'inflate', 'hold'] as const) {
      expect(codeOf({ stage, bar: 0.2, airNotWanted: 'fast-fall' })).toBe(`${stage} find-loss`);
      expect(codeOf({ stage, bar: 0.2, airNotWanted: 'reading-jump' })).toBe(`${stage} jumped`);
    }
    const cue = { ...NO_CUE, leftS: 0 };
    expect(codeOf({ stage: 'inflate', bar: 1.7, airNotWanted: 'fast-fall' }, { cue })).toBe(
      'inflate shut-now',
    );
  });
  it('a reading that stands in a fill asks for the gauge where it would ask for air', () => {
    expect(codeOf({ stage: 'inflate', bar: 0.3, fillStands: true })).toBe('inflate stands');
    const second = { role: 'outlet-pressure', bar: 1.5, lost: false, zeroed: true, stoodBar: 1.5 } as const;
    for (const path of ['blocked', 'level', 'escapes'] as const)
      expect(codeOf({ stage: 'inflate', bar: 0.3, fillStands: true, second: { ...second, path } })).toBe(
        `inflate ${path}`,
      );
    expect(codeOf({ stage: 'inflate', bar: 0.3, fillStands: true, second: { ...second, path: null } })).toBe(
      'inflate stands',
    );
    expect(codeOf({ stage: 'seat', bar: 0.1, fillStands: true, limits: LIMITS })).toBe('seat stands');
    expect(codeOf({ stage: 'seat', bar: LIMITS.seatBar!, fillStands: true, limits: LIMITS })).toBe(
      'seat shut',
    );
    expect(codeOf({ stage: 'inflate', bar: 1.8, fillStands: true, limits: LIMITS })).toBe('inflate in-band');
    expect(codeOf({ stage: 'inflate', bar: 0.3, fillStands: true, airNotWanted: 'fast-fall' })).toBe(
      'inflate find-loss',
    );
  });
  it('a vent that was said open is not told as a valve to be left shut', () => {
    expect(hold({ ventOpen: true })).toBe('hold vent-open');
  });
  it('a leak that somebody knows of wants air before the floor, or none where the cure comes first: one order', () => {
    const leak = (mbarPerMin: number) => ({
      verdict: 'leaking',
      mbarPerMin,
      low: mbarPerMin / 2,
      high: mbarPerMin * 2,
      paM3PerS: null,
      reason: null,
    });
    const known = (state: 'acknowledged' | 'shelved', mbarPerMin: number, more: object = {}) =>
      hold({
        alarms: [alarm({ alarm: 'leaking', priority: 'high', state, values: { mbarPerMin } })],
        hold: { leak: leak(mbarPerMin), bandExit: null, lift: null, floor: { bar: 0.9 } },
        ...more,
      });
    for (const state of ['acknowledged', 'shelved'] as const) {
      // 0.9 bar over the floor at 20 mbar/min by the worse end: 45 min, the cure in 130 min at the latest.
      expect(known(state, 10)).toBe('hold top-up-soon');
      // At 2 mbar/min: 450 min.
      expect(known(state, 1)).toBe('hold leak-slow');
      expect(known(state, 1, { cure: null })).toBe('hold top-up-soon');
      expect(known(state, 10, { cure: MET })).toBe('hold met');
    }
    const LEAVE = sayInstruction(instructionOf(sceneOf({ stage: 'hold', bar: 1.8, cure: CURE })), METRIC).say;
    for (const code of ['top-up-soon', 'leak-slow', 'top-up-unknown'] as const)
      expect(INSTRUCTIONS.hold[code]().say).not.toBe(LEAVE);
    const unknown = { ...LIMITS, floorBar: null };
    const noFloor = { leak: leak(10), bandExit: null, lift: null, floor: null };
    expect(known('acknowledged', 10, { limits: unknown, hold: noFloor })).toBe('hold top-up-unknown');
  });
  it('what was put aside orders only while it is still so', () => {
    const state = 'shelved' as const;
    const aside = (code: 'leaking' | 'below-floor' | 'band-exit') => [alarm({ alarm: code, state })];
    const calm = { leak: { verdict: 'tight' }, bandExit: null, lift: null, floor: { bar: 0.9 } };
    for (const code of ['leaking', 'below-floor', 'band-exit'] as const)
      expect(hold({ alarms: aside(code), hold: calm })).toBe('hold keep');
    expect(hold({ alarms: aside('below-floor'), hold: calm, bar: 0.8 })).toBe('hold top-up');
    const bandExit = { direction: 'down', inS: at(900) };
    expect(hold({ alarms: aside('band-exit'), hold: { ...calm, bandExit } })).toBe('hold top-up-soon');
  });
  it('tells of the heat to come', () => {
    const lift = { peakBar: at(1.9), ceilingInS: null, adviceLowBar: null, adviceHighBar: null };
    expect(hold({ hold: { lift, bandExit: null } })).toBe('hold lift');
  });
  it('a resin that light cures is not judged', () => {
    expect(hold({ standing: ['cure-not-judged'] })).toBe('hold cure-not-judged');
  });
});

describe('letting down and after', () => {
  const down = (view: object, what?: string) =>
    codeOf(
      { stage: 'let-down', bar: 0, ...view },
      { events: what === undefined ? [] : [event({ e: 'rebound', what, seconds: 25, bar: 0.06 } as never)] },
    );
  it('lets down, shuts the vent, waits, and says what was seen', () => {
    expect(down({ bar: 0.6 })).toBe('let-down open');
    expect(down({})).toBe('let-down shut');
    expect(down({ rebound: { sinceUs: 90e6, needS: 25, startBar: 0 } })).toBe('let-down wait');
    expect(down({}, 'stayed')).toBe('let-down stayed');
    expect(down({ bar: 0.06 }, 'came-back')).toBe('let-down back');
    expect(down({}, 'broken-off')).toBe('let-down broken');
  });
  it('without a reading the packer counts as full', () => {
    expect(codeOf({ stage: 'let-down', bar: null }, { trust: 'lost' })).toBe('let-down lost');
  });
  it('done says how to pull only where it was seen to stay at zero, and else to test', () => {
    const said = (events: WatchEvent[]) =>
      sayInstruction(instructionOf(sceneOf({ stage: 'done' }, { events })), METRIC).say;
    expect(said([])).toBe(INSTRUCTIONS.done.untested().say);
    const stayed = event({ e: 'rebound', what: 'stayed', seconds: 25, bar: 0 } as never);
    expect(said([stayed])).toBe(INSTRUCTIONS.done.stayed({ s: 25 }).say);
    expect(codeOf({ stage: 'done', bar: 0.4 })).toBe('done pressure');
    expect(codeOf({ stage: 'done', standing: ['no-hold-by-tap'] })).toBe('done unseen');
  });
});
