/**
 * The limit that the device guarded, in its own counts and in mbar, against the scale and calibration that the Setup names:
 * the device was told both by the scale that was in force then, and keeps its lines.
 */
import type { Setup } from '../job/setup.ts';
import type { GuardFrame, HelloFrame } from '../link/frames.ts';
import { countsAt } from '../sensing/counts.ts';
import { applySetup, createSensing, describe, type SensingState } from '../sensing/sensing.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { Remark } from './findings.ts';

type Counts = Extract<Remark, { r: 'device-counts' }>;

/** A zero is told in whole millibars; a count more is rounding. */
const SLACK_BAR = 0.001;
const SLACK_COUNTS = 1;
/** It tells its limit once a second: for shorter than this an order may have been on its way. */
const LEAST_LINES = 60;
/** No honest run has more: what is looked through at each line is bounded. */
const MOST_SCALES = 4;
const MOST_ZEROS = 8;

/** Is told what came in, in its order; the events of a page before its entries. */
export class DeviceCounts {
  /** The newest last. A limit that was told by an earlier one is only ever lowered. */
  private scales: SensingState[] = [];
  /** What the open line read when zeros were taken, together, bar. */
  private readonly zeros = [0];
  private hello: HelloFrame | null = null;
  private apart: Omit<Counts, 'r'> | null = null;

  event(event: WatchEvent): void {
    if (event.e !== 'zero' || !event.taken || this.zeros.length >= MOST_ZEROS) return;
    this.zeros.push((this.zeros[this.zeros.length - 1] ?? 0) + event.offsetBar);
  }

  greet(hello: HelloFrame): void {
    this.hello = hello;
  }

  /** @param setup of a form that is known */
  setup(setup: Setup): void {
    const state = createSensing();
    if (this.hello !== null) describe(state, this.hello, []);
    applySetup(state, setup);
    this.scales = [...this.scales.slice(1 - MOST_SCALES), state];
  }

  guard({ channel, limitCounts, limitMbar }: GuardFrame): void {
    const now = this.scales[this.scales.length - 1];
    if (now === undefined || limitCounts === null || limitMbar === null) return;
    const at = countsAt(now, limitMbar / 1000);
    if (at === null || at.channel !== channel) return;
    if (this.scales.some((scale) => this.isOf(scale, limitCounts, limitMbar / 1000))) return;
    this.apart = {
      lines: (this.apart?.lines ?? 0) + 1,
      mbar: limitMbar,
      counts: limitCounts,
      expected: at.counts,
    };
  }

  private isOf(scale: SensingState, counts: number, bar: number): boolean {
    return this.zeros.some((zero) => {
      const low = countsAt(scale, bar + zero - SLACK_BAR);
      const high = countsAt(scale, bar + zero + SLACK_BAR);
      if (low === null || high === null) return true;
      return counts >= low.counts - SLACK_COUNTS && counts <= high.counts + SLACK_COUNTS;
    });
  }

  remarks(): readonly Counts[] {
    return this.apart === null || this.apart.lines < LEAST_LINES
      ? []
      : [{ r: 'device-counts', ...this.apart }];
  }
}
