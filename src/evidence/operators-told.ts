import type { WatchEvent } from '../watch/events.ts';

/** Whoever was named at the computer, each once, in the order of their first time. */
export const operatorsOf = (events: readonly WatchEvent[]): readonly string[] => [
  ...new Set(events.flatMap((e) => (e.e === 'operator' && e.by !== '' ? [e.by] : []))),
];
