import type { SecondPressure } from '../../job/codes.ts';
import type { SecondZeroReason, WatchEvent } from '../../watch/events.ts';

/** What became of a zero. */
export const ZERO: Record<Extract<WatchEvent, { e: 'zero' }>['reason'], string> = {
  ok: 'Zero taken',
  'too-far': 'Zero refused: too far from zero, the sensor may be damaged or under pressure',
  noisy: 'Zero refused: the reading is not still yet. Wait a few seconds and press again',
  'in-run': 'Zero refused: never during a run under way',
  'no-reading': 'Zero refused: there is no reading',
};

type Refused = Exclude<SecondZeroReason, 'ok'>;

/** The zero of a second pressure sensor, which is taken with the first where both stand at the air’s own pressure. */
export const ZERO_SECOND = {
  title: 'Zero of the second sensor',
  both: 'Both sensors read an open line: the zero is taken of both.',
  lost: 'The second sensor gives no reading: its zero cannot be taken. Look at its cable.',
  /** It reads no open line. */
  asks: {
    'outlet-pressure': (bar) =>
      `The supply’s sensor reads ${bar}. Shut the supply, let its line down, and its zero is taken too. If no air is on it, it is the wrong sensor or a damaged one.`,
    'check-pressure': (bar) =>
      `The second sensor reads ${bar} with the coupling open. Is air on its line? If not, it is the wrong sensor or a damaged one.`,
  } satisfies Record<SecondPressure, (bar: string) => string>,
  none: 'Not taken yet.',
  taken: (offset: string) => `Taken, offset ${offset}.`,
  refused: {
    'too-far': (bar) => `Not taken: it read ${bar}, which is no open line.`,
    noisy: () => 'Not taken: its reading was not still.',
    'no-reading': () => 'Not taken: it gave no reading.',
  } satisfies Record<Refused, (bar: string) => string>,
  now: 'Zero both now',
};
