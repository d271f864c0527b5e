import type { MapKind } from '../../job/reading-map.ts';
import type { Finding, Remark, Verdict } from '../../record/findings.ts';
import type { ApartFrom, Reservations } from '../../record/reservations.ts';
import type { Format } from '../create-format.ts';
import type { FAULT as ENGLISH_FAULT } from '../en/commands.ts';
import { answerClock } from '../said/figures.ts';

/** Bad input: one line each that says what and where. */
export const FAULT: typeof ENGLISH_FAULT = {
  internal: 'un fallo del propio programa: no se averiguó nada. Por favor, enviar lo que sigue.',
  // options
  unknownOption: (given: string, usage: string) => `opción desconocida ${given}; ${usage}`,
  needsValue: (option: string, usage: string) => `${option} necesita un valor; ${usage}`,
  takesNoValue: (option: string, usage: string) => `${option} no lleva valor; ${usage}`,
  twice: (option: string) => `${option} está dos veces`,
  missing: (option: string, usage: string) => `falta ${option}; ${usage}`,
  oneFile: (usage: string) => `un solo FILE; ${usage}`,
  notAPressure: (option: string, given: string, lo: number, hi: number) =>
    `${option} ${given} no es una presión de ${lo} a ${hi} bar`,
  notOneOf: (option: string, given: string, choices: string) => `${option} ${given} no es uno de ${choices}`,
  needsLimit: (option: string) => `${option} necesita --rated o --job`,
  notBelow: (option: string, value: number, rated: number) =>
    `${option} ${value} no está por debajo de --rated ${rated}`,
  over: (option: string, value: number, rated: number) =>
    `${option} ${value} está por encima de --rated ${rated}`,

  // files
  noSuchFile: (name: string) => `${name}: no existe ese fichero`,
  noSuchFileOrFolder: (name: string) => `${name}: no existe ese fichero o carpeta`,
  notAFile: (name: string) => `${name}: no es un fichero`,
  unreadable: (name: string, code: string) => `${name}: no se puede leer (${code})`,
  unwritable: (name: string, code: string) => `${name}: no se puede escribir (${code})`,
  tooLarge: (name: string, bytes: number, most: number) => `${name}: ${bytes} bytes son más de ${most}`,
  emptyFile: 'el fichero está vacío',
  inFile: (name: string, why: string) => `${name}: ${why}`,

  // keys
  noFingerprint: (given: string) => `--key ${given}: no es una huella`,
  noKey: (given: string) => `--key ${given}: ni una huella ni un fichero con una clave pública Ed25519`,
  noFingerprintInRow: (list: string, row: number) => `--keys ${list} fila ${row}: no es una huella`,
  noTermInRow: (list: string, row: number) =>
    `--keys ${list} fila ${row}: from=, until= y revoked= llevan una hora de ISO 8601, until después de from`,

  // witness log
  oneCheckpoint: (usage: string) => `un punto de control, y aquello con lo que se compara; ${usage}`,
  oneStamp: (usage: string) => `request o take, con el fichero de un punto de control; ${usage}`,
  needsLogKey: (usage: string) =>
    `falta --key: la clave del diario, como witness/log.pem de un registro; ${usage}`,
  noProof: (name: string) => `${name}: no lleva un diario de control que se sostenga; verify dice por qué`,
  noLog: (name: string) => `${name}: no es un diario de control guardado, que acaba con un salto de línea`,
  noCheckpoint: (name: string) => `${name}: no es un punto de control`,

  // job
  notAJob: (name: string) => `--job ${name}: el fichero: no es un fichero de hoja`,
  job: (name: string, why: string) => `--job ${name}: el fichero: ${why}`,
  jobEntry: (name: string, entry: string, why: string) => `--job ${name}: ${entry}: ${why}`,
  noRated: 'el trabajo no tiene presión admisible; dar --rated',
  noCeiling: (rated: number, u: number) => `--rated ${rated} no deja un techo sobre cero con U ${u}`,
  workingOver: (working: number, rated: number) =>
    `la presión de trabajo ${working} está sobre la admisible ${rated}`,

  // trace
  damagedLog: (page: number, byte: number, what: string) =>
    `la página ${page} (byte ${byte}) del diario de entrada está dañada: ${what}`,
  headlessLog: 'la primera página del diario de entrada no se puede leer',
  noTrace: (why: string) =>
    `ni un diario de entrada, ni un CSV con time_s y pressure_bar, ni una captura: ${why}`,
  noHello:
    'la captura no contiene un saludo completo, así que nada dice qué significan sus cuentas; dar --job',
  noFrame: 'no hay en ella ninguna trama del protocolo del aparato',
  noSample: 'la captura no contiene ninguna muestra',

  // CSV
  columnTwice: (column: string) => `fila 1: la columna ${column} está dos veces`,
  unknownColumn: (column: string, known: string) =>
    `fila 1: columna desconocida ${column}; se conocen ${known}`,
  columnMissing: (column: string) => `fila 1: falta la columna ${column}`,
  tooManyTemperatures: (most: number) => `fila 1: más de ${most} columnas de temperatura`,
  notANumber: (row: number, what: string, given: string) => `fila ${row}: ${what} ${given} no es un número`,
  outside: (row: number, what: string, given: string, lo: number, hi: number) =>
    `fila ${row}: ${what} ${given} está fuera de ${lo} a ${hi}`,
  temperature: 'temperatura',
  noRows: 'fila 2: no hay filas de datos',
  columns: (row: number, n: number, header: number) =>
    `fila ${row}: ${n} columnas, la cabecera tiene ${header}`,
  noTime: (row: number) => `fila ${row}: time_s está vacío`,
  notLater: (row: number, given: string) => `fila ${row}: time_s ${given} no es posterior a la fila anterior`,
  noPressure: 'filas 2 hasta el final: pressure_bar está vacío en todas',
};

