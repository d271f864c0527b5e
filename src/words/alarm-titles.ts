import { chosen } from './chosen.ts';

export const { ALARM_STATE, ALARM_TITLE, alarmLine, alarmTitle, PRIORITY } = chosen('alarmTitles');
