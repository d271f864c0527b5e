import { chosen } from './chosen.ts';

export const { OFFICE } = chosen('office');
