/** What today's engine says otherwise of an old record. */

import { judgeAgain } from '../engine/judge-again.ts';
import { ENGINE } from '../watch/codes.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { JudgedView } from './messages.ts';
import type { OpenRecord } from './open.ts';

const MOST_SHOWN = 500;

/** Members in a fixed order: canonical JSON of a manifest and the engine's own objects name them differently. */
function keyOf(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(keyOf).join()}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const members = Object.entries(value).filter(([, v]) => v !== undefined);
  members.sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${members.map(([k, v]) => `${JSON.stringify(k)}:${keyOf(v)}`).join()}}`;
}

/** Events of the first list that the second has not, however often they come. */
export function without(list: readonly WatchEvent[], other: readonly WatchEvent[]): WatchEvent[] {
  const left = new Map<string, number>();
  for (const e of other) {
    const key = keyOf(e);
    left.set(key, (left.get(key) ?? 0) + 1);
  }
  return list.filter((e) => {
    const key = keyOf(e);
    const n = left.get(key) ?? 0;
    if (n > 0) left.set(key, n - 1);
    return n === 0;
  });
}

export function differences({ pages, manifest }: OpenRecord): JudgedView {
  const { head, recorded, again } = judgeAgain(pages);
  const then = manifest?.events ?? recorded;
  return {
    engineThen: manifest?.engine ?? head?.engine ?? ENGINE,
    engineNow: ENGINE,
    against: manifest === null ? 'recorded' : 'sealed',
    events: then.length,
    gone: without(then, again).slice(0, MOST_SHOWN),
    fresh: without(again, then).slice(0, MOST_SHOWN),
  };
}
