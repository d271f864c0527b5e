import type { SenseRun } from '../../record/trace-rows.ts';
import { sensing } from '../sense-run.ts';

/** Senses a run for its readings alone. */
export const senseRun: SenseRun = sensing({ reading: () => undefined, unjudged: () => undefined });
