import { chosen } from './chosen.ts';

export const { alarmText, NO_WARNING } = chosen('alarms');
