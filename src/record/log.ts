import type { ReadingMap } from '../job/reading-map.ts';
import type { Setup } from '../job/setup.ts';
import type { DeviceFrame, StrayReason } from '../link/frames.ts';
import type { Raw } from '../link/maps/raw.ts';
import type { Command, Notice } from '../watch/inputs.ts';

/**
 * One entry of the input log: everything that entered the run, in order. tUs is the arrival on the run clock
 * (µs since the run was opened) and never descends. Ticks are not logged: they lie on a 10 Hz grid of the run
 * clock (t = k · 100 000 µs) and each is given to the watch before the first entry at or after it, live and in
 * replay alike, so that they follow from the entries. None lies in a gap that is logged itself (a run that lay, a tablet
 * that slept): nothing ran then.
 */
export type LogEntry =
  | FrameEntry
  | { readonly l: 'stray'; readonly tUs: number; readonly reason: StrayReason; readonly bytes: Uint8Array }
  | BesideEntry
  | {
      readonly l: 'beside-stray';
      readonly tUs: number;
      readonly reason: StrayReason;
      readonly bytes: Uint8Array;
    }
  | { readonly l: 'setup'; readonly tUs: number; readonly setup: Setup }
  | { readonly l: 'command'; readonly tUs: number; readonly command: Command }
  | { readonly l: 'notice'; readonly tUs: number; readonly notice: Notice }
  | { readonly l: 'state'; readonly tUs: number; readonly state: KeptState };

/**
 * What the engine remembered when everything before it had entered: nothing of the run hangs on it. Whoever verifies may begin
 * in the middle with it, and holds it against what comes of the part before.
 */
export interface KeptState {
  /** Of the members of `run`: another form is not gone on from. */
  readonly form: number;
  /** Samples of the run that came before it. */
  readonly samples: number;
  /** The engine's own; JSON. */
  readonly run: Readonly<Record<string, unknown>>;
}

/** A state may stand behind a whole number of these samples: a row group of trace.parquet, which so lies in one piece. */
export const STATE_STEP = 16_000;
/** One is kept after every so many, 43 minutes at 50 Hz. */
export const STATE_SAMPLES = 8 * STATE_STEP;

/**
 * A frame of the device; or one made in the place of a source that does not speak the protocol, by a reading map. Then its
 * hello carries the map, and each sample what it was made of: the map gives the sample's counts of that again, and this
 * computer's clock stands for the device's.
 */
export interface FrameEntry {
  readonly l: 'frame';
  readonly tUs: number;
  readonly frame: DeviceFrame;
  /** Of a hello alone. */
  readonly map?: ReadingMap;
  /** Of a sample alone. */
  readonly raw?: Raw;
}

/** The same of the second adapter, which serves for temperatures beside the pressure of the first. */
export interface BesideEntry extends Omit<FrameEntry, 'l'> {
  readonly l: 'beside';
}

/** What stands before the first entry. */
export interface LogHead {
  readonly format: 1;
  readonly engine: number;
  readonly runId: string;
  readonly jobId: string | null;
  readonly practice: boolean;
  /** UTC in ms at t = 0 of the run clock; null for a capture without a clock. */
  readonly utcMs: number | null;
  readonly software: string;
  /**
   * SHA-256 of the newest checkpoint that a witness had signed when the run was opened, hex: the first page, and with it all
   * that follow, is from after that. Left out: none was at hand.
   */
  readonly seen?: string;
}

export const TICK_US = 100_000;
