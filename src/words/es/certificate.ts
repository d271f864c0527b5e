import type { JobDocument } from '../../job/job-document.ts';
import type { MapKind } from '../../job/reading-map.ts';
import type { Setup } from '../../job/setup.ts';
import type { Priority } from '../../watch/codes.ts';
import { type Format, METRIC } from '../create-format.ts';
import { OCCASIONS } from './occasions.ts';

/** They promise nothing about the resin or the repair. */
const CERTIFICATE = {
  title: 'Certificado de presión y tiempo de curado',
  practice: {
    title: 'Certificado de práctica',
    mark: 'PRÁCTICA',
    what: 'PRÁCTICA. Grabado en el equipo de práctica: no había packer, ni tubo, ni resina. No es registro de ningún trabajo ni demuestra ninguna reparación.',
    trainee: 'Aprendiz',
    trainer: 'Visto por quien enseña',
  },
  lead: 'Hecho por Steadybar a partir de un registro sellado y de nada más. Fechas y horas son UTC según el reloj del ordenador; el tiempo de sesión cuenta desde la primera lectura.',
  record: (run: string) => `Registro ${run}`,
  pageOf: (n: number, of: number) => `página ${n} de ${of}`,
  noException: 'Excepciones: ninguna que conste en el registro.',
  exceptionsAre: (n: number) => (n === 1 ? '1 excepción:' : `${n} excepciones, la de más peso primero:`),
  allOnNext: (n: number) => `y ${n} más en la página 2`,
  peakRated: (rated: string) => `pico, admisible ${rated}`,
  peakOnly: 'pico, sin límite puesto',
  lowestFloor: (floor: string) => `lo más bajo en retención, mínimo ${floor}`,
  lowestOnly: 'lo más bajo en retención, mínimo no se sabe',
  leakMost: 'fuga como máximo, descontado el calor',
  leakOf: 'fuga, descontado el calor',
  leakNone: 'fuga: no se puede decir',
  most: (rate: string) => `≤ ${rate}`,
  coldestShort: 'punto probable más frío',
  batchesOf: 'Resina, lotes',
  waterAbove: 'Agua freática sobre la solera',
  groundAt: 'Terreno o tubo',
  sensorU: (sensor: string, u: string) => `${sensor}, ± ${u}`,
  calibrated: 'Calibrado',
  gaugeAtSeat: 'Manómetro y sensor, al asentar',
  witness: 'Muestra testigo',
  cup: 'Vaso testigo',
  metres: (m: string) => `${m} m`,
  doesNotShort:
    'qué tubo se reparó, dónde estaba el sensor, que el reloj del ordenador iba bien, qué resistencia tiene la resina, si alguien recibió el trabajo. Las correcciones están en el fichero de registro. Página 3: más, y cómo verificarlo sin fiarse de quien lo envía.',
  added: (n: number) =>
    n === 1
      ? 'Firmado después del sellado, 1 añadido:'
      : `Firmados después del sellado, ${n} añadidos, el último:`,
  decided: {
    released: (by: string, when: string) => `Aprobado por ${by}, ${when}.`,
    rejected: (by: string, when: string) => `Rechazado por ${by}, ${when}.`,
  },
  because: (reason: string) => `Motivo: «${reason}».`,
  decisionNote: 'Esta decisión la dice quien imprimió esto; ningún sello la cubre.',
  utcTime: (time: string) => `${time} UTC`,
  runTime: (time: string) => `tiempo de sesión ${time}`,
  runLong: (length: string) => `sesión de ${length}`,
  siteNot: 'obra sin decir',
  pipeNot: 'tubo sin decir',
  fingerprintLabel: 'Huella del registro (SHA-256 de su manifiesto firmado)',
  details: 'Detalles del registro',
  repair: 'Qué se reparó',
  how: 'Cómo',
  held: 'Lo que muestra el registro',
  trace: 'Presión y temperaturas a lo largo de la sesión',
  traceNote:
    'Presión de la línea en el sensor (presión manométrica) y temperaturas en las sondas, con los límites vigentes. Las columnas grises son tiempos sin lecturas; las marcas de arriba son alarmas.',
  exceptions: 'Excepciones',
  noExceptions: 'Ninguna que conste en el registro.',
  moreExceptions: (n: number) => `y ${n} más en el registro`,
  doesNot: 'Lo que esta página no demuestra',
  doesNotText:
    'El sello muestra que quien tiene la clave de firma firmó exactamente este registro, y que desde entonces no se cambió nada en él. No muestra qué tubo se reparó ni que la curva sea de esta reparación: quien tiene el ordenador puede empezar una sesión en cualquier línea de aire. No muestra dónde estaban el sensor de presión ni las sondas, que el reloj del ordenador iba bien, ni que los datos de la hoja de trabajo sean ciertos; esos los escribieron personas. El tiempo de curado es el de la ficha técnica a las temperaturas leídas o supuestas; si la resina está dura lo dicen la muestra testigo y la inspección, no esta página. Las correcciones firmadas después del sellado están en el fichero de registro, no aquí.',
  check: 'Cómo verificarlo',
  checkText:
    'Pedir el fichero de registro (.steadybar.zip). Su CHECK.txt trae los pasos a mano, con openssl y sha256sum y nada de Steadybar; quien tenga el programa puede abrir el fichero en «Verificar un fichero». El código contiene el SHA-256 del manifest.json del fichero, el mismo que aquí:',
  key: 'Firmado con la clave (compararla con la lista de claves que dio la empresa):',
  made: (run: string, software: string, engine: string, sealed: string, sealedBy: string) =>
    `Sesión ${run}; registrada por ${software}, motor ${engine}; sellada ${sealed} por ${sealedBy}.`,
  codeOpens: (page: string) =>
    `Abre la página de verificación en ${page} con esa huella ya puesta; si esa página es la de la empresa, lo dice la empresa.`,
  when: 'Quién acota cuándo se hizo',
  noWitness:
    'Ninguna refrendante había visto el diario del ordenador cuando se hizo esta página: sus horas son palabra del propio reloj del ordenador.',
  openedAfter: (when: string, key: string) =>
    `Abierto después de ${when}: lo que firmó entonces la refrendante con la clave ${key} estaba en el diario antes que él.`,
  sealedBefore: (when: string, key: string) =>
    `Sellado antes de ${when}: la refrendante con la clave ${key} firmó entonces el diario, con este registro dentro.`,
  stampedBefore: (when: string) =>
    `Sellado antes de ${when}: lo dice un sello de tiempo (RFC 3161) sobre el diario; lo comprueba openssl ts -verify.`,
  qrLabel: 'Código QR con la huella del manifiesto',
  signatures: 'Firmas',
  signCrew: 'Por la cuadrilla',
  signFirm: 'Por la empresa',
  signClient: 'Visto por el cliente',
  signLine: 'Nombre, fecha, firma',
  signedBy: (name: string, when: string) => `${name}, ${when}, a mano en la pantalla del ordenador`,
  present: 'Cuadrilla de ese día',
  atComputer: (names: string, list: string) =>
    names === '' ? `Al ordenador: ${list}` : `${names}; al ordenador: ${list}`,
  checklist: 'Lista de control',
  checklistOf: (list: string) =>
    `${list}, como el trabajo la guardó al abrirse. Las respuestas son palabra de la cuadrilla; las dadas durante la sesión están en su registro.`,
  checkItem: 'Punto',
  checkAnswer: 'Respuesta',
  checkWhen: 'Cuándo',
  checkBy: 'Quién',
  checkDone: 'sí',
  checkOpen: 'sin responder',
  checkSafety: (item: string) => `${item} (seguridad)`,
  photos: 'Fotografías',
  photosNote:
    'Como se sellaron con el registro; en su fichero son más grandes. El sello muestra que no se cambiaron desde entonces, no de qué son.',
  photoOf: (n: number, what: string) => `${n} ${what}`,
  photoTaken: {
    camera: (when: string) => `hecha ${when} según el reloj del ordenador`,
    file: (when: string) => `un fichero con fecha ${when}`,
  },
  photoOriginal: 'el original está en el fichero de registro',
  photoMissing: 'Esta fotografía no estaba cuando se hizo esta página.',
  photosMore: (n: number) =>
    n === 1 ? 'Hay una más en el fichero de registro.' : `Hay ${n} más en el fichero de registro.`,
  occasions: OCCASIONS,
  notKnown: 'no se sabe',
  notStated: 'sin decir',

  // rows
  site: 'Obra',
  client: 'Cliente',
  reference: 'Referencia',
  defect: 'Defecto',
  pipe: 'Tubo',
  chainage: (metres: string) => `a ${metres} m del pozo de partida`,
  long: (mm: string) => `${mm} mm de largo`,
  dn: (dn: number) => `DN ${dn}`,
  inner: (mm: string) => `diámetro interior ${mm} mm`,
  crew: 'Cuadrilla',
  date: 'Registrado',
  fromTo: (from: string, to: string) => `${from} a ${to}`,
  utc: (date: string, time: string) => `${date} ${time} UTC`,
  packer: 'Packer',
  serial: (serial: string) => `n.º de serie ${serial}`,
  rated: 'Presión admisible',
  ratedHere: (pressure: string) => `${pressure} con este diámetro`,
  resin: 'Resina',
  batch: (resin: string) => `lotes ${resin}`,
  batches: (resin: string, hardener: string) => `lotes ${resin} y ${hardener}`,
  mixedAt: (temperature: string) => `mezclada a ${temperature}`,
  warmed: 'Packer calentado',
  warmedTo: (temperature: string) => `a ${temperature}`,
  sleeve: 'Manga',
  layers: (n: number) => (n === 1 ? '1 capa' : `${n} capas`),
  overlap: (mm: string) => `${mm} mm más allá de cada extremo del defecto`,
  line: 'Línea de aire',
  wetLine: 'con agua dentro',
  onLine: 'línea de aire',
  tap: 'Sensor en',
  channel: (n: number) => `canal ${n}`,
  type: (letter: string) => `tipo ${letter}`,
  sensors: 'Sensores',
  sensor: 'Sensor',
  place: 'Posición',
  calibration: 'Calibración',
  against: (reference: string) => `contra ${reference}`,
  notCalibrated: 'sin calibrar',
  asTyped: 'Los datos de la hoja de trabajo están como los escribió la cuadrilla.',

  working: 'Presión de trabajo',
  airTest: 'Ensayo con aire',
  airTestNone: 'previsto, sin hacer',
  outlet: 'Suministro a la salida del regulador, antes de inflar',
  held_: 'Presión mantenida',
  band: 'Banda de retención',
  bandUpTo: (ceiling: string) => `mínimo no se sabe, hasta ${ceiling}`,
  bandOf: (floor: string, ceiling: string) => `${floor} a ${ceiling}`,
  bandSeen: (floor: string, ceiling: string) =>
    `${floor} a ${ceiling} (mínimo según lo que mostró el inflado)`,
  leak: 'Fuga',
  peak: 'Pico de la sesión',
  peakU: (peak: string, u: string) => `${peak} ± ${u} (k = 2)`,
  cure: 'Tiempo de curado de la ficha técnica',
  coldest: 'Punto probable más frío al curar',
  noHold: 'No se registró ninguna retención.',
  holdNumber: (n: number, held: string) => `Retención ${n}: ${held}`,
};

