import type { RefusalCode } from '../../job/plan-codes.ts';
import type { AlarmCode, Stage } from '../../watch/codes.ts';
import { ALARM_TITLE } from './alarm-titles.ts';
import { STAGE_ACTION } from './terms.ts';

/** A refusal of the plan that was passed over, within another sentence. */
const REFUSED: Record<RefusalCode, string> = {
  'working-over-rated': 'La pression de travail dépasse la pression admissible',
  'no-margin-reason': 'La pression de travail dépasse le plafond',
  'lift-past-rated': 'La chaleur de réaction ferait dépasser à cette ligne la pression admissible',
  'floor-over-working': 'La pression de travail n’atteint pas le plancher',
  'u-over-rated': 'Le capteur est trop incertain pour surveiller ce packer',
  'other-unrated': 'La pression admissible de l’autre packer de cette ligne est inconnue',
  'rated-unread': 'La pression admissible est bien plus haute que d’habitude, et personne n’a relu la plaque',
  'rated-over-range':
    'L’étendue du capteur finit sous la pression admissible : il ne peut pas voir le plafond',
  'packer-too-small': 'La conduite est plus large que ce packer ne peut grossir',
  'packer-too-large': 'La conduite est trop étroite pour ce packer',
  'packer-retired': 'Le packer est réformé',
  'sleeve-too-long': 'La manchette est plus longue que la longueur utile du packer à ce diamètre',
  'pot-life-short': 'La mise en œuvre dure plus longtemps que la vie en pot',
};

/**
 * What was done in spite of advice, in words. Codes are `stage:<to>`, `shelve:<alarm>`, `zero`, `end` and the
 * refusals of the plan; an unknown one of another engine is shown as it is.
 */
export function overrideText(what: string): string {
  const [kind = '', code = ''] = what.split(':');
  if (kind === 'stage' && Object.hasOwn(STAGE_ACTION, code)) return STAGE_ACTION[code as Stage];
  if (kind === 'shelve' && Object.hasOwn(ALARM_TITLE, code))
    return `Mettre de côté : ${ALARM_TITLE[code as AlarmCode]}`;
  if (what === 'zero') return 'Continuer sans zéro';
  if (what === 'end') return 'Clore la session, ligne pas vue à zéro';
  if (Object.hasOwn(REFUSED, what)) return REFUSED[what as RefusalCode];
  return what;
}
