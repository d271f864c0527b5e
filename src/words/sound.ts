import { chosen } from './chosen.ts';

export type { SoundCode } from './en/sound.ts';

export const { NO_SOUND, SOUND_NAME, SOUND_TEST } = chosen('sound');
