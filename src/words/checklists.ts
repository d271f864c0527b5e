import { chosen } from './chosen.ts';

export const { CHECKLIST, WANTS } = chosen('checklists');