export const REPLAY = {
  /** @param what the fault of a cell, with its row */
  unusable: (what: string) => `${what}; juzgado como lectura que no se puede usar`,
  moreUnusable: (cells: number) => `${cells} celdas más no se pueden usar`,
};

/** Names of options and files stand as they are typed. */
export const USAGE = {
  replay:
    'uso: replay --trace FILE [--job JOB.json] [--rated BAR] [--working BAR] [--u BAR] [--line LINE] [--tap TAP] [--out RESULT.json]',
  verify: 'uso: verify FILE [--key FINGERPRINT|KEY.pem[=NAME]]… [--keys LIST] [--quick] [--json]',
  checkpoint:
    'uso: checkpoint CHECKPOINT.txt [RECORD.steadybar.zip|OTHER.txt] [--log LEAVES.txt] [--key LOG.pem]',
  stamp: 'uso: stamp request CHECKPOINT.txt | stamp take CHECKPOINT.txt ANSWER.tsr',
  extract: 'uso: extract --to FOLDER [--key FINGERPRINT=NAME]… FILE|FOLDER…',
};

export const KEYS = { given: 'clave dada', listed: 'clave de la lista' };

export const EXTRACT = {
  refused: (file: string, why: string) => `rechazado  ${file}: ${why}`,
  tooLarge: 'demasiado grande',
  cannotBeRead: 'lo que contiene no se puede poner en tablas',
  badRun: 'el nombre de su sesión no es un nombre',
  otherKey: 'otra clave selló un registro de la misma sesión',
  again: (file: string, run: string) => `repetido   ${file}: ${run}`,
  taken: (file: string, run: string) => `tomado     ${file}: ${run}`,
  takenUnknown: (file: string, run: string) => `tomado     ${file}: ${run}, firmante desconocido`,
  jobs: (n: number, to: string) => `${n} trabajos en ${to}`,
  jobsRefused: (n: number, to: string, refused: number) =>
    `${n} trabajos en ${to}, ${refused} ficheros rechazados`,
};

