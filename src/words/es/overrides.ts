import type { RefusalCode } from '../../job/plan-codes.ts';
import type { AlarmCode, Stage } from '../../watch/codes.ts';
import { ALARM_TITLE } from './alarm-titles.ts';
import { STAGE_ACTION } from './terms.ts';

/** A refusal of the plan that was passed over, within another sentence. */
const REFUSED: Record<RefusalCode, string> = {
  'working-over-rated': 'La presión de trabajo está sobre la admisible',
  'no-margin-reason': 'La presión de trabajo está sobre el techo',
  'lift-past-rated': 'El calor del curado llevaría esta línea más allá de la presión admisible',
  'floor-over-working': 'La presión de trabajo no llega al mínimo',
  'u-over-rated': 'El sensor es demasiado incierto para vigilar este packer',
  'other-unrated': 'No se sabe la presión admisible del otro packer de esta línea',
  'rated-unread': 'La presión admisible es mucho más alta de lo habitual, y nadie volvió a leer la placa',
  'rated-over-range': 'El rango del sensor acaba bajo la presión admisible: no puede ver el techo',
  'packer-too-small': 'El tubo es más ancho de lo que este packer puede crecer',
  'packer-too-large': 'El tubo es más estrecho de lo que este packer cabe',
  'packer-retired': 'El packer está retirado',
  'sleeve-too-long': 'La manga es más larga que la longitud útil del packer con este diámetro',
  'pot-life-short': 'La manipulación dura más que la vida de la mezcla',
};

/**
 * What was done in spite of advice, in words. Codes are `stage:<to>`, `shelve:<alarm>`, `zero`, `end` and the
 * refusals of the plan; an unknown one of another engine is shown as it is.
 */
export function overrideText(what: string): string {
  const [kind = '', code = ''] = what.split(':');
  if (kind === 'stage' && Object.hasOwn(STAGE_ACTION, code)) return STAGE_ACTION[code as Stage];
  if (kind === 'shelve' && Object.hasOwn(ALARM_TITLE, code))
    return `Aplazada: ${ALARM_TITLE[code as AlarmCode]}`;
  if (what === 'zero') return 'Seguir sin cero';
  if (what === 'end') return 'Terminar la sesión sin ver la línea a cero';
  if (Object.hasOwn(REFUSED, what)) return REFUSED[what as RefusalCode];
  return what;
}
