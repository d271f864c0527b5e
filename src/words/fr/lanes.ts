import type { SecondPressure } from '../../job/codes.ts';
import type { Place } from '../../job/setup.ts';
import type { Format } from '../create-format.ts';

/** What stands on the drawings: trace, ladder, temperatures, cure line. Names are short: they stand in narrow columns. */

const HOUR = 3600;

export function lanes(f: Format) {
  return {
    LANES: {
      // marks of the ladder
      seat: 'Plaquer',
      settles: 'S’arrête',
      leftOpen: 'Si ouvert',
      liftsTo: 'Monte à',
      /** Of an air test: what is never to be passed, where the drop is timed from, and the drop that is allowed. */
      airTest: { most: 'Jamais plus', from: 'Essai', drop: 'Chute admise' },
      /** A second pressure. */
      second: { 'outlet-pressure': 'Arrivée', 'check-pressure': 'Deuxième capteur' } satisfies Record<
        SecondPressure,
        string
      >,
      last: 'Dernière',
      atLeast: 'Au moins',
      letOutTo: 'Lâcher à',
      /** Under the pressure to let out to: what is to be left at least. */
      leaveAtLeast: 'Laisser',
      /** The ceiling of a run that was lowered in it. */
      lowered: (from: string): string => `Plafond, avant ${from}`,
      /** The end of the pressure sensor's span, on a trace that goes along it. */
      sensorEnd: 'Fin du capteur',

      /** The right end of a time axis. */
      now: 'maintenant',
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
        sleeve: 'Manchette',
        air: 'Air',
        pipe: 'Paroi',
        ground: 'Sol',
        cup: 'Gobelet',
      } satisfies Record<Place, string>,
      otherPlace: 'Autre',
      temperatures: 'Températures',
      /** Read aloud: names and values. */
      temperature: (name: string, value: string) => `${name} ${value}`,

      footTitle: 'Le bas agrandi, 30 dernières s',
      footAllowed: (value: string) => `compte comme zéro jusqu’à ${value}`,
    },

    /** The cure line counts by the data sheet and never says that anything is cured. */
    CURE_LINE: {
      name: 'Durcissement',
      coldest: (c: string) => `plus froid ${c}`,
      coldestNotKnown: 'sans température',
      /** Clock time, or time to go, until the cautious count is full: the late end of the range. */
      at: (clock: string) => `à ${clock}`,
      inTime: (time: string) => `dans ${time}`,
      counts: (low: string, high: string) => `compte prudent ${low} à ${high}`,
      /** The upper count is over the end, the cautious one is not: that alone is a number. */
      countsLow: (low: string) => `compte prudent ${low}`,
      met: 'TÂTER LE TÉMOIN',
      /** The same once air is let out. */
      reached: 'atteint',
      full: 'fiche technique, compte prudent',
      counting: 'en cours',
      noEnd: 'fin inconnue',
      notJudged: 'non jugé',
      light: 'durcit à la lumière',
      noResin: 'sans résine',
      notFollowed: 'aucune sur la fiche',
      notStarted: 'pas commencé',
      fromSeating: 'compte dès le plaquage',
    },
  };
}
