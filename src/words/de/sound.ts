/** What is sounded: the alarms by priority, a lost reading, the count of a fill, and two calls that are no alarm. */
export type SoundCode = 'urgent' | 'lost' | 'high' | 'low' | 'cue' | 'tick' | 'now' | 'reached' | 'well';

/** On the keys that let each be heard. */
export const SOUND_NAME: Record<SoundCode, string> = {
  urgent: 'Dringend',
  lost: 'Messwert verloren',
  high: 'Hoch',
  low: 'Niedrig',
  cue: 'Gleich zudrehen',
  tick: 'Jede Sekunde',
  now: 'Jetzt zu',
  reached: 'Härtezeit erreicht',
  well: 'Alarm ist vorbei',
};

/** Why no alarm is heard. It stands on every page while something is watched. */
export const NO_SOUND: Record<'press' | 'system' | 'not-heard', string> = {
  press: 'Der Ton ist aus, bis irgendwo auf diese Seite gedrückt wird.',
  system:
    'Aus diesem Computer kommt kein Ton, Alarme sind nur zu sehen. Tonausgang prüfen und diesen Bildschirm im Auge behalten.',
  'not-heard':
    'Der Testton war nicht zu hören, Alarme sind nur zu sehen. Den Computer lauter stellen und neu testen, oder diesen Bildschirm im Auge behalten.',
};

/** Before the first inflation of the day. */
export const SOUND_TEST = {
  title: 'Hört ihn die Kolonne?',
  text: 'Einmal am Tag, bevor Luft hineingeht: am Zulufthahn stehen, drücken, hinhören.',
  play: 'Dringenden Alarm abspielen',
  heard: 'Gehört',
  notHeard: 'Nicht gehört',
  heardToday: 'Heute gehört.',
};
