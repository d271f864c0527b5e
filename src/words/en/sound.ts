/** What is sounded: the alarms by priority, a lost reading, the count of a fill, and two calls that are no alarm. */
export type SoundCode = 'urgent' | 'lost' | 'high' | 'low' | 'cue' | 'tick' | 'now' | 'reached' | 'well';

/** On the keys that let each be heard. */
export const SOUND_NAME: Record<SoundCode, string> = {
  urgent: 'Urgent',
  lost: 'Reading lost',
  high: 'High',
  low: 'Low',
  cue: 'Valve soon',
  tick: 'Each second',
  now: 'Shut it now',
  reached: 'Cure time reached',
  well: 'Alarm is over',
};

/** Why no alarm is heard. It stands on every page while something is watched. */
export const NO_SOUND: Record<'press' | 'system' | 'not-heard', string> = {
  press: 'Sound is off until you press anywhere on this page.',
  system:
    'No sound comes out of this computer, so alarms are seen only. Check its sound output, and keep this screen in sight.',
  'not-heard':
    'The test sound was not heard, so alarms are seen only. Turn the computer’s volume up and test it again, or keep this screen in sight.',
};

/** Before the first inflation of the day. */
export const SOUND_TEST = {
  title: 'Can the crew hear it?',
  text: 'Once a day, before air goes in: stand at the valve, press, listen.',
  play: 'Play the urgent alarm',
  heard: 'Heard it',
  notHeard: 'Not heard',
  heardToday: 'Heard today.',
};
