import { chosen } from './chosen.ts';

export const { SETTINGS } = chosen('settings');
