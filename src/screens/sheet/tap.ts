import type { Tap } from '../../job/codes.ts';
import { pressureRoles } from '../../job/pressure-roles.ts';
import type { ChannelFrame } from '../../link/frames.ts';

/** A device whose pressure is taken at the packer says so; a tap that the crew named itself is theirs. */
export function suggestedTap(channels: readonly Pick<ChannelFrame, 'quantity' | 'place' | 'signal'>[]): Tap {
  const taken = channels[pressureRoles(channels).indexOf('pressure')];
  return taken?.place === 'packer' ? 'packer' : 'unknown';
}
