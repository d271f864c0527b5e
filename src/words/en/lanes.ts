import type { SecondPressure } from '../../job/codes.ts';
import type { Place } from '../../job/setup.ts';
import type { Format } from '../create-format.ts';

/** What stands on the drawings: trace, ladder, temperatures, cure line. Names are short: they stand in narrow columns. */

const HOUR = 3600;

export function lanes(f: Format) {
  return {
    LANES: {
      // marks of the ladder
      seat: 'Seat',
      settles: 'Settles',
      leftOpen: 'If left open',
      liftsTo: 'Lifts to',
      /** Of an air test: what is never to be passed, where the drop is timed from, and the drop that is allowed. */
      airTest: { most: 'Never above', from: 'Test', drop: 'Allowed drop' },
      /** A second pressure. */
      second: { 'outlet-pressure': 'Supply', 'check-pressure': 'Second sensor' } satisfies Record<
        SecondPressure,
        string
      >,
      last: 'Last',
      atLeast: 'At least',
      letOutTo: 'Let out to',
      /** Under the pressure to let out to: what is to be left at least. */
      leaveAtLeast: 'Leave',
      /** The ceiling of a run that was lowered in it. */
      lowered: (from: string): string => `Ceiling, was ${from}`,
      /** The end of the pressure sensor's span, on a trace that goes along it. */
      sensorEnd: 'Sensor’s end',

      /** The right end of a time axis. */
      now: 'now',
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
        sleeve: 'Sleeve',
        air: 'Air',
        pipe: 'Pipe wall',
        ground: 'Ground',
        cup: 'Cup',
      } satisfies Record<Place, string>,
      otherPlace: 'Other',
      temperatures: 'Temperatures',
      /** Read aloud: names and values. */
      temperature: (name: string, value: string) => `${name} ${value}`,

      footTitle: 'The foot, enlarged, last 30 s',
      footAllowed: (value: string) => `counts as zero to ${value}`,
    },

    /** The cure line counts by the data sheet and never says that anything is cured. */
    CURE_LINE: {
      name: 'Cure line',
      coldest: (c: string) => `coldest ${c}`,
      coldestNotKnown: 'no temperature',
      /** Clock time, or time to go, until the cautious count is full: the late end of the range. */
      at: (clock: string) => `at ${clock}`,
      inTime: (time: string) => `in ${time}`,
      counts: (low: string, high: string) => `cautious count ${low} to ${high}`,
      /** The upper count is over the end, the cautious one is not: that alone is a number. */
      countsLow: (low: string) => `cautious count ${low}`,
      met: 'CHECK SAMPLE',
      /** The same once air is let out. */
      reached: 'reached',
      full: 'data-sheet time, cautious count',
      counting: 'counting',
      noEnd: 'end not known',
      notJudged: 'not judged',
      light: 'cures by light',
      noResin: 'no resin',
      notFollowed: 'none on the job sheet',
      notStarted: 'not started',
      fromSeating: 'counts from seating on',
    },
  };
}
