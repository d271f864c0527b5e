import type { Tap } from '../../job/codes.ts';
import type { ChannelFrame } from '../../link/frames.ts';

/** A device whose pressure is taken at the packer says so; a tap that the crew named itself is theirs. */
export function suggestedTap(channels: readonly Pick<ChannelFrame, 'quantity' | 'place'>[]): Tap {
  const taken = channels.find((c) => c.quantity === 'press');
  return taken?.place === 'packer' ? 'packer' : 'unknown';
}
