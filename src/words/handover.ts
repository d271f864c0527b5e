import { chosen } from './chosen.ts';

export const { HANDOVER } = chosen('handover');
