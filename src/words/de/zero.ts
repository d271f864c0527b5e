import type { SecondPressure } from '../../job/codes.ts';
import type { SecondZeroReason, WatchEvent } from '../../watch/events.ts';

/** What became of a zero. */
export const ZERO: Record<Extract<WatchEvent, { e: 'zero' }>['reason'], string> = {
  ok: 'Genullt',
  'too-far': 'Nicht genullt: zu weit von null, der Sensor ist vielleicht beschädigt oder unter Druck',
  noisy: 'Nicht genullt: der Messwert ist noch nicht ruhig. Ein paar Sekunden warten und nochmal drücken',
  'in-run': 'Nicht genullt: nie während eines laufenden Laufs',
  'no-reading': 'Nicht genullt: es gibt keinen Messwert',
};

type Refused = Exclude<SecondZeroReason, 'ok'>;

/** The zero of a second pressure sensor, which is taken with the first where both stand at the air’s own pressure. */
export const ZERO_SECOND = {
  title: 'Null des zweiten Sensors',
  both: 'Beide Sensoren lesen eine offene Leitung: beide werden genullt.',
  lost: 'Der zweite Sensor liefert keinen Messwert: er lässt sich nicht nullen. Sein Kabel ansehen.',
  /** It reads no open line. */
  asks: {
    'outlet-pressure': (bar) =>
      `Der Sensor der Zuluft zeigt ${bar}. Zuluft zu, ihre Leitung entlüften, dann wird auch er genullt. Ist keine Luft darauf, ist es der falsche Sensor oder ein beschädigter.`,
    'check-pressure': (bar) =>
      `Der zweite Sensor zeigt ${bar} bei offener Kupplung. Ist Luft auf seiner Leitung? Wenn nicht, ist es der falsche Sensor oder ein beschädigter.`,
  } satisfies Record<SecondPressure, (bar: string) => string>,
  none: 'Noch nicht genullt.',
  taken: (offset: string) => `Genullt, Versatz ${offset}.`,
  refused: {
    'too-far': (bar) => `Nicht genullt: er zeigte ${bar}, das ist keine offene Leitung.`,
    noisy: () => 'Nicht genullt: sein Messwert war nicht ruhig.',
    'no-reading': () => 'Nicht genullt: er lieferte keinen Messwert.',
  } satisfies Record<Refused, (bar: string) => string>,
  now: 'Jetzt beide nullen',
};
