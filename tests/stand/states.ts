import type { SiteOptions } from '../../src/rig/options.ts';
import {
  acknowledge,
  beginRepair,
  endRepair,
  hold,
  inflate,
  keepJob,
  letDown,
  mixed,
  pairDevice,
  repairDevice,
  seat,
  shutVent,
  upToHold,
} from './repair.ts';
import type { Stand } from './stand.ts';

/**
 * All states of Live, and the stories that lead to them: each story is a run of its own, played by the simulated site
 * and by the operator's commands, which stands still at its states.
 */
export const STORIES = {
  repair: [
    'not-connected',
    'packer',
    'zero',
    'prepare',
    'seat',
    'seated',
    'inflate',
    'cue',
    'cue-now',
    'hold-begun',
    'hold',
    'cure-met',
    'let-down',
    'rebound',
    'done',
  ],
  'too-far': ['rising', 'ceiling', 'over-rated', 'over-range', 'was'],
  several: ['gauge-differs', 'several'],
  lost: ['lost-filling', 'lost-hold', 'lost-back'],
  leak: ['leaking', 'acknowledged', 'low-and-shelved', 'below-floor', 'fast-fall'],
  lift: ['lift'],
  kink: ['rebound-failed'],
  'no-limit': ['no-limit'],
  'other-device': ['other-device'],
  'full-disk': ['store-fault'],
  practice: ['practice-hold', 'practice-urgent'],
  pair: ['supply-over', 'pair-fill', 'supply-over-filling', 'sensors-differ', 'pair-hold', 'second-lost'],
  swapped: ['sensors-swapped'],
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type StoryName = keyof typeof STORIES;
export type LiveState = (typeof STORIES)[StoryName][number];

export const LIVE_STATES: readonly LiveState[] = Object.values(STORIES).flat();

/** Called at each state of a story, while time stands still. */
export type At = (state: LiveState) => Promise<void>;

/** A quick thick sleeve in a warm packer: its heat lifts the closed packer. */
const WARM_SLEEVE: SiteOptions = { pipe: { sleeveMm: 11, startC: 26 } };
/** Behind a wide vent the line is at zero long before the packer is: it empties through the hose. */
const WIDE_VENT: SiteOptions = { vent: { conductance: 4e-7 } };

const PLAY: Readonly<Record<StoryName, (stand: Stand, at: At) => Promise<void>>> = {
  async repair(stand, at) {
    await beginRepair(stand, repairDevice(), at);
    await mixed(stand);
    await at('prepare');
    await seat(stand);
    await at('seat');
    await stand.pass(14);
    await at('seated');
    await inflate(stand);
    await at('inflate');
    await stand.passUntil('cue', 60, (v) => v.guard.closeInS !== null && v.guard.closeInS.value < 8);
    await at('cue');
    await stand.passUntil('cue ends', 60, (v) => v.guard.closeInS !== null && v.guard.closeInS.value < 0.5);
    await at('cue-now');
    await hold(stand);
    await at('hold-begun');
    await stand.pass(20 * 60);
    await at('hold');
    await stand.passUntil('cure time met', 6 * 3600, (v) => (v.cure?.low ?? 0) >= 1);
    await stand.pass(90);
    await at('cure-met');
    await stand.command({ c: 'witness', hard: true, atPipeTemperature: true });
    await letDown(stand);
    await stand.passUntil('half down', 60, (v) => (v.bar ?? 9) < 0.7);
    await at('let-down');
    await stand.passUntil('empty', 600, (v) => (v.bar ?? 9) < 0.01);
    await stand.pass(40);
    await shutVent(stand);
    await stand.pass(14);
    await at('rebound');
    await stand.pass(20);
    await stand.command({ c: 'stage', to: 'done' });
    await stand.pass(4);
    await at('done');
  },
  async 'too-far'(stand, at) {
    await beginRepair(stand);
    await mixed(stand);
    await seat(stand);
    await inflate(stand, 1);
    await stand.passUntil('rising', 60, (v) => v.alarms.some((a) => a.alarm === 'rising'));
    await at('rising');
    await stand.passUntil('ceiling', 60, (v) =>
      v.alarms.some((a) => a.alarm === 'ceiling' && a.state === 'unacknowledged'),
    );
    await at('ceiling');
    await stand.passUntil('over rated', 60, (v) =>
      v.alarms.some((a) => a.alarm === 'over-rated' && a.state === 'unacknowledged'),
    );
    await stand.pass(4);
    await at('over-rated');
    await stand.fault({ fault: 'stuck-open' });
    await stand.passUntil('over range', 120, (v) => v.overBar !== null);
    await stand.pass(3);
    await at('over-range');
    await stand.hand({ hand: 'valve', open: 0 });
    await stand.hand({ hand: 'vent', open: true });
    // While air flows the line is far under the packer.
    await stand.passUntil('below the ceiling', 120, (v) => (v.bar ?? 9) < 0.75);
    await stand.hand({ hand: 'vent', open: false });
    await stand.pass(6);
    await at('was');
  },
  async several(stand, at) {
    await beginRepair(stand);
    await mixed(stand);
    await seat(stand);
    await stand.pass(14);
    await stand.command({ c: 'gauge', bar: 0.8 });
    await stand.pass(3);
    await at('gauge-differs');
    await stand.fault({ fault: 'open-probe' });
    await stand.command({ c: 'stage', to: 'inflate', reason: 'agreed with the site manager' });
    await stand.hand({ hand: 'valve', open: 1 });
    await stand.passUntil('over rated', 120, (v) => v.alarms.some((a) => a.alarm === 'over-rated'));
    await stand.passUntil('probe lost', 30, (v) => v.alarms.some((a) => a.alarm === 'temperature-lost'));
    await at('several');
  },
  async lost(stand, at) {
    await beginRepair(stand);
    await mixed(stand);
    await seat(stand);
    await inflate(stand);
    await stand.fault({ fault: 'silence', seconds: 12 });
    await stand.passUntil('lost', 10, (v) => v.alarms.some((a) => a.alarm === 'pressure-lost'));
    await stand.pass(4);
    await at('lost-filling');
    await stand.hand({ hand: 'valve', open: 0 });
    await stand.pass(20);
    await acknowledge(stand);
    await stand.hand({ hand: 'valve', open: 0.45 });
    await hold(stand);
    await stand.pass(15 * 60);
    await stand.fault({ fault: 'unplug' });
    await stand.passUntil('lost', 10, (v) => v.alarms.some((a) => a.alarm === 'pressure-lost'));
    await stand.pass(24);
    await at('lost-hold');
    await stand.fault({ fault: 'replug' });
    await stand.pass(12);
    await at('lost-back');
  },
  async leak(stand, at) {
    await upToHold(stand);
    await stand.pass(12 * 60);
    await stand.fault({ fault: 'leak', mbarPerMin: 8 });
    await stand.passUntil('leaking', 3600, (v) => v.alarms.some((a) => a.alarm === 'leaking'));
    await stand.pass(20);
    await at('leaking');
    await acknowledge(stand);
    await stand.pass(12);
    await at('acknowledged');
    await stand.command({ c: 'shelve', alarm: 'leaking', seconds: 1500, reason: 'looking for the leak' });
    await stand.fault({ fault: 'open-probe' });
    await stand.passUntil('probe lost', 60, (v) => v.alarms.some((a) => a.alarm === 'temperature-lost'));
    await stand.pass(30);
    await at('low-and-shelved');
    await acknowledge(stand);
    await stand.passUntil('below the floor', 7200, (v) => v.alarms.some((a) => a.alarm === 'below-floor'));
    await stand.pass(5);
    await at('below-floor');
    await stand.hand({ hand: 'couple', coupled: false });
    await stand.passUntil('falls fast', 20, (v) => v.question !== null);
    await stand.pass(1);
    await at('fast-fall');
  },
  async lift(stand, at) {
    await upToHold(stand, repairDevice(WARM_SLEEVE));
    await stand.passUntil('lift', 3 * 3600, (v) => v.alarms.some((a) => a.alarm === 'lift'));
    await stand.pass(10);
    await at('lift');
  },
  async kink(stand, at) {
    await upToHold(stand, repairDevice(WIDE_VENT));
    await stand.pass(5 * 60);
    await letDown(stand);
    await stand.passUntil('line at zero', 60, (v) => (v.bar ?? 9) < 0.01);
    // The packer has 0.4 bar yet.
    await stand.pass(22);
    // Said a moment before the vent is shut: then the line fills again within a second.
    await stand.command({ c: 'vent', open: false });
    await stand.pass(2);
    await stand.hand({ hand: 'vent', open: false });
    await stand.passUntil('came back', 60, (v) => v.alarms.some((a) => a.alarm === 'rebound'));
    await stand.pass(3);
    await at('rebound-failed');
  },
  async 'no-limit'(stand, at) {
    await stand.goto('#/live');
    await stand.pass(1);
    await stand.attach(repairDevice());
    await stand.press('connect-device', 'gauge-only');
    await stand.press('gauge-only', 'zero');
    await stand.pass(3);
    await stand.press('zero', 'stage');
    await seat(stand);
    await inflate(stand);
    await stand.hand({ hand: 'valve', open: 0 });
    await stand.pass(10);
    await at('no-limit');
  },
  async 'other-device'(stand, at) {
    await upToHold(stand);
    await stand.pass(10 * 60);
    await stand.attach(repairDevice({}, 'SB-0043'));
    await stand.pass(20);
    await at('other-device');
  },
  async 'full-disk'(stand, at) {
    await upToHold(stand);
    await stand.pass(10 * 60);
    await stand.refuseWrites('QuotaExceededError');
    await stand.passUntil('refused', 60, (v) => v.alarms.some((a) => a.alarm === 'store-fault'));
    await stand.pass(4);
    await at('store-fault');
  },
  async practice(stand, at) {
    await stand.goto('#/jobs');
    await stand.press('practice', 'use-practice');
    await stand.press('use-practice', 'zero');
    await stand.pass(3);
    await stand.press('zero', 'stage');
    await mixed(stand);
    await seat(stand);
    await stand.hand({ hand: 'regulator', bar: 3 });
    await inflate(stand, 0.3);
    await hold(stand);
    await stand.pass(20 * 60);
    await at('practice-hold');
    await stand.hand({ hand: 'valve', open: 1 });
    await stand.passUntil('urgent', 60, (v) => v.alarms.some((a) => a.alarm === 'over-rated'));
    await stand.pass(2);
    await at('practice-urgent');
  },
  async pair(stand, at) {
    await keepJob(stand, true);
    await beginRepair(stand, pairDevice());
    await mixed(stand);
    await stand.hand({ hand: 'regulator', bar: 2.6 });
    await stand.passUntil('supply over', 30, (v) => v.alarms.some((a) => a.alarm === 'supply-over'));
    await stand.pass(2);
    await at('supply-over');
    await stand.hand({ hand: 'regulator', bar: 1.65 });
    // What does not relieve comes down as air is let in.
    await seat(stand);
    await acknowledge(stand);
    await inflate(stand);
    await at('pair-fill');
    await stand.hand({ hand: 'regulator', bar: 2.6 });
    await stand.passUntil('supply over', 30, (v) =>
      v.alarms.some((a) => a.alarm === 'supply-over' && a.priority === 'urgent'),
    );
    await at('supply-over-filling');
    await stand.hand({ hand: 'regulator', bar: 1.65 });
    await stand.pass(2);
    await stand.hand({ hand: 'valve', open: 0 });
    await stand.passUntil('supply is down', 30, (v) => v.alarms.every((a) => a.state === 'returned'));
    await acknowledge(stand);
    await stand.hand({ hand: 'valve', open: 0.45 });
    await stand.fault({ fault: 'second-off', bar: -0.9 });
    await stand.passUntil('sensors differ', 30, (v) => v.alarms.some((a) => a.alarm === 'sensors-differ'));
    await stand.pass(1);
    await at('sensors-differ');
    await stand.fault({ fault: 'second-off', bar: 0 });
    await stand.passUntil('sensors agree', 30, (v) => v.alarms.every((a) => a.state === 'returned'));
    await acknowledge(stand);
    await hold(stand);
    await stand.pass(10 * 60);
    await at('pair-hold');
    await stand.fault({ fault: 'second-lost' });
    await stand.passUntil('second lost', 30, (v) => v.alarms.some((a) => a.alarm === 'second-lost'));
    await stand.pass(2);
    await at('second-lost');
  },
  async swapped(stand, at) {
    await keepJob(stand, true);
    await beginRepair(stand, pairDevice(true));
    await stand.command({ c: 'stage', to: 'seat' });
    await stand.pass(6);
    await stand.hand({ hand: 'regulator', bar: 0.5 });
    await stand.passUntil('swapped', 30, (v) => v.alarms.some((a) => a.alarm === 'sensors-differ'));
    await stand.pass(2);
    await at('sensors-swapped');
  },
};

/** Thrown at a state: nothing of the story behind it is wanted. */
export const ENOUGH = new Error('enough of the story');

/** Plays a story, to its end or to where it is enough, and ends its run. @returns the run's id */
export async function play(stand: Stand, story: StoryName, at: At): Promise<string> {
  // Whatever window the last picture was taken in.
  await stand.page.setViewportSize({ width: 1180, height: 820 });
  try {
    await PLAY[story](stand, at);
  } catch (error) {
    if (error !== ENOUGH) throw error;
  }
  await stand.refuseWrites(null);
  return endRepair(stand);
}

/** The stories in which one of these states comes. */
export const storiesOf = (states: readonly LiveState[]): StoryName[] =>
  (Object.keys(STORIES) as StoryName[]).filter((name) =>
    STORIES[name].some((state) => states.includes(state)),
  );
