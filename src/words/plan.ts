import { chosen } from './chosen.ts';

export const { DERIVATION, warningText } = chosen('plan');
