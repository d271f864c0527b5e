import type { RefusalCode } from '../../job/plan-codes.ts';
import type { AlarmCode, Stage } from '../../watch/codes.ts';
import { ALARM_TITLE } from './alarm-titles.ts';
import { STAGE_ACTION } from './terms.ts';

/** A refusal of the plan that was passed over, within another sentence. */
const REFUSED: Record<RefusalCode, string> = {
  'working-over-rated': 'The working pressure is over the rated pressure',
  'no-margin-reason': 'The working pressure is over the ceiling',
  'lift-past-rated': 'Cure heat would raise this line past the rated pressure',
  'floor-over-working': 'The working pressure does not reach the hold floor',
  'u-over-rated': 'The sensor is too uncertain to guard this packer',
  'other-unrated': 'The rated pressure of the other packer on this line is not known',
  'rated-unread': 'The rated pressure is far higher than usual, and nobody read the plate again',
  'rated-over-range': 'The sensor’s range ends under the rated pressure: it cannot see the ceiling',
  'packer-too-small': 'The pipe is wider than this packer may grow',
  'packer-too-large': 'The pipe is narrower than this packer fits',
  'packer-retired': 'The packer is retired',
  'sleeve-too-long': 'The sleeve is longer than the packer’s usable length at this diameter',
  'pot-life-short': 'Handling takes longer than the pot life',
};

/**
 * What was done in spite of advice, in words. Codes are `stage:<to>`, `shelve:<alarm>`, `zero`, `end` and the
 * refusals of the plan; an unknown one of another engine is shown as it is.
 */
export function overrideText(what: string): string {
  const [kind = '', code = ''] = what.split(':');
  if (kind === 'stage' && Object.hasOwn(STAGE_ACTION, code)) return STAGE_ACTION[code as Stage];
  if (kind === 'shelve' && Object.hasOwn(ALARM_TITLE, code))
    return `Put aside: ${ALARM_TITLE[code as AlarmCode]}`;
  if (what === 'zero') return 'Go on without zero';
  if (what === 'end') return 'End the run with the line not seen at zero';
  if (Object.hasOwn(REFUSED, what)) return REFUSED[what as RefusalCode];
  return what;
}
