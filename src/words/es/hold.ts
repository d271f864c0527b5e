import type { Format } from '../create-format.ts';
import { type Ends, endsIn, type HoldWords, holdTexts } from '../said/hold.ts';

const LEAK_VERDICT: HoldWords['verdict'] = {
  leaking: 'Pierde',
  tight: 'No se ve fuga',
  'cannot-tell': 'No se sabe',
  'cannot-be-seen': 'No se puede ver',
};

const CANNOT_TELL: HoldWords['cannotTell'] = {
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

const CURE_SOURCE: HoldWords['source'] = {
  sleeve: 'de la sonda en la manga',
  'air-model': 'del aire del packer y el terreno, por el lado frío',
  pipe: 'de la sonda en la pared del tubo',
  ground: 'de la temperatura del terreno prevista',
  none: 'sin temperatura con que contar',
};

const range: HoldWords['range'] = (low, high) => `${low} a ${high}`;
const ends = endsIn(range);

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

const WORDS: HoldWords = {
  verdict: LEAK_VERDICT,
  cannotTell: CANNOT_TELL,
  source: CURE_SOURCE,
  colon: ': ',
  range,
  noLeakAbove: (rate) => `Ninguna fuga mayor de ${rate}`,
  raisesTo: (pressure) => `El calor del curado subirá la presión a ${pressure}`,
  ceilingIn: (time) => `techo en ${time}`,
  letOutTo: (pressure) => `purgar hasta ${pressure}`,
  floorUnknown: 'el mínimo no se sabe',
  noFurther: 'no más',
  notUnder: (pressure) => `no por debajo de ${pressure}`,
  within: (time) => `en ${time}`,
  leavesUpwards: (when) => `Saldrá por arriba de la banda de retención por el calor del curado ${when}`,
  leavesByLeak: (when) => `Saldrá por abajo de la banda de retención por fuga ${when}`,
  fallsOut: (when, cools) =>
    `Si la presión sigue bajando ${cools ? 'al enfriarse' : 'así'}: bajo el mínimo ${when}`,
  coldest: 'Punto probable más frío',
};

export const hold = (f: Format) => ({ CURE, ...holdTexts(f, WORDS) });
