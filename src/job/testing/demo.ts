import { DEMO_NAMES } from '../../words/en/demo.ts';
import { demoBundle } from '../demo.ts';

/** The invented job under its English names. */
export const DEMO = demoBundle(DEMO_NAMES);
