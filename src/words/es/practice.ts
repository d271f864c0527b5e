import type { Check, DrillCode, Outcome } from '../../practice/codes.ts';
import type { Checked, Sign } from '../../practice/shapes.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** Ejercicios en el equipo de práctica y su repaso. Título y objetivo no revelan nada; el fallo se dice después. */

type DrillWords = { readonly title: string; readonly goal: string; readonly fault: string };

const DRILL: Record<DrillCode, DrillWords> = {
  'drill-stuck-open': {
    title: 'Inflar: no pasar de la admisible',
    goal: 'El packer queda por debajo de su presión admisible, y la llave de aire, una vez cerrada, queda cerrada.',
    fault: 'El regulador se quedó abierto y dejó pasar toda la presión.',
  },
  'drill-creep': {
    title: 'Inflar: parar donde toca',
    goal: 'Inflar hasta la presión de trabajo, cerrar la llave uno mismo y quedar por debajo del tope.',
    fault: 'El regulador fue subiendo despacio.',
  },
  'drill-unplug': {
    title: 'Inflar: rápido en la llave, uno',
    goal: 'En cuanto la presión ya no se conoce, la llave de aire se cierra en diez segundos.',
    fault: 'El cable se salió; el aire siguió entrando.',
  },
  'drill-blown-hose': {
    title: 'Inflar: rápido en la llave, dos',
    goal: 'En cuanto algo va mal, la llave de aire se cierra en diez segundos y queda cerrada.',
    fault: 'La manguera saltó de su acople.',
  },
  'drill-burst': {
    title: 'Inflar: rápido en la llave, tres',
    goal: 'En cuanto algo va mal, la llave de aire se cierra en diez segundos y queda cerrada, y la línea se vacía.',
    fault: 'El packer reventó.',
  },
  'drill-relief': {
    title: 'Inflar: cuando no sube',
    goal: 'No inflar en contra: llave de aire cerrada en veinte segundos, sin retención, y la línea vaciada.',
    fault: 'La válvula de seguridad abrió muy por debajo de su ajuste.',
  },
  'drill-leak': {
    title: 'Retención: mantenerlo arriba',
    goal: 'Desde que algo va mal, mantener el packer cerca de su presión de trabajo durante veinte minutos.',
    fault: 'Empezó una fuga.',
  },
  'drill-kink': {
    title: 'Desinflar: vacío es vacío',
    goal: 'Mostrar con la prueba de purga que el packer está vacío, antes de desacoplar o de terminar la sesión.',
    fault: 'La manguera se dobló al desinflar: la línea marcaba cero y el packer estaba lleno.',
  },
  'drill-moved': {
    title: 'Asentar: antes de volver a abrir',
    goal: 'Abrir la llave para la presión de trabajo solo si el aire de entrada está por debajo del tope, e inflar.',
    fault: 'El regulador se subió durante la pausa.',
  },
  'drill-differ': {
    title: 'Asentar: a quién creer',
    goal: 'Si dos lecturas se contradicen, comparar el manómetro antes de meter más aire; luego inflar.',
    fault: 'El segundo sensor marcaba muy poco.',
  },
  'drill-open-probe': {
    title: 'Curar: las horas que cuentan',
    goal: 'Desinflar solo cuando se alcanza el tiempo de curado, y terminar la sesión con el packer vacío.',
    fault: 'La sonda de la manga se rompió.',
  },
  'drill-slow-batch': {
    title: 'Curar: este mismo lote',
    goal: 'Decir enseguida que la resina está mezclada. Desinflar solo cuando se alcanza el tiempo de curado de este lote, y terminar la sesión con el packer vacío.',
    fault: 'El lote era lento; solo el vaso lo mostraba.',
  },
};

const OUTCOME: Record<Outcome, { readonly word: string; readonly means: string }> = {
  met: { word: 'Objetivo cumplido', means: 'Se hizo todo lo que pide el objetivo.' },
  'not-met': { word: 'Objetivo no cumplido', means: 'Lo que faltó está abajo.' },
  'not-played': {
    word: 'Sin jugar',
    means: 'La sesión terminó antes de que algo fuera mal. No cuenta: repetir y seguir con el trabajo.',
  },
  'broken-off': {
    word: 'Interrumpido',
    means: 'La sesión no tiene final propio o siguió en otra obra. No cuenta.',
  },
};

