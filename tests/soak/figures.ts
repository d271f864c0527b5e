/** What a soak measured. */

/** A day of device time through the engine in Node, on a clock that only the soak moves. */
export interface NodeSoak {
  readonly hours: number;
  readonly rateHz: number;
  readonly readings: number;
  readonly recordBytes: number;
  readonly wallS: number;
  /** Used heap after a forced collection, at these hours of device time. */
  readonly heap: readonly { readonly hour: number; readonly bytes: number }[];
  readonly load: number;
}

/** Real time in Chromium. */
export interface PageSoak {
  readonly minutes: number;
  readonly readings: number;
  /** After a forced collection; renderer: resident memory of the page's process. */
  readonly samples: readonly {
    readonly minute: number;
    readonly pageBytes: number;
    readonly workerBytes: number;
    readonly rendererBytes: number;
  }[];
  readonly lostBytes: number;
  readonly alarms: readonly string[];
  readonly loads: readonly number[];
}

/** By how much the last measure is over the first, bytes. */
export function growth(bytes: readonly number[]): number {
  return (bytes.at(-1) ?? Number.NaN) - (bytes[0] ?? Number.NaN);
}
