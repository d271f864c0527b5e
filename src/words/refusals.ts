import { chosen } from './chosen.ts';

export const { inputsText, planNumber, refusalText } = chosen('refusals');
