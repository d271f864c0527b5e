import type { Priority } from '../../watch/codes.ts';

/** Words of the archive's rows and chips. */
export const RECORDS = {
  waiting: (n: number) => (n === 1 ? '1 attend une revue' : `${n} attendent une revue`),
  noneWaiting: 'aucun n’attend de revue',
  chips: {
    all: 'Tous',
    review: 'À revoir',
    ceiling: 'Plafond atteint',
    alarms: 'Avec alarmes',
    cure: 'Durcissement non atteint ou inconnu',
    practice: 'Exercice',
  },
  chipsLabel: 'Quels enregistrements sont affichés',
  peak: 'Pic',
  course: 'Pression dans le temps',
  job: 'Chantier',
  inBand: 'En plage de maintien',
  cure: 'Durcissement atteint',
  alarms: 'Alarmes',
  state: 'État',
  noAlarm: 'aucune',
  alarmCount: {
    urgent: (n: number) => `${n} ${n > 1 ? 'urgentes' : 'urgente'}`,
    high: (n: number) => `${n} ${n > 1 ? 'hautes' : 'haute'}`,
    low: (n: number) => `${n} ${n > 1 ? 'basses' : 'basse'}`,
  } satisfies Record<Priority, (n: number) => string>,
  cureNot: 'non atteint',
  toReview: 'À revoir',
  accepted: 'Approuvé',
  rejected: 'Refusé',
  recording: 'Enregistrement',
  interrupted: 'interrompu',
  sealed: 'scellé',
  notSealed: 'non scellé',
  elsewhere: 'd’ailleurs',
  unknownKey: 'clé inconnue',
  emptyTitle: 'Rien d’enregistré et rien de gardé encore.',
  emptyTodo:
    'Chaque session se place ici une fois close ; un enregistrement d’ailleurs, une fois vérifié et gardé.',
  more: (n: number) => `Afficher la suite : encore ${n}`,
  practise: 'Commencer par un exercice',
};
