import type { SecondPressure } from '../../job/codes.ts';
import type { Line, PipeSetup, Tap } from '../../job/setup.ts';

/** Terms of pipe, tap and line, as the user reads them. */

export const TAP: Record<Tap, string> = {
  packer: 'Packer (ligne de mesure propre)',
  hose: 'Flexible (après la dernière vanne)',
  supply: 'Arrivée (sortie du détendeur, ou derrière un clapet)',
  unknown: 'Inconnue',
};

/** Where a second pressure sits. */
export const SECOND_PLACE: Record<SecondPressure, string> = {
  'outlet-pressure': 'sortie du détendeur',
  'check-pressure': 'packer, une deuxième ligne de mesure',
};

export const TAP_MEANS: Record<Tap, string> = {
  packer: 'La mesure est la pression même du packer.',
  hose: 'Tant que l’air passe, la mesure est au-dessus de la pression du packer ; sans débit elle est la sienne.',
  supply:
    'La mesure n’est pas la pression du packer : alerte de surpression seulement, pas de contrôle de fuite.',
  unknown:
    'Prise comme n’étant pas la pression du packer : alerte de surpression seulement, pas de contrôle de fuite.',
};

export const LINE: Record<Line, string> = {
  closed: 'Vanne fermée',
  'supplied-relieving': 'Alimentée, détendeur à décharge',
  'supplied-nonrelieving': 'Alimentée, détendeur sans décharge',
  unknown: 'Inconnue',
};

export const LINE_MEANS: Record<Line, string> = {
  closed: 'Une fuite peut se voir. La chaleur de réaction fait monter la pression.',
  'supplied-relieving':
    'Le détendeur complète et décharge : une fuite ne peut se voir, ce qu’ajoute la chaleur de réaction est déchargé.',
  'supplied-nonrelieving':
    'Le détendeur complète mais ne décharge pas : une fuite ne peut se voir, la chaleur de réaction fait monter la pression.',
  unknown: 'Ni une fuite ni une hausse par chaleur de réaction ne se juge avec certitude.',
};

export const MATERIAL: Record<PipeSetup['material'], string> = {
  clay: 'Grès',
  concrete: 'Béton',
  pvc: 'PVC',
  pe: 'PE',
  iron: 'Fonte',
  grp: 'PRV',
  unknown: 'Inconnu',
};
