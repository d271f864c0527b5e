import { chosen } from './chosen.ts';

export const { issueText, NUMBER_FIELD } = chosen('issues');
