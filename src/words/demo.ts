import { chosen } from './chosen.ts';

export const { DEMO_NAMES } = chosen('demo');
