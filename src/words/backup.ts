import { chosen } from './chosen.ts';

export const { BACKUP } = chosen('backup');
