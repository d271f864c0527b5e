import { chosen } from './chosen.ts';

export const { bandExitText, CURE, coldestText, coldestValue, leakText, liftText } = chosen('hold');
