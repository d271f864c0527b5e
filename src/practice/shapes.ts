/** Shapes of a debrief. Types only. */
import type { DrillCode } from '../rig/drills.ts';
import type { Sensed } from '../rig/truth-log.ts';
import type { AlarmCode, Priority } from '../watch/codes.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { Command, RigSaid } from '../watch/inputs.ts';
import type { Check, Outcome } from './codes.ts';

export interface Told {
  /** Run clock, µs. */
  readonly tUs: number;
  readonly said: RigSaid;
}

export interface Done {
  readonly s: number;
  /** On the rig's clock. */
  readonly atS: number;
  readonly name: string;
  readonly value: number | null;
}

export interface DebriefInput {
  /** Run clock, µs: of the first reading, and of the last entry. */
  readonly firstUs: number;
  readonly lastUs: number;
  readonly said: readonly Told[];
  readonly events: readonly WatchEvent[];
  readonly commands: readonly { readonly tUs: number; readonly command: Command }[];
  /** Of the Setup in force, bar; null: there were no limits. */
  readonly limits: {
    readonly ratedBar: number;
    readonly ceilingBar: number;
    readonly workingBar: number;
  } | null;
  /** The crew ended the run. */
  readonly ended: boolean;
}

/** Something that could be seen or heard. Times are seconds from the first reading. */
export type Sign =
  | { readonly s: number; readonly by: 'instrument'; readonly alarm: AlarmCode; readonly priority: Priority }
  | { readonly s: number; readonly by: 'ear'; readonly sensed: Sensed };

export interface Checked {
  readonly check: Check;
  readonly ok: boolean;
  /** Bar or seconds, as the check has it; null: it has no figure, or it never came to it. */
  readonly value: number | null;
  readonly limit: number | null;
}

/** What a hand three seconds behind the first sign would have reached. */
export interface Could {
  readonly shutS: number;
  readonly peakBar: number;
}

export interface Debrief {
  readonly drill: DrillCode | null;
  /** Code of the site where nothing is drilled. */
  readonly site: string;
  readonly seed: number;
  readonly trainee: string;
  readonly outcome: Outcome | null;
  readonly checks: readonly Checked[];
  readonly lastS: number;
  /** When what is drilled went wrong; null: it never did. */
  readonly faultS: number | null;
  readonly faults: readonly Done[];
  readonly hands: readonly Done[];
  /** All that could be seen or heard from then on, in their order. */
  readonly signs: readonly Sign[];
  readonly firstSign: Sign | null;
  /** The first hand that helped; null: none did, or any would do. */
  readonly actionS: number | null;
  /** Of the packer itself. */
  readonly peakBar: number;
  readonly ratedBar: number | null;
  readonly could: Could | null;
  /** The packer's own pressure over the run, seconds and bar, as often as it changed. */
  readonly packer: readonly { readonly s: number; readonly bar: number }[];
}

/** How a drill ended, as it is kept beside the runs. */
export interface Result {
  readonly runId: string;
  readonly drill: DrillCode;
  /** As it was said when the run was opened; empty: nobody was named. */
  readonly trainee: string;
  readonly outcome: Outcome;
  readonly utcMs: number;
}
