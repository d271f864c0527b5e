import type { SecondPressure } from '../../job/codes.ts';
import type { Place } from '../../job/setup.ts';
import type { DeviceGuardState } from '../../link/frames.ts';
import type { Stage, Standing } from '../../watch/codes.ts';

/** Terms of the trade and of open standards, as the user reads them (docs/glossary.md). */

export const STAGE: Record<Stage, string> = {
  prepare: 'Préparer',
  seat: 'Plaquer',
  inflate: 'Gonfler',
  hold: 'Maintenir',
  'let-down': 'Dégonfler',
  done: 'Terminé',
  'air-test': 'Essai à l’air',
  abandoned: 'Abandonné',
};

/** A stage of an attempt; the first one needs no number. */
export const stageName = (stage: Stage, attempt: number): string =>
  attempt > 1 ? `${STAGE[stage]} ${attempt}` : STAGE[stage];

/** The primary button that leads to a stage. */
export const STAGE_ACTION: Record<Stage, string> = {
  prepare: 'Revenir à préparer',
  seat: 'Commencer le plaquage',
  inflate: 'Commencer le gonflage',
  hold: 'Commencer le maintien',
  'let-down': 'Commencer à dégonfler',
  done: 'Terminer',
  'air-test': 'Passer à l’essai à l’air',
  abandoned: 'Abandonner cette tentative',
};

export const PLACE: Record<Place, string> = {
  sleeve: 'manchette',
  air: 'air dans le packer',
  pipe: 'paroi de la conduite',
  ground: 'sol',
  cup: 'gobelet témoin',
};

/** Where several of them are named alike: the one of this number. */
export const NUMBERED = (title: string, n: number): string => `${title} ${n}`;

/** The place as a name of its own: beside a value, in a legend. */
export const PLACE_TITLE: Record<Place, string> = {
  sleeve: 'Manchette',
  air: 'Air dans le packer',
  pipe: 'Paroi de la conduite',
  ground: 'Sol',
  cup: 'Gobelet témoin',
};

/** A second pressure on the line, beside the one that the guard goes by: its line in a trace. */
export const SECOND_TITLE: Record<SecondPressure, string> = {
  'outlet-pressure': 'Pression d’arrivée',
  'check-pressure': 'Deuxième capteur',
};

/** State of the limit that the device itself guards. */
export const DEVICE_GUARD: Record<DeviceGuardState, string> = {
  unarmed: 'inactive',
  armed: 'active',
  tripped: 'déclenchée',
  silenced: 'déclenchée, buzzer coupé',
};

/** Standing marks: always on the screen while they hold. */
export const STANDING: Record<Standing, { readonly mark: string; readonly means: string }> = {
  'no-limit': {
    mark: 'Sans limite ni alerte',
    means: 'Aucun packer n’est choisi : rien ici n’avertit de sa pression admissible.',
  },
  'no-margin': {
    mark: 'Sans marge',
    means:
      'Travail à la pression admissible choisi. Un capteur qui indique trop bas, ou la chaleur de réaction, la fait dépasser.',
  },
  practice: { mark: 'Exercice', means: 'Simulateur : rien ici n’est une vraie ligne.' },
  'not-zeroed': {
    mark: 'Zéro non fait',
    means: 'Le zéro du capteur n’a pas été fait raccord ouvert.',
  },
  uncalibrated: {
    mark: 'Capteur non étalonné',
    means: 'L’échelle est celle que propose le boîtier. L’incertitude en est plus large.',
  },
  'device-unarmed': {
    mark: 'Limite du boîtier inactive',
    means: 'Le boîtier ne surveille pas la limite lui-même : rester à portée de voix de cet ordinateur.',
  },
  'no-hold-by-tap': {
    mark: 'Maintien non jugé ici',
    means: 'Le capteur ne lit pas la pression du packer (voir la prise sur la fiche de chantier).',
  },
  'packer-not-inspected': {
    mark: 'Inspecter le packer',
    means:
      'Il a dépassé sa pression admissible dans une session passée, et aucune inspection n’est notée depuis.',
  },
  'only-one-seen': {
    mark: 'Un seul packer est vu',
    means:
      'Deux packers sont sur cette ligne. La fuite, la chute ou le maintien de l’un ne se distingue pas de l’autre.',
  },
  'cure-not-judged': {
    mark: 'Durcissement non jugé',
    means: 'La résine durcit à la lumière : le temps à température n’en dit rien.',
  },
  'hold-under-working': {
    mark: 'Maintien sous le travail',
    means:
      'Le maintien a commencé loin sous la pression de travail et ne l’a pas rejointe : la manchette peut ne pas être contre la paroi.',
  },
  'hold-over-working': {
    mark: 'Maintien au-dessus',
    means:
      'Le maintien a commencé au-dessus de la pression de travail : la chaleur de réaction a moins de place que prévu jusqu’au plafond.',
  },
};
