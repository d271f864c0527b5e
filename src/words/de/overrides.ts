import type { RefusalCode } from '../../job/plan-codes.ts';
import type { AlarmCode, Stage } from '../../watch/codes.ts';
import { ALARM_TITLE } from './alarm-titles.ts';
import { STAGE_ACTION } from './terms.ts';

/** A refusal of the plan that was passed over, within another sentence. */
const REFUSED: Record<RefusalCode, string> = {
  'working-over-rated': 'Der Arbeitsdruck liegt über dem Höchstdruck',
  'no-margin-reason': 'Der Arbeitsdruck liegt über der Obergrenze',
  'lift-past-rated': 'Die Reaktionswärme würde diese Leitung über den Höchstdruck heben',
  'floor-over-working': 'Der Arbeitsdruck reicht nicht an den Mindestdruck',
  'u-over-rated': 'Der Sensor ist zu unsicher, um diesen Packer zu überwachen',
  'other-unrated': 'Der Höchstdruck des anderen Packers an dieser Leitung ist nicht bekannt',
  'rated-unread': 'Der Höchstdruck ist viel höher als üblich, und niemand hat das Schild nochmal gelesen',
  'rated-over-range':
    'Der Messbereich des Sensors endet unter dem Höchstdruck: er kann die Obergrenze nicht sehen',
  'packer-too-small': 'Das Rohr ist weiter, als dieser Packer wachsen darf',
  'packer-too-large': 'Das Rohr ist enger, als dieser Packer passt',
  'packer-retired': 'Der Packer ist ausgemustert',
  'sleeve-too-long': 'Der Kurzliner ist länger als die nutzbare Länge des Packers bei diesem Durchmesser',
  'pot-life-short': 'Die Verarbeitung dauert länger als die Topfzeit',
};

/**
 * What was done in spite of advice, in words. Codes are `stage:<to>`, `shelve:<alarm>`, `zero`, `end` and the
 * refusals of the plan; an unknown one of another engine is shown as it is.
 */
export function overrideText(what: string): string {
  const [kind = '', code = ''] = what.split(':');
  if (kind === 'stage' && Object.hasOwn(STAGE_ACTION, code)) return STAGE_ACTION[code as Stage];
  if (kind === 'shelve' && Object.hasOwn(ALARM_TITLE, code))
    return `Zurückgestellt: ${ALARM_TITLE[code as AlarmCode]}`;
  if (what === 'zero') return 'Ohne Nullen weiter';
  if (what === 'end') return 'Lauf beendet, ohne die Leitung bei null zu sehen';
  if (Object.hasOwn(REFUSED, what)) return REFUSED[what as RefusalCode];
  return what;
}
