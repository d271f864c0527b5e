import type { DisplayUnits, Format } from '../create-format.ts';
import type { DoubtAt, DoubtCode } from '../en/doubts.ts';

export const STAGE_DOUBT: Record<DoubtCode, string> = {
  'urgent-alarm': 'Hay una alarma urgente.',
  'pressure-unknown': 'Ahora no se sabe la presión.',
  'over-ceiling': 'La presión está sobre el techo.',
  'over-working': 'La presión está sobre la de trabajo, y el calor del curado la sube todavía más.',
  'under-floor': 'La presión está bajo el mínimo: la manga puede despegarse de la pared.',
  'under-working':
    'La presión está muy por debajo de la de trabajo: la manga puede no estar pegada a la pared, y lo que se reponga después no se distingue de una fuga.',
  'was-over-rated':
    'El packer pasó de su presión admisible en esta sesión: la goma estirada de más puede reventar por debajo de ella.',
  'packer-not-inspected':
    'El packer pasó de su presión admisible en una sesión anterior, y desde entonces no consta inspección: inspeccionarlo antes de ponerlo en una manguera.',
  'cure-not-met':
    'El tiempo de curado de la ficha técnica no se ha alcanzado en el punto probable más frío (cuenta prudente).',
  'cure-not-judged':
    'Aquí no se juzga el curado: la resina cura con luz. Que está dura lo dicen la muestra testigo y la vista.',
  'no-witness': 'La muestra testigo guardada a la temperatura del tubo no se anotó como dura.',
  'under-pressure': 'No se ve la línea a cero.',
  'no-rebound':
    'La prueba de rebote no se superó: una línea a cero no es un packer vacío. Cerrar la purga, esperar, ver que sigue en cero.',
  'rebound-unseen': 'El sensor no ve aquí el packer: una línea que sigue en cero no dice nada de él.',
  'line-pressed':
    'La línea está bajo presión antes de anunciar aire: la llave de aire pierde o está abierta, o el packer no estaba vacío.',
  'reads-low':
    'El sensor lee de menos: dio un salto abajo, o el manómetro marca más. Hay más aire del que dice el número.',
  'loss-suspected':
    'Se perdió presión y nadie ha encontrado por dónde: puede haberse soltado una manguera o roto el packer.',
  'reading-jumped':
    'El sensor ha dado un salto y desde entonces no se ha comparado el manómetro: su número puede ser falso.',
  'supply-over-ceiling': 'Se vio el suministro sobre el techo: bajar el regulador y probarlo otra vez.',
  'supply-creeps': 'El suministro sube solo: si se deja abierto, pasa del techo.',
  'checklist-open': 'Hay puntos de seguridad de la lista sin responder.',
  'not-zeroed': 'El cero del sensor no se tomó con el acople visto abierto.',
};

export function doubts(f: Format) {
  function doubtFigures(code: DoubtCode, { bar, peakBar, limits }: DoubtAt, u: DisplayUnits): string | null {
    const beside = (what: string, limit: number | null | undefined): string | null =>
      bar === null || limit == null ? null : `${f.pressure(bar, u)}, ${what} ${f.pressureNumber(limit, u)}`;
    switch (code) {
      case 'over-working':
      case 'under-working':
        return beside('trabajo', limits?.workingBar);
      case 'under-floor':
        return beside('mínimo', limits?.floorBar);
      case 'over-ceiling':
        return beside('techo', limits?.ceilingBar);
      case 'was-over-rated':
        return peakBar === null || limits === null
          ? null
          : `${f.pressure(peakBar, u)}, admisible ${f.pressureNumber(limits.ratedBar, u)}`;
      case 'under-pressure':
      case 'line-pressed':
        return bar === null ? null : f.pressure(bar, u);
      default:
        return null;
    }
  }

  return {
    STAGE_DOUBT,
    doubtFigures,
    doubtText(code: DoubtCode, at: DoubtAt, u: DisplayUnits): string {
      const figures = doubtFigures(code, at, u);
      return figures === null ? STAGE_DOUBT[code] : `${figures}. ${STAGE_DOUBT[code]}`;
    },
    reasonWith: (reason: string, figures: readonly string[]): string =>
      figures.length === 0 ? reason : `${reason} (${figures.join('; ')})`,
  };
}
