import type { CannotTellReason, LeakFigure, LeakVerdict } from '../../watch/events.ts';
import type { CureView, HoldView } from '../../watch/view.ts';
import { type Format, METRIC } from '../create-format.ts';
import type { Ends } from '../en/hold.ts';
import { boundUp } from '../said/figures.ts';

const LEAK_VERDICT: Record<LeakVerdict, string> = {
  leaking: 'Pierde',
  tight: 'No se ve fuga',
  'cannot-tell': 'No se sabe',
  'cannot-be-seen': 'No se puede ver',
};

const CANNOT_TELL: Record<CannotTellReason, string> = {
  tap: 'el sensor no lee la presión del packer',
  line: 'la línea tiene suministro: el regulador repone lo que se fuga',
  'too-short': 'la línea no ha estado cerrada y quieta bastante tiempo',
  'temperature-trend': 'la tendencia de la temperatura del aire no se conoce bastante bien',
  'sensor-warmth':
    'el calor del propio sensor puede mover otro tanto su lectura: resguardarlo de sol y viento',
  'not-gas': 'con agua o vapor en el packer la presión no sigue la ley de los gases',
  settling: 'el aire aún se enfría, la goma aún cede',
  'no-pressure': 'no hay lectura de presión que sirva',
};

const CURE_SOURCE: Record<CureView['source'], string> = {
  sleeve: 'de la sonda en la manga',
  'air-model': 'del aire del packer y el terreno, por el lado frío',
  pipe: 'de la sonda en la pared del tubo',
  ground: 'de la temperatura del terreno prevista',
  none: 'sin temperatura con que contar',
};

/** Ends that read the same are no range. */
const ends = ({ low, high }: Ends): string => (low === high ? '' : ` (${low} a ${high})`);

/** They never say that the resin is hard or that anything may be opened. */
const CURE = {
  name: 'Tiempo de curado de la ficha técnica',
  met: 'Tiempo de curado de la ficha técnica alcanzado en el punto probable más frío (cuenta prudente)',
  notMet: 'Tiempo de curado de la ficha técnica no alcanzado',
  notKnown: 'Tiempo de curado no se sabe',
  notJudged: 'El curado no se juzga: la resina cura con luz',
  noResin: 'Sin resina en la hoja de trabajo: no se sigue el tiempo de curado',
  notStarted: 'Se cuenta desde el asiento',
  notHeld: 'Se cuenta desde el asiento; cuándo se alcanzará se dice desde la retención',
  willBeMetAt: (clock: Ends, inTime: string): string =>
    `Se alcanza hacia las ${clock.value}${ends(clock)}, dentro de ${inTime}`,
  willBeMetIn: (time: Ends): string => `Se alcanza dentro de unos ${time.value}${ends(time)}`,
  exothermAt: (clock: Ends, inTime: string, warmest: Ends): string =>
    `Exotermia (previsión con un esquema general de la resina): lo más caliente hacia las ${clock.value}${ends(clock)}, dentro de ${inTime}: ${warmest.value}${ends(warmest)}`,
  exothermIn: (time: Ends, warmest: Ends): string =>
    `Exotermia (previsión con un esquema general de la resina): lo más caliente dentro de unos ${time.value}${ends(time)}: ${warmest.value}${ends(warmest)}`,
  progress: ({ value, low, high }: Ends): string => `${value} (cuenta prudente ${low}, como máximo ${high}).`,
  progressOver: (low: string): string =>
    `No alcanzado: según la cuenta prudente ha pasado el ${low} del tiempo de curado. Solo la cuenta probable ha llegado al final.`,
  between: (low: string, high: string): string => `${low} a ${high}`,
};

export function hold(f: Format) {
  return {
    CURE,

    leakText(leak: LeakFigure, units = METRIC): string {
      const word = LEAK_VERDICT[leak.verdict];
      switch (leak.verdict) {
        case 'leaking': {
          const interval =
            leak.low === null || leak.high === null
              ? ''
              : ` (95 %: ${f.pressureRate(leak.low, units)} a ${f.pressureRate(leak.high, units)})`;
          return `${word} ${f.pressureRate(leak.mbarPerMin, units)}${interval}`;
        }
        case 'tight':
          return leak.high === null
            ? word
            : `Ninguna fuga mayor de ${f.pressureRate(boundUp(leak.high), units)}`;
        case 'cannot-tell':
        case 'cannot-be-seen':
          return leak.reason === null ? word : `${word}: ${CANNOT_TELL[leak.reason]}`;
      }
    },

    liftText(lift: NonNullable<HoldView['lift']>, units = METRIC): string {
      const { value, low, high } = lift.peakBar;
      const peak = `El calor del curado subirá la presión a ${f.pressure(value, units)} (${f.pressureNumber(low, units)} a ${f.pressureNumber(high, units)})`;
      const when = lift.ceilingInS === null ? '' : `, techo en ${f.duration(lift.ceilingInS.value)}`;
      if (lift.adviceHighBar === null) return `${peak}${when}`;
      const floor =
        lift.adviceLowBar === null
          ? 'el mínimo no se sabe'
          : f.pressureNumber(lift.adviceLowBar, units) === f.pressureNumber(lift.adviceHighBar, units)
            ? 'no más'
            : `no por debajo de ${f.pressureNumber(lift.adviceLowBar, units)}`;
      return `${peak}${when}: purgar hasta ${f.pressure(lift.adviceHighBar, units)}, ${floor}`;
    },

    /** Names a leak as the cause only where a leak was found: a line that is tight falls as its gas cools. */
    bandExitText(exit: NonNullable<HoldView['bandExit']>, verdict: LeakVerdict): string {
      const { value, low, high } = exit.inS;
      const when = `en ${f.duration(value)} (${f.duration(low)} a ${f.duration(high)})`;
      if (exit.direction === 'up')
        return `Saldrá por arriba de la banda de retención por el calor del curado ${when}`;
      if (verdict === 'leaking') return `Saldrá por abajo de la banda de retención por fuga ${when}`;
      const why = verdict === 'tight' ? 'al enfriarse' : 'así';
      return `Si la presión sigue bajando ${why}: bajo el mínimo ${when}`;
    },

    coldestText(cure: CureView, units = METRIC): string {
      if (cure.coldest === null) return `Punto probable más frío: ${CURE_SOURCE[cure.source]}`;
      return `Punto probable más frío ${f.temperature(cure.coldest.value, units)} (${CURE_SOURCE[cure.source]})`;
    },

    coldestValue(spot: { readonly c: number; readonly source: CureView['source'] }, units = METRIC): string {
      return `${f.temperature(spot.c, units)} (${CURE_SOURCE[spot.source]})`;
    },
  };
}
