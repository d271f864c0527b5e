import type { Check, DrillCode, Outcome } from '../../practice/codes.ts';
import type { Checked, Sign } from '../../practice/shapes.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** Title and goal give nothing away; what went wrong is told behind it. */

type DrillWords = { readonly title: string; readonly goal: string; readonly fault: string };

const DRILL: Record<DrillCode, DrillWords> = {
  'drill-stuck-open': {
    title: 'Inflar: no pasar de la admisible',
    goal: 'El packer no pasa de su presión admisible, y la llave de aire, una vez cerrada, sigue cerrada.',
    fault: 'El regulador se quedó abierto y dejó pasar toda la presión.',
  },
  'drill-creep': {
    title: 'Inflar: parar donde toca',
    goal: 'Inflar hasta la presión de trabajo, cerrar la llave a mano y no llegar al techo.',
    fault: 'El regulador fue subiendo despacio.',
  },
  'drill-unplug': {
    title: 'Inflar: rápidos en la llave, uno',
    goal: 'En cuanto la presión deja de saberse, la llave de aire se cierra en diez segundos.',
    fault: 'El cable se salió; el aire siguió entrando.',
  },
  'drill-blown-hose': {
    title: 'Inflar: rápidos en la llave, dos',
    goal: 'En cuanto algo va mal, la llave de aire se cierra en diez segundos y sigue cerrada.',
    fault: 'La manguera se soltó de su acople.',
  },
  'drill-burst': {
    title: 'Inflar: rápidos en la llave, tres',
    goal: 'En cuanto algo va mal, la llave de aire se cierra en diez segundos y sigue cerrada, y la línea se vacía.',
    fault: 'El packer reventó.',
  },
  'drill-relief': {
    title: 'Inflar: cuando no sube',
    goal: 'No seguir inflando: llave de aire cerrada en veinte segundos, sin retención, y la línea vaciada.',
    fault: 'La válvula de seguridad abrió muy por debajo de su tarado.',
  },
  'drill-leak': {
    title: 'Retención: que no caiga',
    goal: 'Desde que algo va mal, mantener el packer cerca de su presión de trabajo durante veinte minutos.',
    fault: 'Empezó una fuga.',
  },
  'drill-kink': {
    title: 'Desinflar: vacío es vacío',
    goal: 'Mostrar con la prueba de rebote que el packer está vacío, antes de desacoplar o de terminar la sesión.',
    fault: 'La manguera se dobló al desinflar: la línea marcaba cero y el packer estaba lleno.',
  },
  'drill-moved': {
    title: 'Asentar: antes de volver a abrir',
    goal: 'Abrir la llave hacia la presión de trabajo solo si el suministro está bajo el techo, e inflar.',
    fault: 'Alguien subió el regulador durante la pausa de asiento.',
  },
  'drill-differ': {
    title: 'Asentar: a quién creer',
    goal: 'Si dos lecturas se contradicen, comparar el manómetro antes de dar más aire; después inflar.',
    fault: 'El segundo sensor leía muy de menos.',
  },
  'drill-open-probe': {
    title: 'Curar: las horas que cuentan',
    goal: 'Desinflar solo cuando se alcanza el tiempo de curado, y terminar la sesión con el packer vacío.',
    fault: 'La sonda de la manga se rompió.',
  },
  'drill-slow-batch': {
    title: 'Curar: este mismo lote',
    goal: 'Pulsar «Resina mezclada» en el acto. Desinflar solo cuando se alcanza el tiempo de curado de este lote, y terminar la sesión con el packer vacío.',
    fault: 'El lote era lento; solo el vaso lo mostraba.',
  },
};

const OUTCOME: Record<Outcome, { readonly word: string; readonly means: string }> = {
  met: { word: 'Objetivo cumplido', means: 'Se hizo todo lo que pide el objetivo.' },
  'not-met': { word: 'Objetivo no cumplido', means: 'Lo que faltó está abajo.' },
  'not-played': {
    word: 'Sin hacer',
    means: 'La sesión terminó antes de que algo fuera mal. No cuenta: repetir y seguir con el trabajo.',
  },
  'broken-off': {
    word: 'Interrumpido',
    means: 'La sesión no tiene final propio o se siguió en otro sitio. No cuenta.',
  },
};

/** By the name that the rig gives to what is heard. */
const SENSED: Readonly<Record<Extract<Sign, { by: 'ear' }>['sensed'], string>> = {
  'hose-blows': 'El aire sale con ruido de la manguera abierta',
  burst: 'Un estallido: el aire sale con ruido del packer',
  'relief-blows': 'La válvula de seguridad sopla',
};

const PRACTICE = {
  title: 'Prácticas',
  lead: 'Doce ejercicios en el equipo de práctica, cada uno con un objetivo. En cada uno algo va mal tarde o temprano: qué y cuándo no se dice antes. Después viene el repaso.',
  who: '¿Quién practica?',
  nobody: 'Nadie nombrado',
  whoText: 'Las iniciales vienen de Ajustes, Personas. Los resultados se quedan en este ordenador.',
  play: 'Empezar',
  again: 'Repetir',
  running: 'Hay una sesión en marcha. Terminarla primero.',
  notYet: 'Aún sin hacer',
  played: (n: number, met: number) =>
    n === 1
      ? met === 1
        ? 'Cumplido a la primera'
        : 'Hecho una vez, no cumplido'
      : `Cumplido ${met} de ${n} veces`,
  progress: (met: number, all: number) => `${met} de ${all} cumplidos`,
  last: (outcome: string, date: string) => `${outcome}, ${date}`,
  free: 'Práctica libre',
  freeText: 'El trabajo entero sin fallos; los fallos se ponen a mano. Hay más sitios en la página en vivo.',
  certificateNote:
    'Una sesión terminada se puede sellar en su revisión como registro de práctica, con certificado de práctica.',
  toList: 'Todos los ejercicios',
  goal: 'Objetivo',
  dial: 'Manómetro',
  atSite: 'En el sitio',
  quiet: 'No se oye nada',
};

