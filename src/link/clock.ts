/** Sequence number and device clock, unwrapped: both are counted modulo 2^32 on the wire. */

/**
 * The number congruent to `raw` modulo 2^32 that lies nearest to `previous` (itself unwrapped): at most 2^31
 * away, which is 59.6 h of ticks, so that a hold with a night between two samples is not ambiguous. Smaller than
 * `previous` when the counter went back.
 */
export function unwrap32(previous: number, raw: number): number {
  return previous + ((raw - (previous % 0x100000000)) | 0);
}

/** The two counters of a sample; unwrapped where they are remembered. */
export interface SampleCounters {
  readonly seq: number;
  readonly tick: number;
}

export type SampleOrder =
  | 'first'
  | 'next'
  | 'gap' // samples are missing in between
  | 'repeat' // the same sequence number again
  | 'back'; // sequence or clock went back: the device started anew, or lies

export interface SampleStep extends SampleCounters {
  readonly order: SampleOrder;
  /** Samples missing before this one; 0 but for 'gap'. */
  readonly missed: number;
}

/**
 * Follows the samples of one boot (specification, part 6): what a sample is after `last`, with its counters unwrapped.
 * After 'repeat' or 'back' the owner keeps the last one, or null where the device has started anew.
 */
export function sampleStep(last: SampleCounters | null, sample: SampleCounters): SampleStep {
  if (last === null) return { order: 'first', seq: sample.seq, tick: sample.tick, missed: 0 };
  const seq = unwrap32(last.seq, sample.seq);
  const tick = unwrap32(last.tick, sample.tick);
  const ahead = seq - last.seq;
  if (ahead === 0) return { order: 'repeat', seq, tick, missed: 0 };
  if (ahead < 0 || tick <= last.tick) return { order: 'back', seq, tick, missed: 0 };
  return { order: ahead === 1 ? 'next' : 'gap', seq, tick, missed: ahead - 1 };
}
