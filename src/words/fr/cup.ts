import type { CupDoubt, CupVerdict } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { Format } from '../create-format.ts';

type Said = Pick<Extract<WatchEvent, { e: 'cup' }>, 'verdict' | 'doubt' | 'times'>;

/** Why a witness cup cannot tell, and what is asked. */
const DOUBT: Record<CupDoubt, string> = {
  'little-heat': 'il chauffe trop peu pour être lu',
  lost: 'sa sonde n’a pas été lue trop longtemps',
  'not-of-pot':
    'il n’est pas parti de la température du mélange. La sonde est-elle dans le gobelet, et le gobelet de ce mélange ?',
  'too-early': 'aucun mélange n’est si rapide. A-t-il été mélangé plus tôt, ou est-ce une autre résine ?',
  'cooler-than-sleeve':
    'la manchette était plus chaude que lui. Sa sonde pend-elle dans l’air, ou les deux sondes sont-elles échangées ?',
};

const VERDICT: Record<CupVerdict, string> = {
  waits: 'rien à dire encore',
  reacts: 'la résine réagit',
  usual: 'réagit comme d’habitude',
  quick: 'plus rapide que d’habitude',
  slow: 'mélange lent',
  'no-reaction': 'aucune réaction vue. La sonde y est-elle ? Sinon la résine est peut-être morte',
  'cannot-tell': 'ne peut rien dire',
};

/** On the cure line, beside a mark. */
const SHORT: Record<CupVerdict, string> = {
  waits: 'gobelet attend',
  reacts: 'gobelet réagit',
  usual: 'gobelet habituel',
  quick: 'gobelet rapide',
  slow: 'GOBELET LENT',
  'no-reaction': 'GOBELET FROID',
  'cannot-tell': 'gobelet muet',
};

export function cup(f: Format) {
  const times = (x: number): string => `${f.fixed(x, 1)} ×`;
  return {
    /** What the cup says, in one sentence. */
    cupText({ verdict, doubt, times: t }: Said): string {
      if (doubt !== null) return `Le gobelet témoin ne peut rien dire : ${DOUBT[doubt]}`;
      const what = `Gobelet témoin : ${VERDICT[verdict]}`;
      if (t === null) return what;
      return t.value === null || t.most === null
        ? `${what}, au moins ${times(t.least)} le temps habituel`
        : `${what}, ${times(t.value)} le temps habituel (${f.fixed(t.least, 1)} à ${f.fixed(t.most, 1)})`;
    },

    /** The mark that a resin's document keeps of a batch. */
    cupMark: (heatAge: number, rise: string): string =>
      `Plus forte chaleur à ${f.fixed(heatAge, 2)} du temps de la fiche technique, échauffé de ${rise}`,

    /** The same in two or three words, for the cure line. */
    cupShort({ verdict, times: t }: Said): string {
      const value = t?.value ?? null;
      return value === null ? SHORT[verdict] : `${SHORT[verdict]} ${times(value)}`;
    },
  };
}
