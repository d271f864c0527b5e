import { chosen } from './chosen.ts';

export const { BUDGET, BUDGET_ROW, BUDGET_SHAPE } = chosen('budget');
