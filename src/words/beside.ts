import { chosen } from './chosen.ts';

export const { BESIDE, BESIDE_ERROR, BESIDE_LOST } = chosen('beside');
