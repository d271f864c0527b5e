import type { SecondPressure } from '../../job/codes.ts';
import type { Place } from '../../job/setup.ts';
import type { Format } from '../create-format.ts';

const HOUR = 3600;

export function lanes(f: Format) {
  return {
    LANES: {
      // marks of the ladder
      seat: 'Asiento',
      settles: 'Quedará en',
      leftOpen: 'Si queda abierta',
      liftsTo: 'Sube a',
      airTest: { most: 'Nunca más de', from: 'Ensayo', drop: 'Caída admitida' },
      second: { 'outlet-pressure': 'Suministro', 'check-pressure': 'Segundo sensor' } satisfies Record<
        SecondPressure,
        string
      >,
      last: 'Última',
      atLeast: 'Al menos',
      letOutTo: 'Purgar a',
      leaveAtLeast: 'Dejar',
      lowered: (from: string): string => `Techo, antes ${from}`,
      sensorEnd: 'Fin del sensor',

      now: 'ahora',
      /** So long before now, on a time axis: whole seconds, minutes or half hours. */
      ago: (seconds: number): string => {
        if (seconds < 60 || seconds % 60 !== 0) return `−${f.fixed(seconds, 0)} s`;
        if (seconds < HOUR) return `−${f.fixed(seconds / 60, 0)} min`;
        const hours = Math.floor(seconds / HOUR);
        const minutes = Math.round((seconds % HOUR) / 60);
        return minutes === 0 ? `−${hours} h` : `−${hours} h ${minutes}`;
      },

      place: {
        sleeve: 'Manga',
        air: 'Aire',
        pipe: 'Pared',
        ground: 'Terreno',
        cup: 'Vaso',
      } satisfies Record<Place, string>,
      otherPlace: 'Otra',
      temperatures: 'Temperaturas',
      temperature: (name: string, value: string) => `${name} ${value}`,

      footTitle: 'El pie, ampliado, últimos 30 s',
      footAllowed: (value: string) => `es cero hasta ${value}`,
    },

    /** The cure line counts by the data sheet and never says that anything is cured. */
    CURE_LINE: {
      name: 'Línea de curado',
      coldest: (c: string) => `lo más frío ${c}`,
      coldestNotKnown: 'sin temperatura',
      at: (clock: string) => `a las ${clock}`,
      inTime: (time: string) => `en ${time}`,
      counts: (low: string, high: string) => `cuenta prudente ${low} a ${high}`,
      countsLow: (low: string) => `cuenta prudente ${low}`,
      met: 'TOCAR MUESTRA',
      reached: 'alcanzado',
      full: 'tiempo de ficha, cuenta prudente',
      counting: 'contando',
      noEnd: 'final no se sabe',
      notJudged: 'no se juzga',
      light: 'cura con luz',
      noResin: 'sin resina',
      notFollowed: 'ninguna en la hoja',
      notStarted: 'sin empezar',
      fromSeating: 'cuenta desde el asiento',
    },
  };
}
