import type { SecondPressure } from '../../job/codes.ts';
import type { Place } from '../../job/setup.ts';
import type { DeviceGuardState } from '../../link/frames.ts';
import type { Stage, Standing } from '../../watch/codes.ts';

/** Terms of the trade and of open standards, as the user reads them. */

export const STAGE: Record<Stage, string> = {
  prepare: 'Vorbereiten',
  seat: 'Anlegen',
  inflate: 'Füllen',
  hold: 'Halten',
  'let-down': 'Entlüften',
  done: 'Fertig',
  'air-test': 'Luftprüfung',
  abandoned: 'Aufgegeben',
};

/** A stage of an attempt; the first one needs no number. */
export const stageName = (stage: Stage, attempt: number): string =>
  attempt > 1 ? `${STAGE[stage]} ${attempt}` : STAGE[stage];

/** The primary button that leads to a stage. */
export const STAGE_ACTION: Record<Stage, string> = {
  prepare: 'Zurück zum Vorbereiten',
  seat: 'Anlegen beginnen',
  inflate: 'Füllen beginnen',
  hold: 'Halten beginnen',
  'let-down': 'Entlüften beginnen',
  done: 'Abschließen',
  'air-test': 'Zur Luftprüfung',
  abandoned: 'Diesen Versuch aufgeben',
};

export const PLACE: Record<Place, string> = {
  sleeve: 'Kurzliner',
  air: 'Luft im Packer',
  pipe: 'Rohrwand',
  ground: 'Erdreich',
  cup: 'Probenbecher',
};

/** Where several of them are named alike: the one of this number. */
export const NUMBERED = (title: string, n: number): string => `${title} ${n}`;

/** The place as a name of its own: beside a value, in a legend. */
export const PLACE_TITLE: Record<Place, string> = {
  sleeve: 'Kurzliner',
  air: 'Luft im Packer',
  pipe: 'Rohrwand',
  ground: 'Erdreich',
  cup: 'Probenbecher',
};

/** A second pressure on the line, beside the one that the guard goes by: its line in a trace. */
export const SECOND_TITLE: Record<SecondPressure, string> = {
  'outlet-pressure': 'Zuluftdruck',
  'check-pressure': 'Zweiter Sensor',
};

/** State of the limit that the device itself guards. */
export const DEVICE_GUARD: Record<DeviceGuardState, string> = {
  unarmed: 'aus',
  armed: 'ein',
  tripped: 'ausgelöst',
  silenced: 'ausgelöst, Summer stumm',
};

/** Standing marks: always on the screen while they hold. */
export const STANDING: Record<Standing, { readonly mark: string; readonly means: string }> = {
  'no-limit': {
    mark: 'Ohne Warngrenze',
    means: 'Kein Packer ist gewählt: nichts warnt hier vor seinem Höchstdruck.',
  },
  'no-margin': {
    mark: 'Keine Reserve',
    means:
      'Arbeiten am Höchstdruck wurde gewählt. Ein Sensor, der zu wenig zeigt, oder die Reaktionswärme bringt den Packer über den Höchstdruck.',
  },
  practice: { mark: 'Übung', means: 'Übungsanlage: nichts hier ist eine echte Leitung.' },
  'not-zeroed': {
    mark: 'Nicht genullt',
    means: 'Der Sensor wurde nicht bei offener Kupplung genullt.',
  },
  uncalibrated: {
    mark: 'Sensor nicht kalibriert',
    means: 'Die Skala schlägt das Gerät selbst vor. Die Messunsicherheit ist dadurch größer.',
  },
  'device-unarmed': {
    mark: 'Gerätegrenze aus',
    means: 'Das Gerät überwacht die Grenze nicht selbst: in Hörweite dieses Computers bleiben.',
  },
  'no-hold-by-tap': {
    mark: 'Halten wird hier nicht beurteilt',
    means: 'Der Sensor liest nicht den Druck im Packer (siehe Messstelle auf dem Auftragsblatt).',
  },
  'packer-not-inspected': {
    mark: 'Packer begutachten',
    means:
      'Er war in einem früheren Lauf über dem Höchstdruck, und seither ist keine Begutachtung eingetragen.',
  },
  'only-one-seen': {
    mark: 'Nur ein Packer ist zu sehen',
    means:
      'Zwei Packer hängen an dieser Leitung. Leck, Abfall oder Halten des einen lässt sich vom anderen nicht trennen.',
  },
  'cure-not-judged': {
    mark: 'Aushärtung wird nicht beurteilt',
    means: 'Das Harz härtet durch Licht: Zeit und Temperatur sagen nichts darüber.',
  },
  'hold-under-working': {
    mark: 'Unter Arbeitsdruck gehalten',
    means:
      'Das Halten begann weit unter dem Arbeitsdruck und hat ihn nicht erreicht: der Kurzliner liegt vielleicht nicht an der Rohrwand.',
  },
  'hold-over-working': {
    mark: 'Über Arbeitsdruck gehalten',
    means:
      'Das Halten begann über dem Arbeitsdruck: bis zur Obergrenze bleibt für die Reaktionswärme weniger Platz als geplant.',
  },
};
