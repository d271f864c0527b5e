import type { AlarmCode, Stage } from '../watch/codes.ts';
import { ALARM_TITLE } from './alarms.ts';
import { REFUSAL } from './plan.ts';
import { STAGE_ACTION } from './terms.ts';

/**
 * What was done in spite of advice, in words. Codes are `stage:<to>`, `shelve:<alarm>`, `zero` and the refusals of
 * the plan; an unknown one of another engine is shown as it is.
 */
export function overrideText(what: string): string {
  const [kind = '', code = ''] = what.split(':');
  if (kind === 'stage' && Object.hasOwn(STAGE_ACTION, code)) return STAGE_ACTION[code as Stage];
  if (kind === 'shelve' && Object.hasOwn(ALARM_TITLE, code))
    return `Put aside: ${ALARM_TITLE[code as AlarmCode]}`;
  if (what === 'zero') return 'Go on without zero';
  if (Object.hasOwn(REFUSAL, what)) return REFUSAL[what as keyof typeof REFUSAL].replace(/\.$/, '');
  return what;
}
