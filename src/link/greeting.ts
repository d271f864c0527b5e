import { type ChannelFrame, type DeviceFrame, type HelloFrame, PROTOCOL_VERSION } from './frames.ts';
import type { LinkError } from './status.ts';

/** A complete hello: the device's line and one line a channel. */
export interface Greeting {
  readonly hello: HelloFrame;
  readonly channels: readonly ChannelFrame[];
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

/** Why this device cannot be used here, or null. `deviceId` is the device that the run began with. */
export function refusal(greeting: Greeting, deviceId: string | null): LinkError | null {
  if (greeting.hello.version !== PROTOCOL_VERSION) return 'version';
  if (!greeting.channels.some((c) => c.quantity === 'press')) return 'no-pressure';
  if (deviceId !== null && greeting.hello.deviceId !== deviceId) return 'other-device';
  return null;
}
