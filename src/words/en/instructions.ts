import type { Stage } from '../../watch/codes.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** One sentence for the crew, and a second that stands in grey under it. */
export interface Instruction {
  readonly say: string;
  readonly besides: string;
}

/** What an instruction may name; each takes what it needs, in bar and seconds. */
export interface Told {
  readonly bar?: number | null;
  readonly s?: number | null;
  readonly units?: DisplayUnits;
}

type Say = (told?: Told) => Instruction;

/** Durations shorter than this have tenths of a second, s. */
const TENTHS_S = 3;
const NOBODY = 'Nobody in line with the pipe or over the opening.';
const NO_PLUG = 'Nobody near the plugs: one can be thrown out.';
const KINK = 'A kink can hide air: pull slowly by the rope, nobody in line with the pipe.';
const LEAVE = 'Leave the valve shut.';
/** Where it is only inferred that a hand has shut it. */
const SHUT_LEAVE = 'Shut the valve, leave it shut.';

/**
 * What to do now, by stage and state. 'Ready at the valve' and 'Leave the valve shut' share no word but the valve: a
 * hand that goes to it and one that stays away must not be told by two that look alike. A count stands first, so that
 * an order read short does not mean 'now'. Nothing here says that anything is safe or cured.
 */
export function instructions(f: Format) {
  const always =
    (say: string, besides: string): Say =>
    () => ({ say, besides });
  const to = ({ bar, units = METRIC }: Told = {}): string | null =>
    bar === undefined || bar === null ? null : f.pressure(bar, units);
  /** A count goes by whole seconds, to its end: 'in 2.0 s' after 'in 3 s' looks like another number. */
  const time = ({ s }: Told = {}): string | null =>
    s === undefined || s === null ? null : s < TENTHS_S ? `${f.fixed(s, 0)}\u00a0s` : f.duration(s);
  /** Rounded down, to the minute where seconds would only draw the eye: as the time slot has it. */
  const timeLeft = ({ s }: Told = {}): string | null =>
    s === undefined || s === null
      ? null
      : s < 600
        ? f.duration(Math.floor(Math.max(0, s)))
        : `${Math.floor(s / 60)}\u00a0min`;
  const openTo: Say = (told) => {
    const bar = to(told);
    return {
      say: bar === null ? 'Open the valve slowly.' : `Open the valve slowly to ${bar}.`,
      besides: NOBODY,
    };
  };
  const overRated =
    (say: string): Say =>
    (told) => {
      const bar = to(told);
      const was = bar === null ? 'It was over its rating' : `It was at ${bar}, over its rating`;
      return { say, besides: `${was}: inspect the packer before it is used again.` };
    };
  const topUp =
    (besides: string): Say =>
    (told) => {
      const bar = to(told);
      return { say: bar === null ? 'Top up slowly.' : `Top up slowly to ${bar}.`, besides };
    };
  const FIND_LOSS = always(
    'Find the loss first.',
    'Put no air in, keep clear: a hose may be off or the packer torn.',
  );
  const JUMPED = always('Check the dial gauge.', 'The sensor has jumped: put no air in by its reading.');
  const PROVE_FIRST = 'Before it, prove the supply (More, Checks), or skip it.';
  const STANDS = always(
    'Shut the valve, see the dial gauge.',
    'The reading stands still. Is a tap or the sensor’s line shut or blocked? Is the supply on?',
  );
  const NOT_RISING = {
    blocked: always(
      'Shut the valve, see the hose.',
      'The supply stands over the packer and gives nothing. A tap that is shut, or a kink?',
    ),
    level: always(
      'See the regulator.',
      'Supply and reading are one pressure: no more comes. Is it set? Behind a tap at the hose, is there a kink?',
    ),
    escapes: always(
      'Shut the valve, listen for air.',
      'Air flows, no rise is read: a hose off, a leak, a blocked sensor line, or it unfolds.',
    ),
  };
  const stayed = (told?: Told): string => {
    const seen = time(told);
    return seen === null ? 'Stayed at zero.' : `Stayed at zero for ${seen}.`;
  };
  const LOW_ZERO = always(
    'Read the dial gauge.',
    'May hold air: the sensor reads too low, its zero is no zero. Nobody at the packer.',
  );
  /**
   * How to pull, and what was seen, never that it is empty. That it may hold air stands in capitals under the pressure;
   * said here again it told nobody what to do.
   */
  const pull: Say = (told) => ({ say: 'Nobody in line, pull slowly.', besides: `${stayed(told)} ${KINK}` });

  /** Of an air test: to a pressure in the small unit. */
  const slowly =
    (what: string, besides: string): Say =>
    ({ bar, units = METRIC } = {}) => ({
      say:
        bar === undefined || bar === null
          ? `${what} slowly.`
          : `${what} slowly to ${f.testPressure(bar, units)}.`,
      besides,
    });

  const INSTRUCTIONS = {
    prepare: {
      connect: always('Connect the device.', 'Not connected: no alarms.'),
      'left-open': always(
        'Air off, keep clear.',
        'A packer may be full and nothing watches it. Shut the supply valve, see the dial gauge, connect and resume.',
      ),
      'left-open-seen': always(
        'Air off, keep clear.',
        'A packer may be full, and no limit is watched until the run goes on. See the dial gauge, resume.',
      ),
      'left-full': always(
        'Air off, keep clear.',
        'The packer of an earlier run was not seen empty. Shut the supply valve, see the dial gauge.',
      ),
      resume: always('Resume, or choose the packer.', 'A practice run was not closed.'),
      packer: always('Choose the packer.', 'No limit: no over-pressure warning.'),
      'packer-limited': always('Choose the packer.', 'Until then the ceiling of the run before holds.'),
      zero: always(
        'Open the coupling, then zero.',
        'See that it is open. The reading must stand still near zero.',
      ),
      pressure: always(
        'Let the line down first.',
        'It is under pressure: shut the supply valve, open the vent, keep clear. Never open a coupling now.',
      ),
      'supply-failed': always(
        'Supply not proved: look at Checks.',
        'Leave the hose off the packer until it is known why.',
      ),
      'supply-open': always(
        'Open the supply.',
        'Hose off the packer, its end closed. Open the valve at once and far; hold the hose.',
      ),
      'supply-rises': always('Wait: the supply rises.', 'It must come to rest.'),
      'supply-asked': always(
        'See if the packer is on the hose.',
        'The line fills slower than a hose does. If it is: shut the supply valve at once.',
      ),
      'supply-watch': ((told) => {
        const bar = to(told);
        const left = time(told);
        return {
          say: left === null ? 'Wait: the creep is watched.' : `Wait ${left}: the creep is watched.`,
          besides: bar === null ? 'Touch nothing.' : `It stands at ${bar}. Touch nothing.`,
        };
      }) as Say,
      'supply-lower': ((told) => {
        const bar = to(told);
        return {
          say: 'Lower the regulator, do not couple.',
          besides:
            bar === null
              ? 'The supply stands over the ceiling. Let a little out first: it may have overshot.'
              : `The supply stands at ${bar}, over the ceiling. Let a little out first: it may have overshot.`,
        };
      }) as Say,
      'supply-shut': ((told) => {
        const bar = to(told);
        return {
          say: 'Shut the supply valve, then press.',
          besides:
            bar === null ? 'The line must hold what it has.' : `It stood at ${bar}. The line must hold it.`,
        };
      }) as Say,
      'supply-tight': ((told) => {
        const left = time(told);
        return {
          say: 'Wait: the valve stays shut.',
          besides: left === null ? 'Does the line hold?' : `Does the line hold for ${left} more?`,
        };
      }) as Say,
      'supply-vent': ((told) => {
        const bar = to(told);
        return {
          say: 'Open the vent: empty the line.',
          besides: bar === null ? 'The supply is proved.' : `The supply is proved, ${bar}.`,
        };
      }) as Say,
      checklist: always(
        'Answer the safety items.',
        'They are on the checklist, and asked before air goes in.',
      ),
      sound: always('Test the alarm’s sound.', 'Once a day, before air goes in: listen at the valve.'),
      warm: always('Warm the probes in the hand.', 'Before the resin is mixed, each beside a thermometer.'),
      mix: always('Mix the resin, then press.', 'The press starts the pot-life clock.'),
      'mix-unproved': always(
        'Mix the resin, then press.',
        `${PROVE_FIRST} The press starts the pot-life clock.`,
      ),
      'ready-unproved': always('Couple the hose, then start.', `${PROVE_FIRST} ${NOBODY}`),
      ready: ((told) => {
        const left = timeLeft(told);
        return {
          // The time alone was read as an order to let air in.
          say: left === null ? 'Couple the hose, then start.' : `Start seating within ${left}.`,
          besides: `Couple the hose, valve shut. ${NOBODY}`,
        };
      }) as Say,
    },
    seat: {
      open: (told) => ({ ...openTo(told), besides: `The hose is coupled to the packer. ${NOBODY}` }),
      'was-over-rated': overRated('Let the packer down fully.'),
      stands: STANDS,
      ...NOT_RISING,
      shut: always('Shut the valve.', 'Seat pressure is reached.'),
      'find-loss': FIND_LOSS,
      jumped: JUMPED,
      settle: ((told) => {
        const left = time(told);
        return {
          say: SHUT_LEAVE,
          besides: left === null ? 'It settles.' : `It settles. Read the dial gauge in ${left}.`,
        };
      }) as Say,
      compare: always('Type what the dial gauge shows.', 'Valve shut meanwhile.'),
      compared: always('Start inflating.', 'Dial gauge and sensor agree.'),
      differs: always('Find which gauge is wrong.', 'Until then believe the higher one.'),
    },
    inflate: {
      open: openTo,
      stands: STANDS,
      ...NOT_RISING,
      'was-over-rated': overRated('Let the packer down fully.'),
      'find-loss': FIND_LOSS,
      jumped: JUMPED,
      ready: always('Ready at the valve.', 'A count comes before it is to be shut.'),
      'count-down': ((told) => ({
        say: `In ${time(told) ?? 'a moment'}: shut the valve.`,
        besides: NOBODY,
      })) as Say,
      'shut-now': always('Shut the valve now.', 'Then leave it shut.'),
      'too-fast': ((told) => {
        const late = to(told);
        return {
          say: 'Too fast: throttle the valve.',
          besides: late === null ? 'A hand would be too late.' : `A hand would be late by ${late}.`,
        };
      }) as Say,
      uncounted: always('Ready at the valve.', 'No count: the rise is not steady. Go by the pressure.'),
      'reads-low': ((told) => {
        const bar = to(told);
        return {
          say: bar === null ? 'Go by the dial gauge.' : `Go by the dial gauge, to ${bar}.`,
          besides: 'The sensor reads too low: its number, its ceiling and its count are wrong.',
        };
      }) as Say,
      'no-limit': always('Go by the packer’s plate.', 'No limit: no over-pressure warning.'),
      'in-band': always(SHUT_LEAVE, 'In the working band and still: start the hold.'),
      over: ((told) => {
        const bar = to(told);
        return {
          say: bar === null ? 'Open the vent a little.' : `Let out slowly to ${bar}.`,
          besides: 'Over the working band. Shut the supply valve first.',
        };
      }) as Say,
    },
    hold: {
      'was-over-rated': overRated('Let the packer down fully.'),
      'top-up': topUp('Under the hold floor: the sleeve may come off the wall.'),
      'top-up-soon': topUp('It falls towards the hold floor. Find the leak.'),
      'top-up-unknown': topUp('It leaks, and the hold floor is not known. Find the leak.'),
      'leak-slow': always('Find the leak.', 'No top-up yet: the cure time comes before the hold floor.'),
      'reads-low': always(
        'Read the dial gauge.',
        'The sensor reads too low: no air by its number. Type what the gauge shows.',
      ),
      unread: always('Go by the dial gauge.', 'The reading stands still: nothing is watched by it.'),
      'leak-high': ((told) => {
        const bar = to(told);
        return {
          say: 'Find the leak.',
          besides: bar === null ? 'No top-up.' : `No top-up: it is not under ${bar}.`,
        };
      }) as Say,
      'find-loss': FIND_LOSS,
      jumped: JUMPED,
      'vent-open': always(
        'Shut the vent, or say let-down.',
        'The vent was said open: the packer empties. Nobody at the packer.',
      ),
      keep: always(LEAVE, 'Check this screen often.'),
      lift: ((told) => {
        const bar = to(told);
        return {
          say: LEAVE,
          besides:
            bar === null
              ? 'Cure heat will raise the pressure.'
              : `Cure heat will raise the pressure to ${bar}.`,
        };
      }) as Say,
      met: always('Feel the witness sample.', 'The one kept at pipe temperature. Is it hard?'),
      soft: always(LEAVE, 'The witness sample is not hard. Feel it again later.'),
      warm: always('Feel the witness sample.', 'The one that was noted was not kept at pipe temperature.'),
      early: always(LEAVE, 'The sample is noted as hard, the cure time is not reached.'),
      doubted: always(
        'See where the sample was kept.',
        'Hard far too early: kept warmer than the pipe, or of another resin? Leave the packer under pressure.',
      ),
      hard: always('Start let-down.', 'Sample noted as hard, cure time by the data sheet reached.'),
      'cure-not-judged': always(
        'Feel the witness sample.',
        'The resin cures by light: look whether all of it is hard.',
      ),
    },
    'let-down': {
      open: always('Let it down slowly.', 'A line at zero is not an empty packer.'),
      shut: always('Shut the vent: test.', 'A line at zero is not an empty packer.'),
      wait: ((told) => {
        const left = time(told);
        return {
          say: 'Wait: the vent stays shut.',
          besides:
            left === null
              ? 'The reading must stay at zero.'
              : `The reading must stay at zero for ${left} more.`,
        };
      }) as Say,
      stayed: (told) => ({ say: stayed(told), besides: KINK }),
      back: always('Open the vent again.', 'The packer is not empty: nobody pulls, nobody uncouples.'),
      'reads-low': always(
        'Read the dial gauge.',
        'The sensor reads too low: its zero is no zero. Go on letting down, type what the gauge shows.',
      ),
      broken: always('Vent to zero, then test again.', 'The test broke off and says nothing.'),
      lost: always('Keep clear.', 'No reading: treat the packer as full.'),
    },
    done: {
      stayed: pull,
      'was-over-rated': overRated('May hold air.'),
      'reads-low': LOW_ZERO,
      untested: always('Vent, shut the vent, test.', 'May hold air: no test has seen it stay at zero.'),
      unseen: always(
        'Treat the packer as full.',
        'The sensor does not see it here: a line at zero says nothing of it.',
      ),
      pressure: always('Still under pressure.', 'Let down before anything is moved.'),
    },
    'air-test': {
      none: always('No air test is planned.', 'The job sheet names its method. Finish, or name one.'),
      coarse: always(
        'Use a finer sensor.',
        'Its uncertainty is over a tenth of the allowed drop: the plan says which would do.',
      ),
      plugs: always('Do not test with air here.', 'Groundwater asks for more air than is put on pipe plugs.'),
      begin: always(
        'Set and brace both plugs.',
        'Packer out, pipe empty. A plug can be thrown out: nobody in its line or in the manhole.',
      ),
      fill: slowly('Let air in', `Watch this number all the way. ${NO_PLUG}`),
      'top-up': slowly('Top up', `Under the test pressure the time to settle stands still. ${NO_PLUG}`),
      stabilise: always(SHUT_LEAVE, `The air settles. ${NO_PLUG}`),
      'let-out': slowly(
        'Let out',
        'Then shut vent and supply valve, take the supply off: the time begins by itself.',
      ),
      'bring-up': slowly('Let air in', 'Then shut it, take the supply off: the time begins by itself.'),
      settle: always('Touch nothing.', 'It stands at the test pressure: the time begins by itself.'),
      timing: always('Touch nothing.', `The drop is timed. ${NO_PLUG}`),
      vent: always('Open the vent: all air out.', NO_PLUG),
      passed: always(
        'Release the plugs slowly.',
        'Passed. At zero a kinked hose may still hide air: stay out of their line.',
      ),
      failed: always('Find where air goes.', 'Failed. Plugs and hoses leak, too: soap them, test again.'),
      unsaid: always(
        'Wait longer, then test again.',
        'It cannot be said whether it holds: let the air take the pipe’s temperature, shade the sensor.',
      ),
      broken: always('Test again, or finish.', 'The test broke off and says nothing.'),
    },
    abandoned: {
      pressure: always('Let it down slowly.', 'Before anything is moved. Nobody at the packer.'),
      'reads-low': LOW_ZERO,
      zero: always('Shut the vent, then test.', 'May hold air: test before anything is moved.'),
      stayed: pull,
    },
  } satisfies Record<Stage, Record<string, Say>>;

  return { INSTRUCTIONS };
}