export const LOG = {
  runs: (leaves: number, opened: number, unsealed: number, twice: number) =>
    `el diario: ${leaves} hojas, ${opened} sesiones abiertas, ${unsealed} de ellas sin sellar, ${twice} selladas más de una vez`,
  unsealed: (at: string) => `  sin sellar: abierta ${at}`,
};

export const STAMP = {
  requested: (query: string, text: string) =>
    `${query} es la solicitud: enviarla a una autoridad (RFC 3161; curl -H "Content-Type: application/timestamp-query" --data-binary @${query} URL). ${text} es lo que se sella.`,
  form: 'no es una respuesta de RFC 3161, o no es sobre un SHA-256',
  refused: 'la autoridad no concedió ningún sello',
  other: 'el sello es de otra cosa que este punto de control',
  notAsked: 'la respuesta no es para esta solicitud: su nonce es otro',
  taken: (at: string, text: string, answer: string) =>
    `sellado ${at}, según la respuesta. Su firma: openssl ts -verify -data ${text} -in ${answer} -CAfile THEIRS.pem. El programa lo toma en Diario de control.`,
};

const APART_FROM: Readonly<Record<ApartFrom, string>> = {
  clock: 'los relojes discrepan',
  device: 'las líneas propias del aparato no concuerdan con el Setup',
  papers: 'los documentos no concuerdan con el Setup',
};

const HEADLINE: Readonly<Record<Verdict, string>> = {
  valid: 'VÁLIDO: firmado con una clave conocida, y cada byte está como se firmó',
  changed: 'CAMBIADO: este no es el registro que se firmó',
  refused: 'RECHAZADO: esto no es un registro que se pueda verificar aquí',
  'unknown-signer':
    'FIRMANTE DESCONOCIDO: entero y sin cambios; él, o un añadido suyo, está firmado con una clave que aquí no se conoce',
  'not-derived':
    'NO DEDUCIDO OTRA VEZ: firmado con una clave conocida, y cada byte está como se firmó; si lo que dice se sigue de sus lecturas no se ha mostrado',
  incomplete: 'INCOMPLETO: falta una parte del registro',
  practice:
    'REGISTRO DE PRÁCTICA: grabado en el equipo de práctica; no es registro de ningún trabajo, lo firme quien lo firme',
};

const READ_BY: Readonly<Record<MapKind, string>> = {
  registers: 'leído de un bus con un mapa de registros; las horas son las del ordenador',
  columns: 'LÍNEA SIN CONTROL, leída con un mapa de columnas; las horas son las del ordenador',
};

const PAGE_WHY: Readonly<Record<Extract<Finding, { f: 'pages' }>['why'], string>> = {
  crc: 'con cambios (CRC)',
  torn: 'con un corte',
  missing: 'falta',
  order: 'fuera de orden',
  chain: 'no es lo que nombra la página siguiente (cadena)',
  form: 'sin forma legible',
  version: 'de una versión posterior',
  run: 'de otra sesión',
  rewritten: 'con algo rehecho, cadena incluida, en este tramo',
  end: 'falta al final',
  cut: 'falta: el fichero acaba aquí',
};

