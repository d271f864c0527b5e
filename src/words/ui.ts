import { chosen } from './chosen.ts';

export const { UI } = chosen('ui');
