import type { ReadingMap } from '../job/reading-map.ts';
import {
  type ChannelFrame,
  type DeviceFrame,
  type HelloFrame,
  PROTOCOL_VERSION,
  type Quantity,
} from './frames.ts';
import type { LinkError } from './status.ts';

/** A complete hello: the device's line and one line a channel. */
export interface Greeting {
  readonly hello: HelloFrame;
  readonly channels: readonly ChannelFrame[];
  /** It was said in place of a source that does not speak the protocol, by this map. */
  readonly map?: ReadingMap;
}

/** What makes a device the one that was read: its name, and the scale of each channel. */
export interface Identity {
  readonly deviceId: string;
  /** Empty: not known yet. */
  readonly channels: readonly ChannelFrame[];
}

export const identityOf = ({ hello, channels }: Greeting): Identity => ({
  deviceId: hello.deviceId,
  channels,
});

/** How often a channel converts is no part of what its counts mean. */
const meaning = ({ rateMilliHz: _, ...rest }: ChannelFrame): string => JSON.stringify(rest);

/** Do counts of these channels mean the same? Quantity, place, signal, partner, resolution, ends and span of each. */
export function isSameScale(a: readonly ChannelFrame[], b: readonly ChannelFrame[]): boolean {
  return a.length === b.length && a.every((c, i) => meaning(c) === meaning(b[i] as ChannelFrame));
}

/** Collects the lines of a hello. A new device line starts over: half of an old hello never mixes with a new one. */
export interface GreetingCollector {
  /** The greeting once its last line came, else null. */
  take(frame: DeviceFrame): Greeting | null;
  reset(): void;
}

export function createGreetingCollector(): GreetingCollector {
  let hello: HelloFrame | null = null;
  let channels: (ChannelFrame | null)[] = [];
  return {
    take(frame) {
      if (frame.t === 'H') {
        hello = frame;
        channels = new Array<ChannelFrame | null>(frame.channels).fill(null);
      } else if (frame.t === 'C' && hello !== null && frame.index < channels.length) {
        channels[frame.index] = frame;
      } else {
        return null;
      }
      const complete = channels.filter((c): c is ChannelFrame => c !== null);
      if (hello === null || complete.length !== channels.length) return null;
      const greeting = { hello, channels: complete };
      hello = null;
      channels = [];
      return greeting;
    },
    reset() {
      hello = null;
      channels = [];
    },
  };
}

/**
 * Why this device cannot be used here, or null. `expected` is the device that the run began with.
 * @param needs what it is read for
 */
export function refusal(
  greeting: Greeting,
  expected: Identity | null,
  needs: Quantity = 'press',
): LinkError | null {
  if (greeting.hello.version !== PROTOCOL_VERSION) return 'version';
  if (!greeting.channels.some((c) => c.quantity === needs))
    return needs === 'press' ? 'no-pressure' : 'no-temperature';
  if (expected === null) return null;
  if (greeting.hello.deviceId !== expected.deviceId) return 'other-device';
  // By the first scale its counts would read wrong and look right.
  if (expected.channels.length > 0 && !isSameScale(greeting.channels, expected.channels)) return 'rescaled';
  return null;
}