const INFILTRATED: Record<JobDocument['defect']['infiltration'], string> = {
  'not-looked': 'infiltración no se miró',
  none: 'infiltración no se ve',
  damp: 'infiltración: húmedo',
  dripping: 'infiltración: gotea',
  running: 'infiltración: corre',
};

const WARMED_BY: Record<JobDocument['heating']['by'], string> = {
  unknown: 'sin decir',
  none: 'no',
  'hot-air': 'con aire caliente',
  water: 'con agua caliente',
  steam: 'con vapor',
};

const PIPE_OF: Record<Exclude<JobDocument['pipe']['material'], 'unknown'>, string> = {
  clay: 'gres',
  concrete: 'hormigón',
  pvc: 'PVC',
  pe: 'PE',
  iron: 'fundición',
  grp: 'PRFV',
};

const HOW_FED: Record<Setup['line'], string> = {
  closed: 'llave cerrada',
  'supplied-relieving': 'con suministro, regulador con alivio',
  'supplied-nonrelieving': 'con suministro, regulador sin alivio',
  unknown: 'no se sabe',
};

const ALARM: Record<Priority, string> = {
  urgent: 'Alarma, urgente',
  high: 'Alarma, importante',
  low: 'Alarma, menor',
};

export function certificate(f: Format) {
  const CURE_LINE = {
    met: 'alcanzado en el punto probable más frío (cuenta prudente)',
    metAfter: (s: number) => `${f.duration(s)} después de empezar a contar`,
    /** @param c coldest that it may have been */
    sinceMixing: (minutes: number, c: number) =>
      `${f.duration(minutes * 60)} antes del asiento contados desde la mezcla, a ${f.quantity('temperature', c, METRIC, 1)} o más`,
    metThen: (s: number) => `la retención siguió ${f.duration(s)}`,
    notMet: (s: number) =>
      `no alcanzado dentro de este registro (cuenta prudente); se contaron ${f.duration(s)}`,
    light: 'no se juzgó: la resina cura con luz',
    noResin: 'no se siguió: sin resina con tiempos de curado en la hoja de trabajo',
    notStarted: 'no empezó a contar',
  };

  const heldText = (
    bandS: number,
    holdS: number,
    low: number | null,
    high: number | null,
    uBar: number | null,
    floorKnown: boolean,
  ): string => {
    const bounds =
      low === null || high === null
        ? 'ninguna presión que sirva'
        : `${f.pressure(low)} a ${f.pressure(high)}${uBar === null ? '' : `, cada una ± ${f.pressure(uBar)} (k = 2)`}`;
    const where = floorKnown ? 'en la banda de retención' : 'inflado y no sobre el techo';
    return `${f.duration(bandS)} ${where}, de ${f.duration(holdS)}; ${bounds}`;
  };

  const EXCEPTION = {
    interrupted: 'La sesión no la terminó la cuadrilla: se encontró abierta y se cerró como interrumpida.',
    resumed: (n: number, s: number) =>
      `La grabación se cortó y se reanudó (${n} ${n === 1 ? 'vez' : 'veces'}); faltan ${f.duration(s)}.`,
    damage: (n: number) =>
      n === 1
        ? '1 bloque del registro estaba dañado en el ordenador antes de sellarlo.'
        : `${n} bloques del registro estaban dañados en el ordenador antes de sellarlo.`,
    noJob: 'A este registro no le corresponde hoja de trabajo: obra, packer, resina y sensores no se saben.',
    noPacker: 'No se sabe el packer.',
    noLimit: 'No había límite puesto: nada avisaba de la presión admisible del packer.',
    noMargin: (reason: string) =>
      `La presión de trabajo era la admisible, sin margen. Motivo dado: ${reason}`,
    overRated: (bar: number) => `La lectura pasó de la presión admisible: ${f.pressure(bar)}.`,
    overCeiling: (bar: number) => `La lectura pasó del techo: ${f.pressure(bar)}.`,
    noFloor: 'El mínimo no se sabe, así que nada dice si la presión bajó de él.',
    floorSeen: 'La presión de inflado libre del packer no se sabía y se tomó de lo que mostró el inflado.',
    noWater: 'No se sabe el agua freática sobre el tubo.',
    noFree: 'No se sabe la presión de inflado libre propia del packer.',
    tap: 'El sensor no leía la presión propia del packer (o no se sabe): retención y fuga no se pudieron juzgar.',
    tapHose:
      'El sensor estaba en la manguera: mientras pasaba aire, su lectura no era la presión del packer.',
    lineUnknown: 'No se sabe cómo se alimentaba el packer: una fuga no se podía decir.',
    lineSupplied: 'La línea tenía suministro durante la retención: una fuga no se podía ver.',
    supplyWentOn:
      'El packer se infló con un suministro que la prueba había mostrado demasiado alto, o que subía solo.',
    supplyVoid: (why: string) => `La prueba del suministro dejó de valer: ${why}.`,
    noZero: 'El cero del sensor de presión no se tomó con el acople abierto.',
    noSecondZero: 'El cero del segundo sensor de presión no se tomó.',
    noGauge: 'El manómetro no se comparó con el sensor.',
    gaugeDiffers: (gauge: number, reading: number | null) =>
      `Manómetro y sensor discreparon: ${f.pressure(gauge)} y ${reading === null ? 'sin lectura' : f.pressure(reading)}.`,
    probeUnchecked: (place: string) => `La sonda (${place}) no se comparó con un termómetro.`,
    probeDiffers: (place: string) => `La sonda (${place}) y el termómetro discreparon.`,
    readBy: {
      registers:
        'Las lecturas vinieron de un bus con un mapa de registros: sus horas son las de este ordenador, y ningún aparato guardaba un límite propio.',
      columns:
        'Línea sin control: las lecturas vinieron como texto sin suma, así que una alterada puede parecer buena; sus horas son las de este ordenador, y ningún aparato guardaba un límite propio.',
    } satisfies Record<MapKind, string>,
    besideDevice: (id: string) =>
      `Las temperaturas vinieron de un segundo adaptador (${id}), a la hora del reloj de este ordenador.`,
    besideBy: {
      registers: (id: string) =>
        `Las temperaturas vinieron de un segundo adaptador (${id}), de un bus con un mapa de registros, a la hora del reloj de este ordenador.`,
      columns: (id: string) =>
        `Las temperaturas vinieron de un segundo adaptador (${id}) por una línea sin control: una alterada puede parecer buena; sus horas son las de este ordenador.`,
    } satisfies Record<MapKind, (id: string) => string>,
    besideGap: (n: number, s: number) =>
      `Las temperaturas del segundo adaptador faltan ${n === 1 ? 'una vez' : `${n} veces`}, ${f.duration(s)} en total.`,
    besideGone: (at: string) => `Las temperaturas del segundo adaptador faltan desde ${at}.`,
    noProbe: 'No se midió ninguna temperatura.',
    noSleeveProbe:
      'Sin sonda en la manga: el tiempo de curado se contó con otras sondas o con la temperatura del terreno prevista.',
    uncalibrated: (what: string) => `Sin calibrar: ${what}.`,
    pressureSensor: 'el sensor de presión',
    secondPressure: 'el segundo sensor de presión',
    probe: (place: string) => `la sonda (${place})`,
    unnamedPlace: 'posición sin decir',
    sharedLine:
      'De esta línea colgaban dos packers: las lecturas son a lo sumo de uno de ellos, y la fuga de uno u otro no se distingue.',
    lightCured:
      'El curado no se juzgó: la resina cura con luz, de la que tiempo y temperatura no dicen nada.',
    heatingUnknown:
      'No se dice si el packer se calentó desde fuera: el tiempo de curado se contó como si sí.',
    noMixed: 'No se anotó la hora de la mezcla.',
    noBatch: 'El lote de resina o de endurecedor no está anotado.',
    cup: (said: string) => `${said}.`,
    witnessNone: 'No se anotó ninguna muestra testigo.',
    witnessSoft: 'La muestra testigo se anotó como no dura.',
    witnessWarm: 'La muestra testigo no se guardó a la temperatura del tubo.',
    reboundNone: 'No se registró que la línea siguiera en cero con la purga cerrada tras desinflar.',
    airTestFailed: 'El ensayo con aire de la reparación no se superó.',
    airTestUnsaid: (why: string) => `El ensayo con aire no dice nada de la reparación: ${why}.`,
    airTestNone: 'Un ensayo con aire de la reparación estaba previsto y no se hizo.',
    airTestEarlier: (what: string) => `Antes: ${what}`,
    reboundBack: 'Tras desinflar, la presión volvió con la purga cerrada.',
    noHold: 'No se registró ninguna retención.',
    notHeld: (s: number) =>
      `La presión estuvo fuera de la banda de retención ${f.duration(s)} de la retención.`,
    attempts: (n: number) => `Se hicieron ${n} intentos.`,
    abandoned: 'Un intento se abandonó.',
    byData: 'Las fases se leyeron de los datos, no las dijo la cuadrilla.',
    topUps: (n: number) =>
      `La línea cerrada se repuso o se abrió ${n} ${n === 1 ? 'vez' : 'veces'} durante la retención.`,
    loss: 'La cuadrilla respondió que se perdía presión.',
    override: (what: string, reason: string) => `Se siguió contra el consejo (${what}): ${reason}`,
    setupRefused: 'Se rechazó un cambio de la hoja de trabajo durante la sesión.',
    gap: (reason: string, n: number, s: number) =>
      `Faltan lecturas: ${reason} (${n} ${n === 1 ? 'hueco' : 'huecos'}, ${f.duration(s)} en total).`,
    alarm: (priority: Priority, title: string, n: number, at: string) =>
      `${ALARM[priority]}: ${title}, ${n === 1 ? `a los ${at} de sesión` : `${n} veces, la primera a los ${at} de sesión`}.`,
    note: (at: string, text: string) => `Nota a los ${at} de sesión: ${text}`,
    checkPassed: (item: string, reason: string, by: string) =>
      `Se siguió sin un punto de seguridad${by === '' ? '' : ` (${by})`}: ${item}. Motivo: ${reason}`,
    safetyOpen: (list: string) => `Puntos de seguridad de la lista que nadie respondió: ${list}.`,
    unticked: (list: string) => `Puntos de la lista que nadie respondió: ${list}.`,
    keyLost:
      'La clave de firma anterior del ordenador se perdió; por la actual solo responde la palabra de la empresa.',
  };

  return { CERTIFICATE, CURE_LINE, EXCEPTION, HOW_FED, INFILTRATED, PIPE_OF, WARMED_BY, heldText };
}
