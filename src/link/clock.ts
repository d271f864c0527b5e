/** Sequence number and device clock, unwrapped: both are counted modulo 2^32 on the wire. */

import { TICK_S } from './frames.ts';

/**
 * The number congruent to `raw` modulo 2^32 that lies nearest to `previous` (itself unwrapped): at most 2^31
 * away, which is 59.6 h of ticks, so that a hold with a night between two samples is not ambiguous. Smaller than
 * `previous` when the counter went back.
 */
export function unwrap32(previous: number, raw: number): number {
  return previous + ((raw - (previous % 0x100000000)) | 0);
}

/** The same for a counter of 16 bits (numbers of commands and events). */
export function unwrap16(previous: number, raw: number): number {
  return previous + (((raw - (previous % 0x10000)) << 16) >> 16);
}

export type SampleOrder =
  | 'first'
  | 'next'
  | 'gap' // samples are missing in between
  | 'repeat' // the same sequence number again
  | 'back'; // sequence or clock went back: the device started anew, or lies

export interface SampleStep {
  readonly order: SampleOrder;
  /** Unwrapped since the first sample or the last restart. */
  readonly seq: number;
  readonly tick: number;
  /** Device time in seconds, of the same origin as tick. */
  readonly deviceS: number;
  /** Samples missing before this one; 0 but for 'gap'. */
  readonly missed: number;
}

/**
 * Follows the samples of one boot. After 'repeat' or 'back' the state is left as it was; the owner asks for a
 * hello and calls restart() when the device has a new boot id.
 */
export class SampleClock {
  private seq: number | null = null;
  private tick = 0;

  step(sample: { readonly seq: number; readonly tick: number }): SampleStep {
    if (this.seq === null) {
      this.seq = sample.seq;
      this.tick = sample.tick;
      return this.out('first', sample.seq, sample.tick, 0);
    }
    const seq = unwrap32(this.seq, sample.seq);
    const tick = unwrap32(this.tick, sample.tick);
    const ahead = seq - this.seq;
    if (ahead === 0) return this.out('repeat', seq, tick, 0);
    if (ahead < 0 || tick <= this.tick) return this.out('back', seq, tick, 0);
    this.seq = seq;
    this.tick = tick;
    return this.out(ahead === 1 ? 'next' : 'gap', seq, tick, ahead - 1);
  }

  restart(): void {
    this.seq = null;
    this.tick = 0;
  }

  private out(order: SampleOrder, seq: number, tick: number, missed: number): SampleStep {
    return { order, seq, tick, deviceS: tick * TICK_S, missed };
  }
}
