import { chosen } from './chosen.ts';

export const {
  EVIDENCE,
  findingText,
  holdLine,
  progressText,
  remarkText,
  reservedText,
  signerText,
  VERDICT,
} = chosen('evidence');
