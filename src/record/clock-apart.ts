/**
 * Times that the record says of itself, against those that others say of it: the witness log, its witnesses, and the device's
 * own clock for how long it lasted. A wrong clock is no fault of the record, but whoever reads a date should know of it.
 */

import type { TextEntry } from './entry-text.ts';
import type { Remark } from './findings.ts';
import { PAGE_FLAG } from './layout.ts';
import type { Manifest } from './manifest.ts';
import type { Page } from './page.ts';
import type { RunVisitor } from './reader.ts';
import type { Witnessed } from './witness/check-proof.ts';

type Apart = Extract<Remark, { r: 'clock-apart' }>;

/** A leaf is noted when it happens; what was heard before a run was opened is of it too, ms (common practice, no source). */
const LOG_SLACK_MS = 600_000;
/** Clocks that nobody sets together, ms (common practice, no source). */
const WITNESS_SLACK_MS = 120_000;

/** @param witnessed where it holds */
export function apartFromWitnesses(manifest: Manifest, witnessed: Witnessed): readonly Apart[] {
  const found: Apart[] = [];
  const note = (what: Apart['what'], ms: number, slack: number): void => {
    if (ms > slack) found.push({ r: 'clock-apart', what, seconds: ms / 1000 });
  };
  const { openedUtcMs, endedUtcMs, sealedUtcMs } = manifest;
  if (openedUtcMs !== null && witnessed.openedUtcMs !== null)
    note('opened', Math.abs(openedUtcMs - witnessed.openedUtcMs), LOG_SLACK_MS);
  if (endedUtcMs !== null && witnessed.endedUtcMs !== null)
    note('ended', Math.abs(endedUtcMs - witnessed.endedUtcMs), LOG_SLACK_MS);
  // It may be noted long after it, by whoever builds the file; before it, it can't.
  if (witnessed.sealedUtcMs !== null) note('sealed', sealedUtcMs - witnessed.sealedUtcMs, LOG_SLACK_MS);
  for (const { utcMs } of witnessed.notBefore)
    if (openedUtcMs !== null) note('not-before', utcMs - openedUtcMs, WITNESS_SLACK_MS);
  for (const { utcMs } of witnessed.notAfter) note('not-after', sealedUtcMs - utcMs, WITNESS_SLACK_MS);
  return found;
}

/** Nothing ran meanwhile: the run's clock was set by another one. */
const isBreak = (entry: TextEntry): boolean =>
  entry.l === 'notice' &&
  (entry.notice.n === 'clock-jump' ||
    (entry.notice.n === 'gap' && (entry.notice.reason === 'clock' || entry.notice.reason === 'resumed')));

/** What a computer's clock may be ahead of its own count of time: set right by a network, or a page that was cut late, ms. */
const PAGES_SLACK_MS = 10_000;
const PAGES_SLACK_SHARE = 0.001;
/** Back by more is told by itself (clock-order). */
const BACK_MS = 1000;

/**
 * Is handed every page. The wall clock of each page against that of the opening and the run's own time: whoever gives a run
 * another date has to write it into every page.
 */
export class WallClock implements RunVisitor {
  private openedUtcMs: number | null = null;
  /** From when on the two are held against each other. */
  private since: { readonly wallMs: number; readonly runMs: number } | null = null;
  private before = Number.NEGATIVE_INFINITY;
  private aheadMs = 0;

  page({ header, head, placed }: Page): void {
    if (head !== null) this.openedUtcMs = head.utcMs;
    // A page of events alone tells the time of an entry that came long before.
    if (header.utcMs === null || header.samples + placed.length === 0) return;
    const [wallMs, runMs] = [header.utcMs, header.lastUs / 1000];
    const isSet = wallMs - runMs < this.before - BACK_MS;
    this.before = wallMs - runMs;
    if (isSet || placed.some(({ entry }) => isBreak(entry)) || (header.flags & PAGE_FLAG.resumed) !== 0)
      this.since = { wallMs, runMs };
    this.since ??= this.openedUtcMs === null ? { wallMs, runMs } : { wallMs: this.openedUtcMs, runMs: 0 };
    const ran = runMs - this.since.runMs;
    const apart = wallMs - this.since.wallMs - ran;
    if (apart > PAGES_SLACK_MS + PAGES_SLACK_SHARE * ran) this.aheadMs = Math.max(this.aheadMs, apart);
  }

  remarks(): readonly Apart[] {
    return this.aheadMs === 0 ? [] : [{ r: 'clock-apart', what: 'pages', seconds: this.aheadMs / 1000 }];
  }
}

const TICK_US = 100;
const WRAP = 2 ** 32;
/** A shorter stretch tells nothing, and of a longer one so much is what waits in a line and what a crystal drifts. */
const LEAST_US = 60e6;
const SLACK_US = 5e6;
const SLACK_SHARE = 0.01;
/** What waits in a line comes in less time than this: the least delay of one such stretch is the same as that of the next. */
const WINDOW_US = 60e6;
const STEP_US = 1e6;

