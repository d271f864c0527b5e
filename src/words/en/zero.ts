import type { WatchEvent } from '../../watch/events.ts';

/** What became of a zero. */
export const ZERO: Record<Extract<WatchEvent, { e: 'zero' }>['reason'], string> = {
  ok: 'Zero taken',
  'too-far': 'Zero refused: too far from zero, the sensor may be damaged or under pressure',
  noisy: 'Zero refused: the reading is not still yet. Wait a few seconds and press again',
  'in-run': 'Zero refused: never during a run under way',
  'no-reading': 'Zero refused: there is no reading',
};
