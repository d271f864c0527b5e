import { chosen } from './chosen.ts';

export const { DOCS } = chosen('docs');
