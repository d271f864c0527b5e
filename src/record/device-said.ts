/**
 * What the device said of itself, against what the Setup makes of it. Whoever signs a Setup can write into it what he likes,
 * and judgements that follow from it follow; the device's own lines stand beside it in the pages.
 */
import { FIRST_BESIDE } from '../job/beside.ts';
import type { ChannelSetup, Setup } from '../job/setup.ts';
import type { ChannelFrame, DeviceFrame } from '../link/frames.ts';
import { DeviceCounts } from './device-counts.ts';
import type { Finding, Remark } from './findings.ts';
import type { Page } from './page.ts';
import type { RunVisitor } from './reader.ts';

type Scale = Extract<Finding, { f: 'scale' }>;
type Guarded = Extract<Remark, { r: 'device-limit' }>;
type Counts = Extract<Remark, { r: 'device-counts' }>;

/** The device keeps whole millibars, rounded down. */
const LIMIT_SLACK_MBAR = 2;
/** It tells its limit once a second: for shorter than this an order may have been on its way. */
const LEAST_LINES = 60;

/** The plan takes these from the device's line; span, range and calibration are the sensor document's. */
const converterOf = (signal: string, of: ChannelSetup | ChannelFrame): string =>
  [of.index, signal, of.bits, of.rawLo, of.rawHi, of.elLo, of.elHi, of.partner].join();

const signalOf = ({ signal }: ChannelFrame): string => (signal.startsWith('tc-') ? 'thermocouple' : signal);
const ofLine = (line: ChannelFrame): string => converterOf(signalOf(line), line);

/** A Setup numbers the channels of a second adapter on. */
const ofBesideLine = (line: ChannelFrame): string =>
  converterOf(signalOf(line), {
    ...line,
    index: FIRST_BESIDE + line.index,
    partner: line.partner === null ? null : FIRST_BESIDE + line.partner,
  });

/** Is handed every page. */
export class DeviceSaid implements RunVisitor {
  private readonly converters = new Set<string>();
  /** What Setups read by, and where the first one does. */
  private readonly read = new Map<string, Scale>();
  private ceilingBar: number | null = null;
  private readonly counts = new DeviceCounts();
  private lower: { lines: number; deviceBar: number; ceilingBar: number } | null = null;

  page({ header, placed, events }: Page): void {
    for (const event of events) this.counts.event(event);
    for (const { entry } of placed) {
      if (entry.l === 'setup') this.setup(entry.setup, { page: header.index, tUs: entry.tUs });
      else if (entry.l === 'frame') this.frame(entry.frame);
      else if (entry.l === 'beside' && entry.frame.t === 'C') this.converters.add(ofBesideLine(entry.frame));
    }
  }

  private setup(setup: Setup, at: Pick<Scale, 'page' | 'tUs'>): void {
    this.ceilingBar = setup.limits?.ceilingBar ?? null;
    this.counts.setup(setup);
    for (const ch of setup.channels) {
      const key = converterOf(ch.signal, ch);
      if (ch.role !== 'unused' && !this.read.has(key))
        this.read.set(key, { f: 'scale', channel: ch.index, ...at });
    }
  }

  private frame(frame: DeviceFrame): void {
    if (frame.t === 'C') this.converters.add(ofLine(frame));
    if (frame.t === 'H') this.counts.greet(frame);
    if (frame.t !== 'G') return;
    this.counts.guard(frame);
    const { ceilingBar } = this;
    if (frame.limitMbar === null || ceilingBar === null) return;
    if (frame.limitMbar + LIMIT_SLACK_MBAR >= Math.floor(ceilingBar * 1000)) return;
    this.lower = { lines: (this.lower?.lines ?? 0) + 1, deviceBar: frame.limitMbar / 1000, ceilingBar };
  }

  /**
   * Channels that a Setup reads by a converter which no line of the device describes: a Setup has its channels from the
   * device alone, and its lines are noted with them. Asked of sound pages only: a line may lie in those that were damaged.
   */
  findings(): readonly Scale[] {
    const found = new Map<number, Scale>();
    for (const [key, scale] of this.read)
      if (!this.converters.has(key) && !found.has(scale.channel)) found.set(scale.channel, scale);
    return [...found.values()];
  }

  /** A device that kept a lower limit than the ceiling for a minute. One over it raises an alarm of its own. */
  remarks(): readonly (Guarded | Counts)[] {
    const counts = this.counts.remarks();
    if (this.lower === null || this.lower.lines < LEAST_LINES) return counts;
    const { deviceBar, ceilingBar } = this.lower;
    return [{ r: 'device-limit', deviceBar, ceilingBar }, ...counts];
  }
}
