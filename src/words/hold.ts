import { chosen } from './chosen.ts';

export const { bandExitText, CURE, coldestText, leakText, liftText } = chosen('hold');
