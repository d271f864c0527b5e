import type { MapKind } from '../../job/reading-map.ts';
import type { Lack } from '../../link/maps/lacks.ts';
import type { DoubtCode } from '../../link/maps/translate.ts';

/** What is said all along of a source that does not speak the device protocol. */

export const SOURCE: Record<MapKind, { readonly title: string; readonly way: string }> = {
  registers: {
    title: 'Lu sur un bus : sans horloge, ni surveillance, ni bouton propres',
    way: 'Un boîtier au protocole de ce programme a tout cela.',
  },
  columns: {
    title: 'Ligne non contrôlée : ni contrôle, ni horloge, ni surveillance, ni bouton',
    way: 'Pour avoir tout cela : un micrologiciel qui parle le protocole de ce programme.',
  },
};

export const LACK: Record<Lack, string> = {
  check:
    'Sans contrôle : une ligne perturbée ne se distingue pas d’une bonne, et un chiffre faux peut sembler juste.',
  clock: 'Sans horloge propre : les mesures portent l’heure de leur arrivée à cet ordinateur.',
  guard: 'Sans surveillance propre : si cet ordinateur ou son câble lâche, rien ne sonne là-bas.',
  button: 'Sans bouton : les alarmes s’acquittent ici.',
};

export const reachedRate = (hz: string): string =>
  `${hz} mesures par seconde sont demandées ; le silence se juge à la cadence où elles viennent vraiment.`;

/** Exception codes: Modbus Application Protocol V1.1b3, 7. */
const EXCEPTION: Readonly<Record<number, string>> = {
  1: 'elle ne connaît pas cette fonction',
  2: 'elle n’a pas ces registres, qui se comptent à partir de 0',
  3: 'elle ne prend pas ce nombre de registres',
  4: 'elle est en panne',
  5: 'il lui faut plus de temps',
  6: 'elle est occupée',
  8: 'sa mémoire est en panne',
  10: 'la passerelle n’a pas de chemin vers elle',
  11: 'elle ne répond pas à sa passerelle',
};

const DOUBT: Record<DoubtCode, (value: number | null) => string> = {
  exception: (code) =>
    `l’unité refuse : ${EXCEPTION[code ?? 0] ?? 'pour une raison à elle'} (exception ${code ?? 'inconnue'}).`,
  status: () => 'son registre d’état dit que la valeur n’est pas valable.',
  'no-number': () =>
    'ce qui s’y trouve n’est pas un nombre d’instrument. Essayer un autre ordre des octets ou un autre type dans la table.',
  outside: (value) =>
    `${value ?? 'ce qui a été envoyé'} est loin hors de son étendue : autre unité, autre ordre des octets ou autre échelle dans la table ?`,
  missing: () =>
    'la ligne n’a pas de nombre à cet endroit. Ses colonnes ou ses noms ne sont pas ceux de la table.',
};

/** @param row of the map, counted from 1 */
export const doubtText = (row: number, code: DoubtCode, value: number | null): string =>
  `Ligne ${row} de la table : ${DOUBT[code](value)}`;
