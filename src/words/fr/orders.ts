import type { Format } from '../create-format.ts';
import { type OrderWords, ordersOf } from '../said/orders.ts';
import type { alarms } from './alarms.ts';

/**
 * One verb for each tap, and each verb for that tap alone: COUPER is of the air, PURGER is of the vent. OUVRIR and FERMER stand in no
 * order: 'fermer air, ouvrir purge' read in part is 'fermer purge' or 'ouvrir air'. PURGER is a verb with its R, since 'couper … purge'
 * would be one order; RESTER is in none, since alone it says stay. No order sends a person towards a packer that may be full.
 */
const WORDS: OrderWords = {
  VERB: {
    'air-off': { lines: ['COUPER', 'L’AIR'], spoken: 'Couper l’air, maintenant.' },
    'air-off-vent': { lines: ['COUPER AIR', 'PURGER'], spoken: 'Couper l’air. Puis ouvrir la purge.' },
    'air-off-clear': { lines: ['COUPER AIR', 'S’ÉCARTER'], spoken: 'Couper l’air. S’écarter.' },
    'keep-clear': { lines: ['S’ÉCARTER'], spoken: 'S’écarter du packer.' },
    'keep-clear-asking': { lines: ['S’ÉCARTER'], spoken: 'S’écarter. Vous dégonflez ?' },
    'find-loss': { lines: ['CHERCHER', 'LA PERTE'], spoken: 'Chercher d’abord la perte, à l’écart.' },
    'find-leak': { lines: ['CHERCHER', 'LA FUITE'], spoken: 'Chercher la fuite.' },
    'top-up': { lines: ['COMPLÉTER', 'DOUCEMENT'], spoken: 'Compléter doucement.' },
    'check-gauge': { lines: ['VOIR LE', 'MANOMÈTRE'], spoken: 'Voir le manomètre.' },
    'check-device': { lines: ['CONTRÔLER', 'LE BOÎTIER'], spoken: 'Contrôler le boîtier.' },
    'check-cable': { lines: ['CONTRÔLER', 'LE CÂBLE'], spoken: 'Contrôler le câble.' },
    'check-cables': { lines: ['CONTRÔLER', 'LES CÂBLES'], spoken: 'Contrôler les câbles des capteurs.' },
    'check-probe': { lines: ['CONTRÔLER', 'LA SONDE'], spoken: 'Contrôler la sonde.' },
    'check-power': { lines: ['CONTRÔLER', 'COURANT'], spoken: 'Contrôler le courant du boîtier.' },
    'check-valve': { lines: ['CONTRÔLER', 'LA VANNE'], spoken: 'Contrôler la vanne d’air.' },
    'feel-sample': { lines: ['TÂTER LE', 'TÉMOIN'], spoken: 'Tâter l’échantillon témoin.' },
    'let-out-a-little': { lines: ['LÂCHER UN', 'PEU D’AIR'], spoken: 'Lâcher un peu d’air.' },
    'go-by-gauge': { lines: ['SUIVRE LE', 'MANOMÈTRE'], spoken: 'Suivre le manomètre.' },
    'slow-down': { lines: ['RALENTIR'], spoken: 'Ralentir.' },
    'seat-or-take-out': { lines: ['PLAQUER OU', 'SORTIR'], spoken: 'Plaquer la manchette, ou la sortir.' },
    'seat-or-let-down': {
      lines: ['PLAQUER OU', 'DÉGONFLER'],
      spoken: 'Plaquer la manchette, ou dégonfler.',
    },
    'vent-again': { lines: ['PURGER', 'ENCORE'], spoken: 'Purger encore. Le packer garde de l’air.' },
    'lower-regulator': { lines: ['BAISSER', 'DÉTENDEUR'], spoken: 'Baisser le détendeur.' },
    'wait-or-warm': { lines: ['TROP FROID', 'ATTENDRE'], spoken: 'Attendre, ou chauffer la conduite.' },
    'write-down': { lines: ['NOTER LA', 'PRESSION'], spoken: 'Noter la pression.' },
    'keep-screen-on': { lines: ['ÉCRAN', 'ALLUMÉ'], spoken: 'Garder l’écran allumé.' },
  },
  letOutTo: (pressure) => ({ lines: ['LÂCHER', `À ${pressure}`], spoken: `Lâcher jusqu’à ${pressure}.` }),
  EVERYONE_CLEAR: { text: 'TOUS À L’ÉCART', spoken: 'Tous à l’écart.' },
  FIGURE: {
    'at-least': 'Au moins',
    rated: 'Admissible',
    'over-rated-by': 'Dépassement',
    ceiling: 'Plafond',
    'if-left-open': 'Si laissé ouvert',
    'supply-now': 'Arrivée actuelle',
    supply: 'Arrivée',
    'may-stand-over': 'Dépasse peut-être',
    'it-stood-at': 'Elle était à',
    'supply-proved-at': 'Arrivée éprouvée à',
    'last-reading': 'Dernière mesure',
    'no-reading-for': 'Sans mesure depuis',
    'limit-in-device': 'Limite du boîtier',
    'limit-here': 'Limite ici',
    'reading-here': 'Mesure ici',
    now: 'Actuelle',
    'hold-floor': 'Plancher',
    'hold-floor-in': 'Plancher dans',
    leak: 'Fuite',
    'leave-at-least': 'Laisser au moins',
    sensor: 'Capteur',
    'readings-a-second': 'Mesures / seconde',
    'jumped-by': 'Saut de',
    'dial-gauge': 'Manomètre',
    packer: 'Packer',
    second: 'Deuxième',
    'came-back-to': 'Revenue à',
    'zero-is-up-to': 'Zéro jusqu’à',
    coldest: 'Le plus froid',
    'pot-life-left': 'Reste de vie en pot',
    'usual-time': 'Temps habituel',
    pressure: 'Pression',
    'asleep-for': 'En veille pendant',
    'test-allows': 'L’essai permet',
  },
  NOW: 'maintenant',
};

export function orders(f: Format, { alarmSentence }: ReturnType<typeof alarms>) {
  return {
    /** What an alarm says from three metres, by its code, its own view and the stage. */
    VERBS: ordersOf(f, WORDS, alarmSentence),
  };
}
