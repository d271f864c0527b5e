import type { AlarmValues } from '../../watch/events.ts';
import type { ProbeDoubt } from '../../watch/signal/probe-doubt.ts';
import type { Format } from '../create-format.ts';
import { hasCase, type Texts } from '../said/alarm-cases.ts';
import { PLACE } from './terms.ts';

/** Sentences of the alarms of the cure: its temperatures, pot life and the batch. The others: alarms.ts. */

type CureAlarm = 'temperature-lost' | 'cold' | 'pot-life' | 'batch-slow';

/** What the witness cup shows; a slow batch with its time against the usual one where that is known. */
const CUP = {
  'no-reaction': {
    is: 'En el vaso testigo no se ve reacción: ¿está su sonda en la mezcla? Si no, la resina puede estar muerta o mal mezclada: desinflar solo cuando la muestra testigo esté dura',
    was: 'en el vaso testigo no se vio reacción',
  },
  'cooler-than-sleeve': {
    is: 'La manga estuvo más caliente que el vaso testigo: ¿cuelga la sonda del vaso en el aire, o están cambiadas las dos? Hasta saberlo cuenta la más fría',
    was: 'la manga estuvo más caliente que el vaso testigo: su sonda en el aire, o las dos cambiadas',
  },
} as const;

const LOST = {
  now: 'perdida, el curado se cuenta a la temperatura probable más fría: revisar la sonda y su conector',
  was: 'perdida, el curado se contó a la temperatura probable más fría',
};
/** A probe that gives a number which is not believed, by its cause. */
const DOUBTED: Readonly<Record<ProbeDoubt, { readonly now: string; readonly was: string }>> = {
  'stands-still': {
    now: 'sin moverse desde hace minutos, el curado se cuenta a la temperatura probable más fría: revisar la sonda y su conector',
    was: 'sin moverse durante minutos, el curado se contó a la temperatura probable más fría',
  },
  leapt: {
    now: 'saltó como no lo hace ningún tubo, el curado se cuenta a la temperatura probable más fría: revisar la sonda y su conector, luego compararla en la mano',
    was: 'saltó como no lo hace ningún tubo, el curado se contó a la temperatura probable más fría',
  },
  'over-ground': {
    now: 'muy por encima de la del terreno en la hoja de trabajo, el curado se cuenta por la hoja de trabajo: mirar dónde está la sonda, o corregir la hoja de trabajo',
    was: 'muy por encima de la del terreno en la hoja de trabajo, el curado se contó por la hoja de trabajo',
  },
};

/** What is wrong with a probe's number. */
const doubted = ({ cause }: AlarmValues) => (hasCase(DOUBTED, cause) ? DOUBTED[cause] : LOST);

export function cureAlarms(f: Format): Record<CureAlarm, Texts> {
  const usual = (times: number | undefined): string =>
    times === undefined ? '' : `, ${f.fixed(times, 1)} veces el tiempo habitual`;

  return {
    'temperature-lost': {
      now: (v) =>
        v.place === 'cup'
          ? 'Se ha perdido la sonda del vaso testigo, lo que dijo del lote queda como está: revisar la sonda y su conector'
          : `Temperatura${v.place === undefined ? '' : ` (${PLACE[v.place]})`} ${doubted(v).now}`,
      was: (v) =>
        v.place === 'cup'
          ? 'se había perdido la sonda del vaso testigo'
          : `temperatura${v.place === undefined ? '' : ` (${PLACE[v.place]})`} ${doubted(v).was}`,
    },
    cold: {
      now: (v, u) =>
        v.c === undefined
          ? 'El punto probable más frío está bajo la temperatura mínima de la ficha técnica, no se cuenta tiempo de curado: calentar el tubo o esperar'
          : `${f.temperature(v.c, u)} está bajo la temperatura mínima de la ficha técnica, no se cuenta tiempo de curado: calentar el tubo o esperar`,
      was: (v, u) =>
        v.c === undefined
          ? 'el punto probable más frío estaba bajo la temperatura mínima de la ficha técnica, no se contó tiempo de curado'
          : `${f.temperature(v.c, u)} estaba bajo la temperatura mínima de la ficha técnica, no se contó tiempo de curado`,
    },
    'pot-life': {
      now: (v) => {
        const act = 'asentar la manga, o desinflar y retirarla antes de que endurezca';
        if (v.seconds === undefined) return `La vida de la mezcla acaba pronto: ${act}`;
        return v.seconds <= 0
          ? `La vida de la mezcla ha acabado: ${act}`
          : `La vida de la mezcla acaba en ${f.duration(v.seconds)}: ${act}`;
      },
      was: (v) =>
        v.seconds !== undefined && v.seconds > 0
          ? `se acababa la vida de la mezcla, quedaban ${f.duration(v.seconds)}`
          : 'la vida de la mezcla se acababa o había acabado',
    },
    'batch-slow': {
      now: (v) => {
        if (hasCase(CUP, v.cause)) return CUP[v.cause].is;
        return `Vaso testigo: lote lento${usual(v.times)}. ¿Mala relación de mezcla, endurecedor viejo o frío? Desinflar solo cuando la muestra testigo esté dura`;
      },
      was: (v) =>
        hasCase(CUP, v.cause) ? CUP[v.cause].was : `el vaso testigo mostró un lote lento${usual(v.times)}`,
    },
  };
}
