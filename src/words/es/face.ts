import type { Priority, Stage } from '../../watch/codes.ts';
import type { FACE as ENGLISH } from '../en/face.ts';

export const FACE: typeof ENGLISH = {
  // under and over the pressure
  lineU: (u: string) => `Presión de la línea ± ${u}`,
  lineLost: 'Presión: sin lectura',
  lineOld: 'Presión de la línea, lectura antigua',
  oldFor: (age: string) => `Lectura antigua, ${age}`,
  atRated: 'EN LA ADMISIBLE',
  overRated: (by: string) => `SOBRE ADMISIBLE +${by}`,
  mayHoldAir: 'PUEDE TENER AIRE',
  spanEnds: (end: string) => `El sensor no lee más allá de ${end}.`,
  steady: 'estable',
  rising: (slope: string) => `sube ${slope}`,
  risingAtRest: (slope: string, rest: string) => `sube ${slope}, sin flujo ${rest}`,
  falling: (slope: string) => `baja ${slope}`,

  // under and over the time
  noRun: 'Aún no hay sesión',
  runLeftOpen: 'Una sesión quedó sin cerrar',
  mayBeFull: 'Puede estar lleno',
  now: 'YA',
  cueMeans: 'después cerrar la llave',
  cueNow: 'Cerrar la llave',
  cueThen: 'y dejarla cerrada',
  cueStopped: {
    still: 'La subida ha acabado.',
    reading: 'No hay lectura con que contar.',
    unsure: 'La subida no es bastante regular.',
  },
  lastValue: (value: string) => `última ${value}`,
  lastValueAt: (value: string, clock: string) => `última ${value}, a las ${clock}`,
  everyoneClear: ['TODOS', 'LEJOS'],
  overFor: (time: string) => `Lleva sobre la admisible ${time}`,
  trueUnknown: 'no se sabe cuánto',
  peak: (value: string) => `pico ${value}`,
  ifLeftOpen: (value: string) => `si queda abierta: ${value}`,
  stillRising: 'aún sube',
  notRising: 'ahora no sube',
  potLifeOver: 'La vida de la mezcla ha acabado',
  mixedAgo: (time: string) => `mezclada hace ${time}`,
  thenGauge: 'después leer el manómetro',
  inBand: (time: string) => `En la banda de retención ${time}`,
  leak: (verdict: string) => `Fuga: ${verdict}`,
  held: (time: string) => `Lleva en retención ${time}`,
  checkSample: ['TOCAR', 'MUESTRA'],
  metAgo: (time: string) => `hace ${time}`,
  reached: (when: string) =>
    when === '' ? 'Tiempo de curado alcanzado' : `Tiempo de curado alcanzado ${when}`,
  metAt: (clock: string, time: string) => `a las ${clock}, hace ${time}`,
  metIn: (low: string, high: string) => (low === high ? `dentro de ${low}` : `dentro de ${low} a ${high}`),
  metBetween: (from: string, to: string) =>
    from === to ? `se alcanza a las ${to}` : `se alcanza entre ${from} y ${to}`,
  coldest: (value: string) => `Punto probable más frío ${value}: no se cuenta nada.`,
  ofSeconds: (time: string) => `de ${time}`,
  cameBack: (value: string, u: string) => `volvió a ${value}, más que el ±\u00a0${u} de la lectura`,
  rose: (value: string, u: string) =>
    `subió a ${value}: dentro del ±\u00a0${u} de la lectura, pero no es ruido`,
  notEmpty: 'una línea a cero no es un packer vacío',
  // of an air test
  airVerdict: {
    passed: ['SUPERADO'],
    failed: ['NO', 'SUPERADO'],
    'cannot-say': ['NO SE', 'PUEDE DECIR'],
  },
  airDrop: (drop: string, u: string, allowed: string) => `caída ${drop} ± ${u}, admitida ${allowed}`,
  airAllowed: (allowed: string) => `caída admitida ${allowed}`,
  thenTest: 'después cerrar la purga y probar',

  // keys
  more: 'Más',
  close: 'Cerrar',
  hold: 'mantener pulsado',
  useSheet: 'Seguir con esta hoja de trabajo',
  choosePacker: 'Elegir el packer',
  warm: 'Calentar las sondas',
  testSound: 'Probar el sonido',
  ackNext: (title: string) => `Reconocer la siguiente: ${title}`,
  acknowledged: (time: string) => `Reconocida hace ${time}`,
  wasDo: 'Terminó: reconocerla.',
  wasTitle: (title: string) => `Antes: ${title}`,
  others: 'También hay',
  orderLabel: 'Qué hacer',
  timeLabel: 'Tiempo',

  // drawer
  spanStage: 'Según la fase',
  tabs: {
    start: 'Inicio',
    numbers: 'Números',
    spans: 'Tramos',
    stages: 'Otras fases',
    checks: 'Revisiones',
    checklist: 'Lista de control',
    note: 'Nota',
    alarms: 'Alarmas',
    run: 'Hoja y sesión',
    rig: 'Equipo de práctica',
    why: 'Por qué',
  },
  runTabShort: 'Hoja',
  whyTitle: (action: string) => `¿${action} a pesar de todo?`,
  whyText: 'Pulsar el motivo. Se registra con el paso.',
  ownReason: 'Otro motivo',
  noStages: 'Desde aquí no hay otra fase.',
  allAlarms: 'Nada espera y nada está aplazado.',
  shelfTitle: 'Aplazar diez minutos',
  takeBack: 'Volver a activarla',
  endHold: 'Terminar la sesión: mantener pulsado',

  // strip and bars of the other pages
  recording: 'Grabando',
  rec: 'Reg',
  lamp: (n: number, priority: string, more: number) =>
    more === 0 ? `${n} ${priority}` : `${n} ${priority}, +${more}`,
  marks: (n: number) => (n === 1 ? '1 aviso' : `${n} avisos`),
  shelved: (title: string, left: string) => `Aplazada: ${title}, quedan ${left}`,
  shelvedShort: (left: string) => `Aplazada, quedan ${left}`,
  shelvedMany: (n: number, left: string) => `${n} aplazadas, a la próxima le quedan ${left}`,
  soundOff: 'MUDO',
  goLive: 'Ir a En vivo',
  mixedLeft: (time: string) => `vida de mezcla ${time}`,
  cureLeft: (time: string) => `de curado quedan ${time}`,
  cureMet: 'tocar la muestra',
};

