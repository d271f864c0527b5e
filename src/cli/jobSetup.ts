import type { JobBundle } from '../job/bundle.ts';
import type { Setup } from '../job/setup.ts';
import { fault } from './fault.ts';

export function planSetup(bundle: JobBundle): Setup {
  throw fault(`job ${bundle.jobId} cannot be planned`);
}
