/** Shapes of the record that other rooms name. Types and constants only: nothing here behaves. */
import type { ReadingMap } from '../job/reading-map.ts';
import type { SensorCheck } from '../job/sensor-check.ts';

/** What is wrong with a stretch of a run's pages. */
export type PageFault =
  | 'crc' // the page's CRC-32C differs
  | 'torn' // the file ends, or turns to noise, inside a page
  | 'missing' // page indexes are skipped
  | 'order' // a page index comes again
  | 'chain' // the page does not name the SHA-256 of the page before it
  | 'form' // CRC right, content not of this format
  | 'version' // a page of a later format
  | 'run'; // a page of another run

export interface PageDamage {
  readonly what: PageFault;
  /** Index of the page concerned, as far as it can be known. */
  readonly page: number;
  /** For 'missing', how many pages; else 1. */
  readonly pages: number;
  /** Byte offset in the run's file where the damage lies. */
  readonly offset: number;
  /** Time span concerned on the run clock, µs, from the good pages around; null: unknown. */
  readonly fromUs: number | null;
  readonly toUs: number | null;
}

/** How a run's last page closes it. A file without such a page is an open run. */
export type RunEnd = 'ended' | 'interrupted';

/** The USB numbers of a serial port; null: it has none. */
export interface PortIds {
  readonly usbVendorId: number | null;
  readonly usbProductId: number | null;
  /** By which map what is behind it is read; left out: it speaks the protocol. */
  readonly map?: ReadingMap;
}

/** What the list of runs shows. */
export interface RunSummary {
  readonly runId: string;
  readonly jobId: string | null;
  readonly title: string;
  readonly practice: boolean;
  readonly openedUtcMs: number;
  readonly endedUtcMs: number | null;
  readonly state: 'open' | 'interrupted' | 'ended';
  readonly seconds: number;
  readonly readings: number;
  readonly peakBar: number | null;
  readonly gaps: number;
  readonly alarms: number;
  readonly bytes: number;
  /** Set when the run was sealed; a label, the seal itself is what counts. */
  readonly sealedUtcMs?: number;
  /** Set when its record file was handed out as it is now: saved, written into the shared folder, or said to be sent. */
  readonly sentUtcMs?: number;
  /** Of an open run: by what the port that it is read from is known again; left out where there was none. */
  readonly port?: PortIds;
  /** The same of the second adapter. */
  readonly beside?: PortIds;
  /** Second opinions on the sensors; left out by earlier versions. */
  readonly sensorChecks?: readonly SensorCheck[];
}

/** What a real run left behind when nobody saw its packer empty; kept apart from the run, which may be removed. */
export interface LeftPacker {
  readonly runId: string;
  readonly title: string;
  /** The last pressure that could be trusted, bar; null: not known. */
  readonly bar: number | null;
  /** When it was read, UTC, ms; where nothing is, when air was first let in. */
  readonly utcMs: number;
  /** It is empty: somebody said so, or its own run's vent test showed it. null: it may be full. */
  readonly emptied: { readonly how: 'said' | 'vent'; readonly utcMs: number } | null;
}

/** The part of an append-only file that pure code needs; every store's AppendFile fits. */
export interface ByteFile {
  readonly size: number;
  append(bytes: Uint8Array): void;
  truncate(size: number): void;
  read(offset: number, length: number): Uint8Array;
}

/** A file that can ask the disk to keep what it holds; the stores' own fit. */
export interface RunFile extends ByteFile {
  flush(): void;
  close(): void;
}

/** What a line of the picture is of: the pressure that the guard goes by, the one beside it, or a channel's temperature. */
export const SERIES_NAMES = ['bar', 'second', 'temperature'] as const;
export type SeriesName = (typeof SERIES_NAMES)[number];

export interface SeriesKey {
  readonly name: SeriesName;
  /** Of a temperature; of a second pressure its role. */
  readonly place: string | null;
  readonly channel: number;
}

/** A picture's worth of trace: the same members as the engine's TraceWindow, in µs on the run clock. */
export interface PictureWindow {
  readonly fromUs: number;
  readonly toUs: number;
  /** Run clock, µs, strictly ascending. */
  readonly us: Float64Array;
  /** One a series, in the order of the pyramid's keys; NaN marks a gap. */
  readonly series: readonly {
    readonly key: SeriesKey;
    readonly min: Float32Array;
    readonly max: Float32Array;
  }[];
  /** Readings behind the picture, the neighbours at its edges among them. */
  readonly readings: number;
  /** True when every point is a single reading. */
  readonly exact: boolean;
}

/** A state kept in the pages that is not what comes of the pages before it. */
export interface StateApart {
  readonly page: number;
  /** Run clock, µs. */
  readonly tUs: number;
}
