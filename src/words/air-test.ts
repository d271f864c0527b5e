import { chosen } from './chosen.ts';

export const { AIR, airTestEvent } = chosen('airTest');
