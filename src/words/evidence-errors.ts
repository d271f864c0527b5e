import { chosen } from './chosen.ts';

export const { EVIDENCE_ERROR } = chosen('evidenceErrors');