/** Por el nombre que el equipo da a lo que se oye. */
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
  whoText: 'Las iniciales están en los ajustes, Personas. Los resultados quedan en este ordenador.',
  play: 'Jugar',
  again: 'Repetir',
  running: 'Hay una sesión en marcha. Termínela primero.',
  notYet: 'Aún sin jugar',
  played: (n: number, met: number) =>
    n === 1
      ? met === 1
        ? 'Cumplido a la primera'
        : 'Jugado una vez, no cumplido'
      : `Cumplido ${met} de ${n} veces`,
  progress: (met: number, all: number) => `${met} de ${all} cumplidos`,
  last: (outcome: string, date: string) => `${outcome}, ${date}`,
  free: 'Práctica libre',
  freeText:
    'El trabajo entero sin fallos; los fallos los pone uno mismo. Hay más obras en la página en vivo.',
  certificateNote:
    'Una sesión terminada puede sellarse en su revisión como registro de práctica con un certificado de práctica.',
  toList: 'Todos los ejercicios',
  goal: 'Objetivo',
  dial: 'Manómetro',
  atSite: 'En la obra',
  quiet: 'No se oye nada',
};

const DEBRIEF = {
  title: 'Repaso',
  plotLabel: 'Presión a lo largo de la sesión, con los números de la lista',
  keyRead: 'leído por el sensor',
  keyTruth: 'en el propio packer',
  keyRated: 'admisible',
  lead: 'Banco de prácticas: nada aquí es de una línea real.',
  none: 'Esta sesión no se jugó en el equipo de práctica: no hay nada que repasar.',
  playedBy: (who: string) => `Jugado por ${who}`,
  goalIs: 'Objetivo',
  checks: 'Lo que pide el objetivo',
  wentWrong: 'Qué fue mal',
  happened: 'Qué pasó',
  when: 'Tiempo',
  what: 'Qué',
  who: { rig: 'fallo', sign: 'visto', ear: 'oído', hand: 'mano' },
  figures: 'En cifras',
  faultAt: 'El fallo vino a los',
  firstSign: 'Primera señal',
  signAfter: (after: string, what: string) => `${after} después: ${what}`,
  noSign: 'ninguna',
  action: 'Primera mano que ayudó',
  actionAfter: (after: string) => `${after} tras la señal`,
  actionBefore: 'antes de toda señal',
  noAction: 'ninguna',
  peak: 'Pico en el packer',
  margin: 'Margen hasta la admisible',
  overBy: (over: string) => `superada en ${over}`,
  could: 'Una mano lista (tres segundos)',
  couldPeak: (peak: string) => `habría parado en ${peak}`,
  print: 'Imprimir o guardar como PDF',
  review: 'Curva y revisión',
  open: 'Repaso',
  more: (n: number) => `${n} más están en el registro.`,
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
  'under-rated': 'Packer por debajo de su presión admisible',
  'under-ceiling': 'Packer por debajo del tope',
  'shut-in-time': 'Llave de aire cerrada tras la primera señal',
  'stays-shut': 'La llave de aire quedó cerrada',
  vented: 'Línea vaciada por la purga',
  'turned-down': 'Regulador bajado antes de abrir la llave',
  'gauge-compared': 'Manómetro comparado antes de meter más aire',
  filled: 'Inflado hasta la presión de trabajo',
  'held-up': 'Packer mantenido pese a la fuga',
  'held-long': 'Retenido veinte minutos con la fuga',
  'not-held': 'Ninguna retención empezada',
  'empty-opened': 'Packer vacío al desacoplar o al terminar',
  'tested-empty': 'La prueba de purga quedó en cero',
  'cure-waited': 'Tiempo de curado alcanzado antes de desinflar',
};

export const practice = (f: Format) => ({
  DRILL,
  OUTCOME,
  SENSED,
  PRACTICE,
  DEBRIEF,

  /** Una exigencia, su cifra, su límite, y si se cumplió. */
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

  /** Lo que hizo una mano, por el nombre del equipo. @param value 0 a 1, o bar */
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
        return value === 0 ? 'Punta de la manguera abierta' : 'Punta de la manguera cerrada';
      case 'warm':
        return value === 0 ? 'Sondas sueltas' : 'Sondas en la mano';
      default:
        return name;
    }
  },
});
