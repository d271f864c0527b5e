import type { ReadingMap } from '../job/reading-map.ts';
import type { ChannelFrame, HelloFrame } from '../link/frames.ts';

/** A device's hello and its channel lines; null: that line has not come. */
export interface Introduction {
  readonly hello: HelloFrame;
  readonly channels: (ChannelFrame | null)[];
  readonly map: ReadingMap | null;
}

export const introduction = (hello: HelloFrame, map: ReadingMap | null): Introduction => ({
  hello,
  map,
  channels: new Array<ChannelFrame | null>(hello.channels).fill(null),
});

/** Its channel lines, where all have come. */
export function whole({ channels }: Introduction): readonly ChannelFrame[] | null {
  const known = channels.filter((c): c is ChannelFrame => c !== null);
  return known.length === channels.length ? known : null;
}
