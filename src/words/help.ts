import { chosen } from './chosen.ts';

export const { HELP } = chosen('help');
