import { chosen } from './chosen.ts';

export const { CHECK } = chosen('checks');
