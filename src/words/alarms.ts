import { chosen } from './chosen.ts';

export const { alarmText, alarmWas, NO_WARNING } = chosen('alarms');
