import { chosen } from './chosen.ts';

export const { alarmSentence, NO_WARNING } = chosen('alarms');
