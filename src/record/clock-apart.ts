/**
 * Times that the record says of itself, against those that others say of it: the witness log, its witnesses, and the device's
 * own clock for how long it lasted. A wrong clock is no fault of the record, but whoever reads a date should know of it.
 */
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

const TICK_US = 100;
const WRAP = 2 ** 32;
/** A shorter stretch tells nothing, and of a longer one so much is what waits in a line and what a crystal drifts. */
const LEAST_US = 60e6;
const SLACK_US = 5e6;
const SLACK_SHARE = 0.01;

/**
 * Is handed every page. How long the samples of a stretch took by their arrival and by the device's clock: whoever draws a run
 * out, or together, has to forge both.
 */
export class DeviceClock implements RunVisitor {
  private apartUs = 0;
  private first: { readonly us: number; readonly tick: number } | null = null;
  private lastUs = 0;
  private lastTick = 0;
  private ticks = 0;
  private isHosts = false;

  page({ header, samples, placed }: Page): void {
    const hello = placed.findLast(({ entry }) => entry.l === 'frame' && entry.frame.t === 'H')?.entry;
    // The clock of such samples is this computer's own: it proves nothing of itself.
    if (hello?.l === 'frame') this.isHosts = hello.map !== undefined;
    const breaks = placed.some(
      ({ entry }) =>
        (entry.l === 'notice' && (entry.notice.n === 'gap' || entry.notice.n === 'device')) ||
        (entry.l === 'frame' && entry.frame.t === 'H'),
    );
    if (breaks || (header.flags & PAGE_FLAG.resumed) !== 0) this.close();
    if (breaks || samples.n === 0 || this.isHosts) return;
    for (const i of [0, samples.n - 1]) this.sample(header.firstUs + samples.dt[i]!, samples.tick[i]!);
  }

  private sample(us: number, tick: number): void {
    const step = this.first === null ? 0 : (tick - this.lastTick) >>> 0;
    // Backwards: the device has started anew.
    if (step > WRAP / 2) this.close();
    if (this.first === null) {
      this.first = { us, tick };
      this.ticks = 0;
    } else this.ticks += step;
    this.lastUs = us;
    this.lastTick = tick;
  }

  private close(): void {
    if (this.first === null) return;
    const byArrival = this.lastUs - this.first.us;
    const byDevice = this.ticks * TICK_US;
    const longer = Math.max(byArrival, byDevice);
    const apart = Math.abs(byArrival - byDevice);
    if (longer >= LEAST_US && apart > SLACK_US + SLACK_SHARE * longer) this.apartUs += apart;
    this.first = null;
  }

  remarks(): readonly Apart[] {
    this.close();
    return this.apartUs === 0 ? [] : [{ r: 'clock-apart', what: 'device', seconds: this.apartUs / 1e6 }];
  }
}
