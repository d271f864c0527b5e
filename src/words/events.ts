import { chosen } from './chosen.ts';

export const { eventText, limitsText } = chosen('events');