/** What the verify command prints. Codes stand as they are: the reader may look them up in docs/record.md. */
export const verifyWords = (f: Format) => {
  const iso = (ms: number | null): string => (ms === null ? 'sin anotar' : new Date(ms).toISOString());
  return {
    headline: (verdict: Verdict, but: Reservations | null): string =>
      [
        HEADLINE[verdict],
        but?.failed
          ? 'la deducción se cortó: o el registro contiene algo que no se puede seguir, o este programa tiene un fallo'
          : '',
        but?.unjudged ? 'juicios no deducidos otra vez' : '',
        but === null || but.otherwise.length === 0
          ? ''
          : `no es lo que este programa hace del registro: ${but.otherwise.join(', ')}`,
        but === null || but.notMade.length === 0 ? '' : `sin rehacer: ${but.notMade.join(', ')}`,
        ...(but?.apart ?? []).map((from) => APART_FROM[from]),
      ]
        .filter((t) => t !== '')
        .join('; '),
    progress: (share: number) => `rehaciendo la curva, ${f.percent(share)}`,

    /** @param key shows a fingerprint */
    finding(finding: Finding, key: (fingerprint: string) => string): string {
      switch (finding.f) {
        case 'refused':
          return `${finding.why} en el byte ${finding.offset}`;
        case 'container':
          return `contenedor: ${finding.why} en el byte ${finding.offset}${finding.file === null ? '' : `, ${finding.file}`}`;
        case 'missing':
          return `falta: ${finding.file}`;
        case 'strange':
          return `no es de este registro: ${finding.file}`;
        case 'file':
          return `cambiado: ${finding.file}${finding.offset === null ? '' : ` en el byte ${finding.offset}`}`;
        case 'practice':
          return 'dice de sí mismo que es un registro de práctica';
        case 'manifest':
          return `manifest.json: ${finding.why}`;
        case 'entries':
          return `${finding.count} de la clase ${finding.what} no tienen su forma; lo primero en la página ${finding.page}, tiempo de sesión ${answerClock(finding.tUs)}`;
        case 'scale':
          return `el Setup de la página ${finding.page}, tiempo de sesión ${answerClock(finding.tUs)}, lee el canal ${finding.channel} con otra escala que la que dio el aparato`;
        case 'translation':
          return `${finding.count} muestras no son lo que el mapa de lectura hace de los bytes que tienen al lado; lo primero en la página ${finding.page}, tiempo de sesión ${answerClock(finding.tUs)}`;
        case 'setup':
          return `el Setup de la página ${finding.page}, tiempo de sesión ${answerClock(finding.tUs)}, no se sigue de sí mismo: ${finding.what}${finding.channel === null ? '' : ` del canal ${finding.channel}`}`;
        case 'contradiction':
          return `manifiesto y páginas se contradicen en: ${finding.members.join(', ')}`;
        case 'pages': {
          const { page, pages, why, fromUs, toUs } = finding;
          const which = pages === 1 ? `página ${page}` : `páginas ${page} a ${page + pages - 1}`;
          return `${which}: ${PAGE_WHY[why]}; tiempo de sesión ${answerClock(fromUs)} a ${answerClock(toUs)}`;
        }
        case 'judgement':
          if (finding.moved > 0)
            return `eventos: ${finding.moved} registrados están en otro orden que el que da el juicio (${finding.kinds.join(', ')})`;
          return `eventos: ${finding.recorded} registrados no se vuelven a hallar, ${finding.again} otros sí (${finding.kinds.join(', ')})`;
        case 'witness':
          return `diario de control: ${finding.why}`;
        case 'addition':
          return `añadido ${finding.number}: ${finding.why}`;
        case 'addition-signer':
          return `el añadido ${finding.number} es de la clave ${key(finding.fingerprint)}${finding.why === undefined ? '' : `, que no vale para su fecha: ${finding.why}`}`;
        case 'signer':
          return `clave ${key(finding.fingerprint)}${finding.why === undefined ? '' : ` no vale para su fecha: ${finding.why}`}`;
      }
    },

    note: (text: string) => `nota: ${text}`,
    remark(r: Remark, key: (fingerprint: string) => string): string {
      switch (r.r) {
        case 'interrupted':
          return 'la sesión se interrumpió: nadie la terminó';
        case 'resumed':
          return `la sesión se interrumpió y se reanudó, veces: ${r.times}; los huecos están marcados`;
        case 'damaged-at-sealing':
          return `páginas dañadas en el ordenador antes de sellar el registro: ${r.pages}`;
        case 'no-job':
          return 'a esta sesión no le corresponde hoja de trabajo';
        case 'not-logged':
          return 'no anotado en ningún diario de control';
        case 'logged':
          return `anotado en ${r.origin}: abierto ${iso(r.openedUtcMs)}, ${r.heads} cabezas, terminado ${iso(r.endedUtcMs)}, sellado ${iso(r.sealedUtcMs)} según su reloj; árboles de ${r.before} y ${r.after} hojas`;
        case 'no-witness':
          return 'sin refrendante: nadie más que el ordenador acota cuándo';
        case 'bounded': {
          const who =
            r.fingerprint === null
              ? 'un sello de tiempo (su firma: openssl ts -verify)'
              : r.name === null
                ? `una refrendante que aquí no se conoce, clave ${key(r.fingerprint)}`
                : `la refrendante ${r.name}, clave ${key(r.fingerprint)}`;
          return r.side === 'not-before'
            ? `abierto después de ${iso(r.utcMs)}, por ${who}`
            : `sellado antes de ${iso(r.utcMs)}, por ${who}`;
        }
        case 'additions':
          return `añadidos firmados: ${r.count}`;
        case 'no-sums':
          return 'sin sumas firmadas: los ficheros derivados se rehicieron y compararon';
        case 'states-apart':
          return r.count === 1
            ? `un estado del programa no se sigue de las páginas anteriores y no se usó; en la página ${r.page}, tiempo de sesión ${answerClock(r.tUs)}`
            : `${r.count} estados del programa no se siguen de las páginas anteriores y no se usaron; el primero en la página ${r.page}, tiempo de sesión ${answerClock(r.tUs)}`;
        case 'derived-otherwise':
          return `${r.file} está como se firmó; este programa lo haría distinto`;
        case 'not-judged':
          return `juicios no deducidos otra vez (${r.why}${r.page === undefined ? '' : `, en la página ${r.page}`})`;
        case 'not-derived':
          return `${r.file} está como se firmó; ${r.failed ? 'al rehacerlo se cortó' : 'aquí no se rehízo'}`;
        case 'clock-back':
          return `el reloj fue hacia atrás: ${r.what}${r.at === 0 ? '' : ` ${r.at}`}${r.times === 1 ? '' : `, ${r.times} veces`}, ${Math.round(r.seconds)} s`;
        case 'clock-apart':
          return `los relojes discrepan: ${r.what}, ${Math.round(r.seconds)} s${r.tUs === undefined ? '' : ` en tiempo de sesión ${answerClock(r.tUs)}`}`;
        case 'gaps':
          return `huecos en las lecturas: ${r.count}, el más largo de ${Math.round(r.seconds)} s hasta tiempo de sesión ${answerClock(r.tUs)}`;
        case 'read-by-map':
          return `${r.beside ? 'temperaturas del segundo adaptador: ' : ''}${READ_BY[r.map]}; la fuente no tiene: ${r.lacks.join(', ')}`;
        case 'device-limit':
          return `el aparato vigilaba ${r.deviceBar.toFixed(3)} bar, el techo del Setup es ${r.ceilingBar.toFixed(3)} bar`;
        case 'device-counts':
          return `el aparato vigilaba ${r.counts} cuentas como ${r.mbar} mbar, veces: ${r.lines}; según el Setup son ${r.expected} cuentas`;
        case 'papers-apart':
          return `los documentos sellados con él no son los de los Setups: ${r.what.join(', ')}`;
        case 'key-followed':
          return `la clave sigue a la clave ${key(r.fingerprint)} (${r.reason}), que ${r.endorsed ? 'responde' : 'no responde'} por ella`;
      }
    },

    run: (run: string, job: string | null) => `sesión ${run}, trabajo ${job ?? 'ninguno'}`,
    recorded: (from: string | null, to: string | null) =>
      `registrado ${from ?? 'no se sabe'} a ${to ?? 'no se sabe'} según el reloj del ordenador`,
    sealed: (samples: number, pages: number, when: string) =>
      `${samples} muestras en ${pages} páginas; sellado ${when}`,
    key: (key: string) => `clave ${key}`,
    keyKnown: (key: string, name: string) => `clave ${key}, conocida como ${name}`,
  };
};