interface Step {
  readonly us: number;
  /** By how much the arrivals lie later than the device's clock from there on, µs; below zero: earlier. */
  readonly byUs: number;
}

/**
 * Samples that arrive later by the device's own clock from some moment on, and stay so: time was taken out of one of the two. A
 * line that waits catches up.
 */
class Delay {
  private fromUs = 0;
  private least = 0;
  private before: number | null = null;
  private last: number | null = null;
  private jump: Step = { us: 0, byUs: 0 };
  step: Step | null = null;

  begin(us: number): void {
    this.fromUs = us;
    this.least = 0;
    this.before = null;
    this.last = null;
    this.jump = { us, byUs: 0 };
  }

  /** @param delay of the arrival, over that of the stretch's first sample, µs */
  add(us: number, delay: number): void {
    const byUs = delay - (this.last ?? delay);
    this.last = delay;
    if (Math.abs(byUs) > Math.abs(this.jump.byUs)) this.jump = { us, byUs };
    if (us - this.fromUs < WINDOW_US) {
      this.least = Math.min(this.least, delay);
      return;
    }
    this.end();
    this.fromUs = us;
    this.least = delay;
  }

  /** Of a stretch that is over: its last minute counts where it was long enough for the line to catch up. */
  close(us: number): void {
    if (us - this.fromUs > WINDOW_US / 2) this.end();
  }

  private end(): void {
    const byUs = this.least - (this.before ?? this.least);
    if (Math.abs(byUs) > STEP_US + SLACK_SHARE * WINDOW_US) {
      if (Math.abs(byUs) > Math.abs(this.step?.byUs ?? 0)) this.step = { us: this.jump.us, byUs };
      this.jump = { us: 0, byUs: 0 };
    }
    this.before = this.least;
  }
}

/**
 * Is handed every page. How long the samples of a stretch took by their arrival and by the device's clock: whoever draws a run
 * out, or together, or cuts a piece out of it, has to forge both.
 */
export class DeviceClock implements RunVisitor {
  private apartUs = 0;
  private first: { readonly us: number; readonly tick: number } | null = null;
  private lastUs = 0;
  private lastTick = 0;
  private ticks = 0;
  private isHosts = false;
  private boot: string | null = null;
  private readonly delay = new Delay();

  page({ header, samples, placed }: Page): void {
    const hello = placed.findLast(({ entry }) => entry.l === 'frame' && entry.frame.t === 'H')?.entry;
    // The clock of such samples is this computer's own: it proves nothing of itself.
    if (hello?.l === 'frame') this.isHosts = hello.map !== undefined;
    // Lost samples are no break: the device's clock went on. Nor is a hello of the same start.
    const breaks = placed.some(({ entry }) => isBreak(entry) || this.isOtherStart(entry));
    if (breaks || (header.flags & PAGE_FLAG.resumed) !== 0) this.close();
    if (breaks || samples.n === 0 || this.isHosts) return;
    for (const i of [0, samples.n - 1]) this.sample(header.firstUs + samples.dt[i]!, samples.tick[i]!);
  }

  private isOtherStart(entry: TextEntry): boolean {
    if (entry.l !== 'frame' || entry.frame.t !== 'H') return false;
    const { deviceId, bootId } = entry.frame;
    const boot = `${deviceId} ${bootId}`;
    const isOther = this.boot !== boot;
    this.boot = boot;
    return isOther;
  }

  private sample(us: number, tick: number): void {
    const step = this.first === null ? 0 : (tick - this.lastTick) >>> 0;
    // Backwards: the device has started anew.
    if (step > WRAP / 2) this.close();
    if (this.first === null) {
      this.first = { us, tick };
      this.ticks = 0;
      this.delay.begin(us);
    } else this.ticks += step;
    this.delay.add(us, us - this.first.us - this.ticks * TICK_US);
    this.lastUs = us;
    this.lastTick = tick;
  }

  private close(): void {
    if (this.first === null) return;
    this.delay.close(this.lastUs);
    const byArrival = this.lastUs - this.first.us;
    const byDevice = this.ticks * TICK_US;
    const longer = Math.max(byArrival, byDevice);
    const apart = Math.abs(byArrival - byDevice);
    if (longer >= LEAST_US && apart > SLACK_US + SLACK_SHARE * longer) this.apartUs += apart;
    this.first = null;
  }

  remarks(): readonly Apart[] {
    this.close();
    const { step } = this.delay;
    if (this.apartUs > 0) return [{ r: 'clock-apart', what: 'device', seconds: this.apartUs / 1e6 }];
    if (step === null) return [];
    return [{ r: 'clock-apart', what: 'device-step', seconds: Math.abs(step.byUs) / 1e6, tUs: step.us }];
  }
}
