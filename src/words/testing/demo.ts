import { demoBundle } from '../../job/demo.ts';
import { DEMO_NAMES } from '../en/demo.ts';

/** The invented job under its English names. */
export const DEMO = demoBundle(DEMO_NAMES);
