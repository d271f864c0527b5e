import type { InputCode, PlanNote, RefusalCode } from '../../job/plan-codes.ts';
import { type Format, METRIC } from '../create-format.ts';
import { planNumbers } from '../said/plan-numbers.ts';

/** `of` is what the refusal is about and its numbers, in brackets, or nothing. */
const REFUSAL: Record<RefusalCode, (of: string) => string> = {
  'working-over-rated': (of) => `La presión de trabajo está sobre la admisible${of}.`,
  'no-margin-reason': (of) =>
    `La presión de trabajo está sobre el techo${of}. Bajarla, o dar un motivo para trabajar a la presión admisible.`,
  'lift-past-rated': (of) =>
    `El calor del curado llevaría esta línea más allá de la presión admisible${of}. Bajar la presión de trabajo, o usar un regulador con alivio.`,
  'floor-over-working': (of) =>
    `La presión de trabajo no llega al mínimo: la manga no se quedaría en la pared${of}.`,
  'u-over-rated': (of) => `El sensor es demasiado incierto para vigilar este packer${of}.`,
  'other-unrated': (of) =>
    `De esta línea cuelgan dos packers y no se sabe la presión admisible del otro${of}. Escribirla en la hoja de trabajo.`,
  'rated-unread': (of) =>
    `La presión admisible es mucho más alta de lo habitual en packers${of}. Volver a leer la placa, y corregirla o marcarla en el documento del packer.`,
  'rated-over-range': (of) =>
    `El rango del sensor acaba bajo la presión admisible: no puede ver el techo${of}.`,
  'packer-too-small': (of) => `El tubo es más ancho de lo que este packer puede crecer${of}.`,
  'packer-too-large': (of) => `El tubo es más estrecho de lo que este packer cabe${of}.`,
  'packer-retired': (of) => `El packer está retirado${of}.`,
  'sleeve-too-long': (of) => `La manga es más larga que la longitud útil del packer con este diámetro${of}.`,
  'pot-life-short': (of) => `La manipulación dura más que la vida de la mezcla${of}.`,
};

const INPUT: Record<InputCode, string> = {
  diameter: 'diámetro interior',
  rated: 'admisible',
  u: 'incertidumbre',
  ceiling: 'techo',
  working: 'trabajo',
  air: 'presión del aire',
  rise: 'subida del aire',
  ground: 'terreno',
  lift: 'subida por calor',
  'after-rise': 'subida posterior de la manguera',
  vapour: 'vapor de agua en la línea',
  'other-rated': 'presión admisible del otro packer',
  density: 'densidad',
  'water-level': 'nivel del agua',
  head: 'carga de agua',
  'free-inflation': 'inflado libre',
  margin: 'margen',
  altitude: 'altitud',
  'packer-volume': 'packer',
  'hose-volume': 'manguera',
  length: 'longitud',
  defect: 'defecto',
  overlap: 'solape',
  'mark-below': 'marca inferior',
  'mark-above': 'marca superior',
  'length-below': 'longitud inferior',
  'length-above': 'longitud superior',
  thickness: 'espesor',
  lap: 'solape de capa',
  layers: 'capas',
  layer: 'capa',
  pressure: 'presión',
  modulus: 'módulo',
  strength: 'resistencia',
  'safety-factor': 'coeficiente de seguridad',
  poisson: 'coeficiente de Poisson',
  enhancement: 'factor de mejora K',
  ovality: 'ovalidad',
  'ovality-factor': 'factor de ovalidad',
  area: 'área',
  fabric: 'tejido',
  ratio: 'relación',
  waste: 'merma',
  'resin-mass': 'resina',
  parts: 'partes de resina',
  'hardener-parts': 'partes de endurecedor',
  'mix-temperature': 'temperatura de mezcla',
  'cup-mass': 'en el vaso',
  'lowest-temperature': 'temperatura mínima de la ficha técnica',
  'pot-life': 'vida de la mezcla',
  handling: 'manipulación',
  'start-pressure': 'presión inicial',
  drop: 'caída',
  'test-coefficient': 'coeficiente',
  'sensor-span': 'mayor rango que serviría',
  'sensor-step': 'mayor escalón que serviría',
  leak: 'fuga',
  zero: 'cero',
  days: 'días que quedan',
  'off-gauge': 'lectura menos manómetro',
  'off-thermometer': 'lectura menos termómetro',
  sooner: 'antes, hasta',
};

export function refusals(f: Format) {
  const numbers = planNumbers(f, INPUT, ': ');
  return {
    ...numbers,
    refusalText: (note: PlanNote<RefusalCode>, units = METRIC): string =>
      numbers.noteText(REFUSAL[note.code], note, units),
  };
}
