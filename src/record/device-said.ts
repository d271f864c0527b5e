/**
 * What the device said of itself, against what the Setup makes of it. Whoever signs a Setup can write into it what he likes,
 * and judgements that follow from it follow; the device's own lines stand beside it in the pages.
 */
import type { ChannelSetup, Setup } from '../job/setup.ts';
import type { ChannelFrame, DeviceFrame } from '../link/frames.ts';
import type { Finding, Remark } from './findings.ts';
import type { Page } from './page.ts';
import type { RunVisitor } from './reader.ts';

type Scale = Extract<Finding, { f: 'scale' }>;
type Guarded = Extract<Remark, { r: 'device-limit' }>;

/** The device keeps whole millibars, rounded down. */
const LIMIT_SLACK_MBAR = 2;
/** It tells its limit once a second: for shorter than this an order may have been on its way. */
const LEAST_LINES = 60;

/** The plan takes these from the device's line; span, range and calibration are the sensor document's. */
const isOfLine = (ch: ChannelSetup, line: ChannelFrame): boolean =>
  ch.signal === (line.signal.startsWith('tc-') ? 'thermocouple' : line.signal) &&
  ch.bits === line.bits &&
  ch.rawLo === line.rawLo &&
  ch.rawHi === line.rawHi &&
  ch.elLo === line.elLo &&
  ch.elHi === line.elHi &&
  ch.partner === line.partner;

/** Is handed every page. */
export class DeviceSaid implements RunVisitor {
  private readonly lines = new Map<number, ChannelFrame[]>();
  private readonly setups: { readonly page: number; readonly tUs: number; readonly setup: Setup }[] = [];
  private lower: { lines: number; deviceBar: number; ceilingBar: number } | null = null;

  page({ header, placed }: Page): void {
    for (const { entry } of placed) {
      if (entry.l === 'setup') this.setups.push({ page: header.index, tUs: entry.tUs, setup: entry.setup });
      else if (entry.l === 'frame') this.frame(entry.frame);
    }
  }

  private frame(frame: DeviceFrame): void {
    if (frame.t === 'C') {
      const known = this.lines.get(frame.index) ?? [];
      this.lines.set(frame.index, [...known, frame]);
      return;
    }
    const ceilingBar = this.setups[this.setups.length - 1]?.setup.limits?.ceilingBar ?? null;
    if (frame.t !== 'G' || frame.limitMbar === null || ceilingBar === null) return;
    if (frame.limitMbar + LIMIT_SLACK_MBAR >= Math.floor(ceilingBar * 1000)) return;
    this.lower = { lines: (this.lower?.lines ?? 0) + 1, deviceBar: frame.limitMbar / 1000, ceilingBar };
  }

  /**
   * Channels that a Setup reads by a converter which no line of the device describes. Where the device said nothing of a
   * channel there is nothing to hold against it. Asked of sound pages only: a line may lie in those that were damaged.
   */
  findings(): readonly Scale[] {
    const found: Scale[] = [];
    for (const { page, tUs, setup } of this.setups)
      for (const ch of setup.channels) {
        const lines = this.lines.get(ch.index);
        if (ch.role === 'unused' || lines === undefined || lines.some((line) => isOfLine(ch, line))) continue;
        if (!found.some((f) => f.channel === ch.index))
          found.push({ f: 'scale', channel: ch.index, page, tUs });
      }
    return found;
  }

  /** A device that kept a lower limit than the ceiling for a minute. One over it raises an alarm of its own. */
  remarks(): readonly Guarded[] {
    if (this.lower === null || this.lower.lines < LEAST_LINES) return [];
    const { deviceBar, ceilingBar } = this.lower;
    return [{ r: 'device-limit', deviceBar, ceilingBar }];
  }
}
