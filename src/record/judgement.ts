/**
 * The events of a record are its judgements. Signed, they are what whoever held the key wanted them to be: only judging
 * the input log again tells whether they follow from it.
 */
import type { WatchEvent } from '../watch/events.ts';
import type { ByteSource } from './byte-source.ts';
import { canonicalText } from './canonical.ts';
import type { Progress } from './derived-files.ts';

/** Judges pages again that were read before and hold no damage. */
export interface Judge {
  /** Version of the engine that it judges by: of another one's records it can't say anything. */
  readonly engine: number;
  events(pages: ByteSource, progress: Progress): Promise<readonly WatchEvent[]>;
  /** Has them judged elsewhere, beside what is done here, where that can be had; null: nobody did. Never rejects. */
  elsewhere?(): Promise<readonly WatchEvent[] | null>;
}

/** Longer than any run that is watched, µs: what claims more is not gone through second by second. */
export const MOST_RUN_US = 8 * 86_400e6;

/** Events of the first list that the second has not, however often they come. */
export function without(list: readonly WatchEvent[], other: readonly WatchEvent[]): WatchEvent[] {
  const left = new Map<string, number>();
  for (const e of other) {
    const key = canonicalText(e);
    left.set(key, (left.get(key) ?? 0) + 1);
  }
  return list.filter((e) => {
    const key = canonicalText(e);
    const n = left.get(key) ?? 0;
    if (n > 0) left.set(key, n - 1);
    return n === 0;
  });
}
