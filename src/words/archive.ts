import { chosen } from './chosen.ts';

export const { ARCHIVE } = chosen('archive');
