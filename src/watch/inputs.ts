import type { CheckSaid } from '../job/checklist.ts';
import type { Place, Setup } from '../job/setup.ts';
import type { DeviceFrame } from '../link/frames.ts';
import type { LinkState } from '../link/status.ts';
import type { Reading, TemperatureReading } from '../sensing/reading.ts';
import type { AlarmCode, GapReason, LineEnd, Stage } from './codes.ts';

export const SUPPLY_WORDS = ['slow-valve', 'packer-on', 'valve-shut', 'turned', 'stop'] as const;
export type SupplyWord = (typeof SUPPLY_WORDS)[number];

/** Of an air test: it begins, with a probe in the air between the plugs or without; it does not hold; it stops. */
export const AIR_TEST_WORDS = ['begin', 'begin-probed', 'not-held', 'stop'] as const;
export type AirTestWord = (typeof AIR_TEST_WORDS)[number];

/** What the operator says. Every one is logged. */
export type Command =
  /** Names the occurrence that was shown: a press that comes late silences no newer one. */
  | { readonly c: 'acknowledge'; readonly alarm: AlarmCode; readonly occurrence: number }
  | { readonly c: 'shelve'; readonly alarm: AlarmCode; readonly seconds: number; readonly reason: string }
  | { readonly c: 'unshelve'; readonly alarm: AlarmCode }
  | { readonly c: 'stage'; readonly to: Stage; readonly reason?: string }
  /** Zero with the coupling seen open; taken from the readings of the last second, refused out of bounds. */
  | { readonly c: 'zero' }
  /** Dial gauge's value at the seat pause. */
  | { readonly c: 'gauge'; readonly bar: number }
  /** Warm-in-hand check against a thermometer. */
  | { readonly c: 'warm-check'; readonly place: Place; readonly thermometerC: number }
  /**
   * Proof of the supply: it begins with how the end of the line is closed. The hand says what no reading shows: that the valve
   * was opened slowly, that it is shut again, that the packer is on the hose, or that the regulator was set anew.
   */
  | { readonly c: 'prove-supply'; readonly end: LineEnd }
  | { readonly c: 'supply'; readonly said: SupplyWord }
  | { readonly c: 'air-test'; readonly said: AirTestWord }
  | { readonly c: 'mixed' }
  /** Another device goes on in the run's place, by the Setup that follows: what was known of the first one is void. */
  | { readonly c: 'take-device'; readonly deviceId: string }
  | { readonly c: 'vent'; readonly open: boolean }
  | { readonly c: 'answer'; readonly question: 'let-down-or-loss'; readonly answer: 'let-down' | 'loss' }
  | { readonly c: 'witness'; readonly hard: boolean; readonly atPipeTemperature: boolean }
  | { readonly c: 'override'; readonly what: string; readonly reason: string }
  /** An item of the job's checklist, with its words (empty: the language's own), so that the record tells it by itself. */
  | {
      readonly c: 'check';
      readonly item: string;
      readonly said: string;
      readonly safety: boolean;
      readonly how: CheckSaid;
      /** What it wants, or why it was gone on without. */
      readonly text: string;
      /** Initials; empty: nobody was named. */
      readonly by: string;
    }
  /** Whose hands the commands are from here on, by initials; empty: nobody is named. */
  | { readonly c: 'operator'; readonly by: string }
  | { readonly c: 'note'; readonly text: string };

/** What the machine says. */
export type Notice =
  | { readonly n: 'link'; readonly state: LinkState }
  | {
      readonly n: 'device';
      readonly what: 'greeted' | 'reset' | 'other' | 'rescaled' | 'taken';
      readonly bootId: number;
      readonly deviceId: string;
    }
  /** How the link to the second adapter stands. */
  | { readonly n: 'beside-link'; readonly state: LinkState }
  /** What the second adapter that said who it is is to the Setup in force. Made of its own lines, never logged. */
  | { readonly n: 'beside-device'; readonly what: 'greeted' | 'other' | 'rescaled' }
  /** The device takes no command though it may stream, or takes them again. */
  | { readonly n: 'answers'; readonly ok: boolean }
  | { readonly n: 'store'; readonly ok: boolean; readonly code: string }
  /** The wall clock was set, or the tablet slept: of itself it says nothing. */
  | { readonly n: 'clock-jump'; readonly seconds: number }
  /**
   * After a clock jump or a resumed run, with the first sample behind missing ones: time since the sample before it
   * by the device's clock (null: it did not run on) and by the run clock. Made of the samples, never logged.
   */
  | { readonly n: 'witness'; readonly deviceS: number | null; readonly runS: number }
  | {
      readonly n: 'gap';
      readonly reason: GapReason;
      readonly fromUs: number;
      readonly toUs: number;
      readonly lost: number;
    }
  | { readonly n: 'stray'; readonly bytes: number }
  /** Of the practice rig, for the debrief: what truly was. The watch takes no notice of it, and no job has it in its log. */
  | { readonly n: 'rig'; readonly said: RigSaid }
  | { readonly n: 'end' };

/** What the practice rig says of itself: pressures gauge, bar; times are seconds of its own clock. */
export type RigSaid =
  /** Which site it is, by its code and seed, and who practises; said where a run begins or is taken up again. */
  | {
      readonly what: 'site';
      readonly atS: number;
      readonly site: string;
      readonly seed: number;
      readonly trainee: string;
    }
  /** What hands did, and what went wrong, by its name and its one figure. */
  | {
      readonly what: 'hand' | 'fault';
      readonly atS: number;
      readonly name: string;
      readonly value: number | null;
    }
  | {
      readonly what: 'truth';
      readonly atS: number;
      readonly packerBar: number;
      readonly lineBar: number;
      readonly supplyBar: number;
      readonly peakBar: number;
      readonly regulatorBar: number;
      readonly valveOpen: number;
      readonly ventOpen: number;
      readonly coupled: boolean;
      readonly cured: number;
      /** What was heard and seen at the site without an instrument. */
      readonly sensed: readonly string[];
    };

/** What the device says of the job beside its samples: its guard and its button. Greeting and replies are the link's. */
export type WatchedFrame = Exclude<DeviceFrame, { readonly t: 'H' | 'C' | 'S' | 'R' }>;

/** Everything that may enter the watch. Time is on the run clock, µs, and never descends. */
export type WatchInput =
  | { readonly i: 'reading'; readonly tUs: number; readonly reading: Reading }
  /** What the second adapter converted anew. */
  | { readonly i: 'beside'; readonly tUs: number; readonly temps: readonly TemperatureReading[] }
  | { readonly i: 'tick'; readonly tUs: number }
  | { readonly i: 'setup'; readonly tUs: number; readonly setup: Setup }
  | { readonly i: 'command'; readonly tUs: number; readonly command: Command }
  | { readonly i: 'notice'; readonly tUs: number; readonly notice: Notice }
  | { readonly i: 'device'; readonly tUs: number; readonly frame: WatchedFrame };
