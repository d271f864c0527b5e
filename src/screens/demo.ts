import { demoBundle } from '../job/demo.ts';
import { DEMO_NAMES } from '../words/demo.ts';

/** The invented job for practice, under its names in the page's language. */
export const DEMO = demoBundle(DEMO_NAMES);
