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
    is: 'Aucune réaction ne se voit dans le gobelet témoin : sa sonde est-elle dans le mélange ? Sinon la résine est peut-être morte ou mal dosée : ne dégonfler que si l’échantillon témoin est dur',
    was: 'aucune réaction ne se voyait dans le gobelet témoin',
  },
  'cooler-than-sleeve': {
    is: 'La manchette était plus chaude que le gobelet témoin : sa sonde pend-elle dans l’air, ou les deux sont-elles échangées ? D’ici là, la plus froide compte',
    was: 'la manchette était plus chaude que le gobelet témoin : sa sonde dans l’air, ou les deux échangées',
  },
} as const;

const LOST = {
  now: 'perdue, le durcissement se compte à la plus froide probable : contrôler la sonde et son connecteur',
  was: 'perdue, le durcissement se comptait à la plus froide probable',
};
/** A probe that gives a number which is not believed, by its cause. */
const DOUBTED: Readonly<Record<ProbeDoubt, { readonly now: string; readonly was: string }>> = {
  'stands-still': {
    now: 'immobile depuis des minutes, le durcissement se compte à la plus froide probable : contrôler la sonde et son connecteur',
    was: 'immobile pendant des minutes, le durcissement se comptait à la plus froide probable',
  },
  leapt: {
    now: 'a sauté comme aucune conduite ne le fait, le durcissement se compte à la plus froide probable : contrôler la sonde et son connecteur, puis la comparer dans la main',
    was: 'avait sauté comme aucune conduite ne le fait, le durcissement se comptait à la plus froide probable',
  },
  'over-ground': {
    now: 'bien au-dessus de celle du sol sur la fiche de chantier, le durcissement se compte d’après la fiche de chantier : voir où se trouve la sonde, ou corriger la fiche de chantier',
    was: 'bien au-dessus de celle du sol sur la fiche de chantier, le durcissement se comptait d’après la fiche de chantier',
  },
};

/** What is wrong with a probe's number. */
const doubted = ({ cause }: AlarmValues) => (hasCase(DOUBTED, cause) ? DOUBTED[cause] : LOST);

export function cureAlarms(f: Format): Record<CureAlarm, Texts> {
  const usual = (times: number | undefined): string =>
    times === undefined ? '' : `, ${f.fixed(times, 1)} fois le temps habituel`;

  return {
    'temperature-lost': {
      now: (v) =>
        v.place === 'cup'
          ? 'La sonde du gobelet témoin est perdue, ce qu’il dit du mélange reste tel quel : contrôler la sonde et son connecteur'
          : `Température${v.place === undefined ? '' : ` (${PLACE[v.place]})`} ${doubted(v).now}`,
      was: (v) =>
        v.place === 'cup'
          ? 'la sonde du gobelet témoin était perdue'
          : `température${v.place === undefined ? '' : ` (${PLACE[v.place]})`} ${doubted(v).was}`,
    },
    cold: {
      now: (v, u) =>
        v.c === undefined
          ? 'Le point le plus froid probable est sous la température la plus basse de la fiche technique, rien ne se compte : chauffer la conduite ou attendre'
          : `${f.temperature(v.c, u)} : sous la température la plus basse de la fiche technique, rien ne se compte : chauffer la conduite ou attendre`,
      was: (v, u) =>
        v.c === undefined
          ? 'le point le plus froid probable était sous la température la plus basse de la fiche technique, rien ne se comptait'
          : `${f.temperature(v.c, u)} était sous la température la plus basse de la fiche technique, rien ne se comptait`,
    },
    'pot-life': {
      now: (v) => {
        const act = 'plaquer la manchette, ou dégonfler et la sortir avant qu’elle durcisse';
        if (v.seconds === undefined) return `La vie en pot finit bientôt : ${act}`;
        return v.seconds <= 0
          ? `La vie en pot est finie : ${act}`
          : `La vie en pot finit dans ${f.duration(v.seconds)} : ${act}`;
      },
      was: (v) =>
        v.seconds !== undefined && v.seconds > 0
          ? `la vie en pot s’achevait, il restait ${f.duration(v.seconds)}`
          : 'la vie en pot s’achevait ou était finie',
    },
    'batch-slow': {
      now: (v) => {
        if (hasCase(CUP, v.cause)) return CUP[v.cause].is;
        return `Gobelet témoin : mélange lent${usual(v.times)}. Mauvais rapport, durcisseur vieux ou froid ? Ne dégonfler que si l’échantillon témoin est dur`;
      },
      was: (v) =>
        hasCase(CUP, v.cause)
          ? CUP[v.cause].was
          : `le gobelet témoin montrait un mélange lent${usual(v.times)}`,
    },
  };
}
