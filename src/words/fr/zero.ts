import type { SecondPressure } from '../../job/codes.ts';
import type { SecondZeroReason, WatchEvent } from '../../watch/events.ts';

/** What became of a zero. */
export const ZERO: Record<Extract<WatchEvent, { e: 'zero' }>['reason'], string> = {
  ok: 'Zéro fait',
  'too-far': 'Zéro refusé : trop loin de zéro, le capteur est peut-être abîmé ou sous pression',
  noisy: 'Zéro refusé : la mesure ne tient pas encore. Attendre quelques secondes et appuyer de nouveau',
  'in-run': 'Zéro refusé : jamais pendant une session en route',
  'no-reading': 'Zéro refusé : il n’y a pas de mesure',
};

type Refused = Exclude<SecondZeroReason, 'ok'>;

/** The zero of a second pressure sensor, which is taken with the first where both stand at the air’s own pressure. */
export const ZERO_SECOND = {
  title: 'Zéro du deuxième capteur',
  both: 'Les deux capteurs lisent une ligne ouverte : le zéro se fait sur les deux.',
  lost: 'Le deuxième capteur ne donne pas de mesure : son zéro ne peut pas se faire. Voir son câble.',
  /** It reads no open line. */
  asks: {
    'outlet-pressure': (bar) =>
      `Le capteur d’arrivée indique ${bar}. Fermer l’arrivée, purger sa ligne, et son zéro se fait aussi. S’il n’y a pas d’air dessus, c’est un autre capteur ou un capteur abîmé.`,
    'check-pressure': (bar) =>
      `Le deuxième capteur indique ${bar} raccord ouvert. Y a-t-il de l’air sur sa ligne ? Sinon, c’est un autre capteur ou un capteur abîmé.`,
  } satisfies Record<SecondPressure, (bar: string) => string>,
  none: 'Pas encore fait.',
  taken: (offset: string) => `Fait, décalage ${offset}.`,
  refused: {
    'too-far': (bar) => `Non fait : il indiquait ${bar}, ce n’est pas une ligne ouverte.`,
    noisy: () => 'Non fait : sa mesure ne tenait pas.',
    'no-reading': () => 'Non fait : il ne donnait pas de mesure.',
  } satisfies Record<Refused, (bar: string) => string>,
  now: 'Faire les deux zéros',
};
