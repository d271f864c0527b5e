import type { Stage } from '../../watch/codes.ts';
import { STAGE_ACTION } from './terms.ts';

/** Names of the two large values of the live page, and of its key. What stands in capitals is read as an alarm is. */

/** Over the pressure, which is the largest number of the page. */
export const PRESSURE_SLOT = {
  line: 'Pression de la ligne',
  ceiling: 'AU PLAFOND',
  'over-rated': 'ADMISSIBLE DÉPASSÉE',
  'over-range': 'CAPTEUR EN BUTÉE',
  stale: 'Mesure ancienne',
  lost: 'Pas de mesure',
};

/** Over the time, by what it counts. A name ends where the time begins: 'à' stands before a clock time. */
export const TIME_SLOT = {
  stage: 'Dans cette étape depuis',
  'pot-life': 'Reste de vie en pot',
  settle: 'Laisser la vanne fermée',
  cue: 'Prêt à la vanne',
  'cue-stopped': 'Pas de décompte : suivre la pression',
  'cure-left': 'Reste à durcir',
  'cure-still': 'Durcissement à l’arrêt',
  'cure-unknown': 'Durcissement inconnu',
  'check-sample': 'TÂTER LE TÉMOIN',
  'cure-reached': 'Temps de durcissement atteint (compte prudent)',
  held: 'Maintien depuis',
  'empties-in': 'Ligne vide dans environ',
  vent: 'Purge fermée depuis',
  'vent-failed': 'ÉCHEC À',
  'vent-stayed': 'Resté à zéro pendant',
  'ceiling-in': 'Plafond dans',
  'rated-in': 'Admissible dans',
  'over-ceiling': 'Plafond dépassé depuis',
  'over-rated': 'Admissible dépassée depuis',
  'no-reading': 'Sans mesure depuis',
  supply: 'Arrivée observée encore',
  tripped: 'Déclenchée depuis',
  falling: 'En chute depuis',
  'floor-in': 'Plancher dans',
  'air-stabilise': 'L’air se stabilise encore',
  'air-settle': 'Le temps commence dans',
  'air-timing': 'Reste de l’essai',
  'air-verdict': 'Essai à l’air',
};

/** Over a limit that is reached within the second: no seconds are left to be counted. */
export const TIME_NOW = {
  'ceiling-in': 'Au plafond',
  'rated-in': 'À l’admissible',
  'floor-in': 'Au plancher',
};

/** On the stage key: the stages that it leads to, and the one thing to do before. */
export const STAGE_KEY: Record<
  | Stage
  | 'connect'
  | 'zero'
  | 'mixed'
  | 'compare'
  | 'hard'
  | 'not-hard'
  | 'vent-open'
  | 'test'
  | 'supply-shut'
  | 'supply-stop'
  | 'end'
  | 'air-begin'
  | 'air-begin-probed'
  | 'air-again'
  | 'air-again-probed'
  | 'air-not-held'
  | 'air-stop'
  | 'demoted',
  string
> = {
  ...STAGE_ACTION,
  connect: 'Connecter le boîtier',
  zero: 'Faire le zéro',
  mixed: 'Résine mélangée',
  compare: 'Comparer le manomètre',
  hard: 'Dur',
  'not-hard': 'Pas dur',
  'vent-open': 'Purge ouverte',
  test: 'Purge fermée : tester',
  'supply-shut': 'Vanne fermée',
  'supply-stop': 'Arrêter l’épreuve',
  end: 'Clore la session',
  'air-begin': 'Commencer l’essai à l’air',
  'air-begin-probed': 'Commencer, sonde en place',
  'air-again': 'Refaire l’essai',
  'air-again-probed': 'Refaire, sonde en place',
  'air-not-held': 'Ça ne tient pas',
  'air-stop': 'Arrêter l’essai',
  demoted: 'Changer d’étape : appui long',
};
