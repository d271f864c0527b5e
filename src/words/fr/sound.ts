/** What is sounded: the alarms by priority, a lost reading, the count of a fill, and two calls that are no alarm. */
export type SoundCode = 'urgent' | 'lost' | 'high' | 'low' | 'cue' | 'tick' | 'now' | 'reached' | 'well';

/** On the keys that let each be heard. */
export const SOUND_NAME: Record<SoundCode, string> = {
  urgent: 'Urgente',
  lost: 'Mesure perdue',
  high: 'Haute',
  low: 'Basse',
  cue: 'Vanne bientôt',
  tick: 'Chaque seconde',
  now: 'Fermer maintenant',
  reached: 'Durcissement atteint',
  well: 'Alarme terminée',
};

/** Why no alarm is heard. It stands on every page while something is watched. */
export const NO_SOUND: Record<'press' | 'system' | 'not-heard', string> = {
  press: 'Le son est coupé tant que vous n’appuyez pas quelque part sur cette page.',
  system:
    'Aucun son ne sort de cet ordinateur : les alarmes se voient seulement. Contrôler sa sortie son et garder cet écran en vue.',
  'not-heard':
    'Le son de test n’a pas été entendu : les alarmes se voient seulement. Monter le volume de l’ordinateur et refaire le test, ou garder cet écran en vue.',
};

/** Before the first inflation of the day. */
export const SOUND_TEST = {
  title: 'L’équipe l’entend-elle ?',
  text: 'Une fois par jour, avant de mettre l’air : se placer à la vanne, appuyer, écouter.',
  play: 'Jouer l’alarme urgente',
  heard: 'Entendue',
  notHeard: 'Pas entendue',
  heardToday: 'Entendue aujourd’hui.',
};
