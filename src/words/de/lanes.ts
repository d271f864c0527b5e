import type { SecondPressure } from '../../job/codes.ts';
import type { Place } from '../../job/setup.ts';
import type { Format } from '../create-format.ts';

/** What stands on the drawings: trace, ladder, temperatures, cure line. Names are short: they stand in narrow columns. */

const HOUR = 3600;

export function lanes(f: Format) {
  return {
    LANES: {
      // marks of the ladder
      seat: 'Anlegen',
      settles: 'Ruht bei',
      leftOpen: 'Bleibt es auf',
      liftsTo: 'Steigt auf',
      /** Of an air test: what is never to be passed, where the drop is timed from, and the drop that is allowed. */
      airTest: { most: 'Nie über', from: 'Prüfdruck', drop: 'Erlaubt' },
      /** A second pressure. */
      second: { 'outlet-pressure': 'Zuluft', 'check-pressure': 'Zweiter Sensor' } satisfies Record<
        SecondPressure,
        string
      >,
      last: 'Zuletzt',
      atLeast: 'Mindestens',
      letOutTo: 'Ablassen bis',
      /** Under the pressure to let out to: what is to be left at least. */
      leaveAtLeast: 'Lassen',
      /** The ceiling of a run that was lowered in it. */
      lowered: (from: string): string => `Obergrenze, war ${from}`,
      /** The end of the pressure sensor's span, on a trace that goes along it. */
      sensorEnd: 'Ende des Sensors',

      /** The right end of a time axis. */
      now: 'jetzt',
      /** So long before now, on a time axis: whole seconds, minutes or half hours. */
      ago: (seconds: number): string => {
        if (seconds < 60 || seconds % 60 !== 0) return `−${f.fixed(seconds, 0)} s`;
        if (seconds < HOUR) return `−${f.fixed(seconds / 60, 0)} min`;
        const hours = Math.floor(seconds / HOUR);
        const minutes = Math.round((seconds % HOUR) / 60);
        return minutes === 0 ? `−${hours} h` : `−${hours} h ${minutes}`;
      },

      /** A temperature beside its lane. */
      place: {
        sleeve: 'Kurzliner',
        air: 'Luft',
        pipe: 'Rohrwand',
        ground: 'Erdreich',
        cup: 'Becher',
      } satisfies Record<Place, string>,
      otherPlace: 'Andere',
      temperatures: 'Temperaturen',
      /** Read aloud: names and values. */
      temperature: (name: string, value: string) => `${name} ${value}`,

      footTitle: 'Der Fuß, vergrößert, letzte 30 s',
      footAllowed: (value: string) => `gilt als null bis ${value}`,
    },

    /** The cure line counts by the data sheet and never says that anything is cured. */
    CURE_LINE: {
      name: 'Härtelinie',
      coldest: (c: string) => `am kältesten ${c}`,
      coldestNotKnown: 'keine Temperatur',
      /** Clock time, or time to go, until the cautious count is full: the late end of the range. */
      at: (clock: string) => `um ${clock}`,
      inTime: (time: string) => `in ${time}`,
      counts: (low: string, high: string) => `vorsichtige Rechnung ${low} bis ${high}`,
      /** The upper count is over the end, the cautious one is not: that alone is a number. */
      countsLow: (low: string) => `vorsichtige Rechnung ${low}`,
      met: 'PROBE PRÜFEN',
      /** The same once air is let out. */
      reached: 'erreicht',
      full: 'Datenblattzeit, vorsichtige Rechnung',
      counting: 'zählt',
      noEnd: 'Ende nicht bekannt',
      notJudged: 'nicht beurteilt',
      light: 'härtet durch Licht',
      noResin: 'kein Harz',
      notFollowed: 'keines auf dem Auftragsblatt',
      notStarted: 'nicht begonnen',
      fromSeating: 'zählt ab dem Anlegen',
    },
  };
}
