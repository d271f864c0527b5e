import type { CupDoubt, CupVerdict } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { Format } from '../create-format.ts';

type Said = Pick<Extract<WatchEvent, { e: 'cup' }>, 'verdict' | 'doubt' | 'times'>;

const DOUBT: Record<CupDoubt, string> = {
  'little-heat': 'se calienta demasiado poco para leerlo',
  lost: 'su sonda estuvo demasiado tiempo sin leerse',
  'not-of-pot':
    'no empezó a la temperatura de la mezcla. ¿Está la sonda en el vaso, y es el vaso de este lote?',
  'too-early': 'ningún lote es tan rápido. ¿Se mezcló antes, o es otra resina?',
  'cooler-than-sleeve':
    'la manga estuvo más caliente que él. ¿Cuelga su sonda en el aire, o están cambiadas las dos?',
};

const VERDICT: Record<CupVerdict, string> = {
  waits: 'aún nada que decir',
  reacts: 'la resina reacciona',
  usual: 'reacciona como siempre',
  quick: 'más rápido que siempre',
  slow: 'lote lento',
  'no-reaction': 'no se ve reacción. ¿Está dentro la sonda? Si no, la resina puede estar muerta',
  'cannot-tell': 'no se sabe',
};

/** On the cure line, beside a mark. */
const SHORT: Record<CupVerdict, string> = {
  waits: 'vaso espera',
  reacts: 'vaso reacciona',
  usual: 'vaso normal',
  quick: 'vaso rápido',
  slow: 'VASO LENTO',
  'no-reaction': 'VASO FRÍO',
  'cannot-tell': 'vaso no lo dice',
};

export function cup(f: Format) {
  const times = (x: number): string => `${f.fixed(x, 1)} ×`;
  return {
    cupText({ verdict, doubt, times: t }: Said): string {
      if (doubt !== null) return `El vaso testigo no lo dice: ${DOUBT[doubt]}`;
      const what = `Vaso testigo: ${VERDICT[verdict]}`;
      if (t === null) return what;
      return t.value === null || t.most === null
        ? `${what}, al menos ${times(t.least)} el tiempo habitual`
        : `${what}, ${times(t.value)} el tiempo habitual (${f.fixed(t.least, 1)} a ${f.fixed(t.most, 1)})`;
    },

    cupMark: (heatAge: number, rise: string): string =>
      `Mayor calor a ${f.fixed(heatAge, 2)} del tiempo de la ficha técnica, se calentó ${rise}`,

    cupShort({ verdict, times: t }: Said): string {
      const value = t?.value ?? null;
      return value === null ? SHORT[verdict] : `${SHORT[verdict]} ${times(value)}`;
    },
  };
}
