import { chosen } from './chosen.ts';

export const { EVIDENCE, findingText, holdLine, progressText, remarkText, signerText, VERDICT } =
  chosen('evidence');
