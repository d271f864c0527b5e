import { chosen } from './chosen.ts';

export const { COMPARISON, DOCS, PACKER, RESIN, SENSOR } = chosen('docs');