const DEBRIEF = {
  title: 'Repaso',
  plotLabel: 'Presión a lo largo de la sesión, con los números de la lista',
  keyRead: 'leído por el sensor',
  keyTruth: 'en el propio packer',
  keyRated: 'admisible',
  lead: 'Equipo de práctica: nada de aquí es de una línea real.',
  none: 'Esta sesión no se hizo en el equipo de práctica: no hay nada que repasar.',
  playedBy: (who: string) => `Hecho por ${who}`,
  goalIs: 'Objetivo',
  checks: 'Lo que pide el objetivo',
  wentWrong: 'Qué fue mal',
  happened: 'Qué pasó',
  when: 'Tiempo de sesión',
  what: 'Qué',
  who: { rig: 'fallo', sign: 'visto', ear: 'oído', hand: 'mano' },
  figures: 'En cifras',
  faultAt: 'El fallo vino a los',
  firstSign: 'Primera señal',
  signAfter: (after: string, what: string) => `${after} después: ${what}`,
  noSign: 'ninguna',
  action: 'Primera mano que ayudó',
  actionAfter: (after: string) => `${after} tras la señal`,
  actionBefore: 'antes de cualquier señal',
  noAction: 'ninguna',
  peak: 'Pico en el packer',
  margin: 'Margen hasta la admisible',
  overBy: (over: string) => `superada en ${over}`,
  could: 'Una mano preparada (tres segundos)',
  couldPeak: (peak: string) => `lo habría parado en ${peak}`,
  print: 'Imprimir o guardar como PDF',
  review: 'Curva y revisión',
  open: 'Repaso',
  more: (n: number) => `Hay ${n} más en el registro.`,
  truth: 'La presión del propio packer, que ningún sensor muestra, solo se conoce en el equipo de práctica.',
};

const GAUGED: Readonly<Partial<Record<Check, 'bar' | 'seconds'>>> = {
  'under-rated': 'bar',
  'under-ceiling': 'bar',
  filled: 'bar',
  'held-up': 'bar',
  vented: 'bar',
  'empty-opened': 'bar',
  'shut-in-time': 'seconds',
  'held-long': 'seconds',
};

const CHECK: Record<Check, string> = {
  'under-rated': 'Packer bajo su presión admisible',
  'under-ceiling': 'Packer bajo el techo',
  'shut-in-time': 'Llave de aire cerrada tras la primera señal',
  'stays-shut': 'La llave de aire siguió cerrada',
  vented: 'Línea vaciada por la purga',
  'turned-down': 'Regulador bajado antes de abrir la llave',
  'gauge-compared': 'Manómetro comparado antes de dar más aire',
  filled: 'Inflado hasta la presión de trabajo',
  'held-up': 'Packer mantenido pese a la fuga',
  'held-long': 'Mantenido veinte minutos con la fuga',
  'not-held': 'Ninguna retención empezada',
  'empty-opened': 'Packer vacío al desacoplar o al terminar',
  'tested-empty': 'La prueba de rebote siguió en cero',
  'cure-waited': 'Tiempo de curado alcanzado antes de desinflar',
};

export const practice = (f: Format) => ({
  DRILL,
  OUTCOME,
  SENSED,
  PRACTICE,
  DEBRIEF,

  /** A check with its figure against its limit, and whether it was met. */
  checkText({ check, ok, value, limit }: Checked, units: DisplayUnits = METRIC): string {
    const kind = GAUGED[check];
    const show = (x: number): string => (kind === 'bar' ? f.pressure(x, units) : f.duration(x));
    const figure =
      kind === undefined || value === null
        ? ''
        : limit === null
          ? ` (${show(value)})`
          : ` (${show(value)}, límite ${show(limit)})`;
    return `${ok ? 'Sí' : 'No'}: ${CHECK[check]}${figure}`;
  },

  /** @param value 0 to 1, or bar */
  handText(name: string, value: number | null, units: DisplayUnits = METRIC): string {
    switch (name) {
      case 'valve':
        return value === 0 ? 'Llave de aire cerrada' : `Llave de aire abierta, ${f.percent(value ?? 0)}`;
      case 'regulator':
        return `Regulador a ${f.pressure(value, units)}`;
      case 'vent':
        return value === 0 ? 'Purga cerrada' : 'Purga abierta';
      case 'couple':
        return value === 0 ? 'Manguera desacoplada' : 'Manguera acoplada';
      case 'end':
        return value === 0 ? 'Extremo de la manguera abierto' : 'Extremo de la manguera cerrado';
      case 'warm':
        return value === 0 ? 'Sondas sueltas' : 'Sondas en la mano';
      default:
        return name;
    }
  },
});
