import type { Format } from '../create-format.ts';
import { alarms } from './alarms.ts';
import * as cautions from './cautions.ts';
import * as demo from './demo.ts';
import * as doubts from './doubts.ts';
import { hold } from './hold.ts';
import * as live from './live.ts';
import { refusals } from './refusals.ts';
import * as terms from './terms.ts';
import * as zero from './zero.ts';

/** What the live page says besides. */
export const watch = (format: Format) => ({
  alarms: alarms(format),
  cautions,
  demo,
  doubts,
  hold: hold(format),
  live,
  refusals: refusals(format),
  terms,
  zero,
});
