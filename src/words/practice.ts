import { chosen } from './chosen.ts';

export const { checkText, DEBRIEF, DRILL, handText, OUTCOME, PRACTICE, SENSED } = chosen('practice');
