import { chosen } from './chosen.ts';

export const { WITNESS, SEEN, TAKEN, comparisonText } = chosen('witness');
