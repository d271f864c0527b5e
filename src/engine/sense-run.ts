import type { Setup } from '../job/setup.ts';
import type { SenseRun } from '../record/trace-rows.ts';
import type { Reading } from '../sensing/reading.ts';
import { warmCheck } from '../sensing/warm.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { Command } from '../watch/inputs.ts';
import { besideSetup, takeBeside } from './beside.ts';
import {
  createIntake,
  explainGap,
  type Intake,
  takeChannel,
  takeDevice,
  takeHello,
  takeSample,
  takeSetup,
  takeStray,
} from './intake.ts';
import { retakeZero } from './sensor-checks.ts';

/** Sees the samples of a recorded run as they are sensed again. */
export interface SensedSink {
  /** @param gap samples are missing before this one */
  reading(reading: Reading, gap: boolean): void;
  /** A sample that was not judged. */
  unjudged(tUs: number): void;
}

type Answer<E extends WatchEvent['e']> = Extract<WatchEvent, { e: E }>;

/** What the watch said to Setups and zeros when the run was recorded, an answer each, in order. */
class Told {
  private readonly setups = new Answers<'limits' | 'setup-refused'>();
  private readonly zeros = new Answers<'zero'>();

  constructor(events: readonly WatchEvent[]) {
    for (const event of events) {
      if (event.e === 'zero') this.zeros.add(event);
      else if (event.e === 'limits' || event.e === 'setup-refused') this.setups.add(event);
    }
  }

  /** null: no answer was kept. */
  zero(tUs: number): Answer<'zero'> | null {
    return this.zeros.next(tUs);
  }

  refuses(tUs: number): boolean {
    return this.setups.next(tUs)?.e === 'setup-refused';
  }
}

/** Answers by the time of the entry they were given to. */
class Answers<E extends WatchEvent['e']> {
  private readonly at = new Map<number, Answer<E>[]>();

  add(event: Answer<E>): void {
    const same = this.at.get(event.tUs);
    if (same === undefined) this.at.set(event.tUs, [event]);
    else same.push(event);
  }

  next(tUs: number): Answer<E> | null {
    return this.at.get(tUs)?.shift() ?? null;
  }
}

/**
 * The readings of a recorded run as the engine makes them of its counts. Whether a Setup or a zero was taken is not
 * judged again: the run's own events say it, so that no later judgement gives a record other values, and sensing
 * costs a tenth of judging.
 */
export const sensing =
  (sink: SensedSink): SenseRun =>
  (_, events) => {
    const intake = createIntake();
    const told = new Told(events);
    let gap = false;
    return (entry) => {
      const { tUs } = entry;
      switch (entry.l) {
        case 'frame':
          switch (entry.frame.t) {
            case 'S': {
              const taken = takeSample(intake, entry.frame, tUs);
              if (taken === null || taken.reading === null) {
                if (taken !== null) gap ||= taken.gap !== null;
                sink.unjudged(tUs);
                return null;
              }
              sink.reading(taken.reading, gap || taken.gap !== null);
              gap = false;
              return taken.reading;
            }
            case 'H':
              takeHello(intake, entry.frame, entry.map ?? null);
              return null;
            case 'C':
              takeChannel(intake, entry.frame);
              return null;
            case 'E':
            case 'G':
            case 'R':
              return null;
            default:
              return entry.frame satisfies never;
          }
        case 'beside':
          takeBeside(intake, entry);
          return null;
        case 'beside-stray':
        case 'state':
          return null;
        case 'stray':
          takeStray(intake, entry.reason);
          return null;
        case 'setup':
          setup(intake, entry.setup, told.refuses(tUs));
          return null;
        case 'command':
          command(intake, told, entry.command, tUs);
          return null;
        case 'notice':
          explainGap(intake, entry.notice, tUs);
          if (entry.notice.n === 'gap') gap = true;
          return null;
        default:
          return entry satisfies never;
      }
    };
  };

function setup(intake: Intake, given: Setup, refused: boolean): void {
  takeSetup(intake, given, refused);
  if (!refused) besideSetup(intake);
}

function command(intake: Intake, told: Told, given: Command, tUs: number): void {
  if (given.c === 'zero') {
    const answer = told.zero(tUs);
    if (answer !== null) retakeZero(intake.sensing, answer);
  } else if (given.c === 'take-device') takeDevice(intake, given.deviceId);
  else if (given.c === 'warm-check') warmCheck(intake.sensing, given.place, given.thermometerC);
}
