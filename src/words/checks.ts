import { chosen } from './chosen.ts';

export const { CHECK, CHECK_REASONS, itemName, LIST, MOMENT } = chosen('checks');
