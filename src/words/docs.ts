import { chosen } from './chosen.ts';

export const { DOCS, PACKER, RESIN, SENSOR } = chosen('docs');