/** Beside a count of alarms. */
export const LAMP: Record<Priority, string> = { urgent: 'urgente', high: 'importante', low: 'menor' };

export const REASONS: Record<Stage, readonly string[]> = {
  prepare: ['El intento empieza de nuevo.'],
  seat: ['Causa de la alarma vista y arreglada.', 'Cero comparado con el manómetro.'],
  inflate: ['Causa de la alarma vista y arreglada.', 'Se ha leído el manómetro.', 'El aire está repuesto.'],
  hold: ['Se ha leído el manómetro.', 'Basta para esta manga.', 'El intento sigue como está.'],
  'let-down': [
    'Manga tocada dura, muestra no a mano.',
    'Hay que quitar la presión ya.',
    'Se abandona el intento.',
  ],
  done: ['Packer visto vacío.', 'Purgado por otro sitio.'],
  'air-test': ['Obturadores puestos y apuntalados.', 'Otro sensor vigila el packer.'],
  abandoned: [
    'La manga está mal puesta.',
    'Hay que quitar la presión ya.',
    'La resina cuajó antes de tiempo.',
  ],
};

/** Which of the reasons for 'done' says that the packer was seen empty. */
export const SEEN_EMPTY = 0;

export const SHELF_REASONS: readonly string[] = [
  'Se sabe, hay alguien con ello.',
  'Causa vista, no hace daño.',
  'No se puede arreglar en esta sesión.',
];
