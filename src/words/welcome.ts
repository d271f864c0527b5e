import { chosen } from './chosen.ts';

export const { WELCOME } = chosen('welcome');
