import type { Finding, Remark, Verdict } from '../../record/findings.ts';
import type { ApartFrom, Reservations } from '../../record/reservations.ts';
import type { Format } from '../create-format.ts';
import {
  ADDITION,
  BESIDE_BY_MAP,
  CLOCK_APART,
  CLOCK_BACK,
  CONTAINER,
  ENTRIES,
  MANIFEST,
  NOT_JUDGED,
  PAGE,
  PAPERS_APART,
  PROOF,
  READ_BY_MAP,
  TERM,
} from './finding-parts.ts';

const THIS_BROWSER = 'este navegador';
const UNKNOWN_KEY = 'una clave que aquí no se conoce';

const EVIDENCE = {
  // seal
  sealTitle: 'Sello',
  sealWhat:
    'Sellar firma este registro con la clave del ordenador. Desde entonces no se puede cambiar nada en él sin que se descubra. Revisar antes la hoja de trabajo: packer, resina, lotes y sensores se sellan como están ahora.',
  seal: 'Sellar este registro',
  sealAsk: '¿Sellar este registro?',
  sealAskText:
    'Se firman la curva, los eventos y la hoja de trabajo como está ahora. Después no se reescribe nada; las correcciones son añadidos firmados.',
  sealing: 'Sellando',
  practiceWhat:
    'Sellar hace un registro de práctica con un certificado de práctica. Se verifica como registro de práctica y nunca como trabajo.',
  practiceSeal: 'Sellar como registro de práctica',
  practiceFile: 'Guardar el registro de práctica',
  practiceCertificate: 'Certificado de práctica',
  practiceFileWhat: 'No va a ningún cliente ni a ninguna carpeta compartida.',
  openFirst: 'La sesión aún no tiene final. Terminarla, o cerrarla como interrumpida, antes de sellarla.',
  sealedAt: 'Sellado',
  sealedBy: (date: string, who: string) => `Sellado el ${date} por ${who}`,
  key: 'Clave',
  keyOf: (who: string) => `Clave (${who})`,
  file: 'Guardar el fichero de registro',
  fileWhat:
    'Un fichero para el cliente: curva, eventos, certificado, y cómo comprobarlos a mano con openssl y sha256sum.',
  building: 'Haciendo el fichero',
  certificate: 'Certificado',
  newFirst:
    'En este ordenador se ha hecho una clave de firma. Dar su huella a la empresa: por ella saben otros que los registros son suyos.',
  newAfterLoss:
    'La clave de firma anterior de este ordenador se perdió y se ha hecho una nueva. Otros ven un firmante nuevo: decir su huella a la empresa.',

  // additions
  additions: 'Añadidos firmados',
  additionsSay: 'Lo que se le añadió',
  noAdditions:
    'Ninguno. Lo que haya que corregir se añade aquí, con iniciales; el registro sellado se queda como está.',
  addTitle: 'Añadir al registro sellado',
  addKind: 'Qué es',
  kinds: { correction: 'Corrección', note: 'Nota' },
  addText: 'Texto',
  addBy: 'Iniciales',
  add: 'Firmar y añadir',
  status: 'Estado',

  // review status
  reviewTitle: 'Decisión',
  statuses: { open: 'Sin decisión', released: 'Aprobado', rejected: 'Rechazado' },
  statusNote: 'La decisión se queda en este navegador, junto al registro. No cambia nada en él.',
  release: 'Aprobar',
  reject: 'Rechazar',
  reopen: 'Volver a abrir',
  reason: 'Motivo',
  reasonNeeded: 'Un rechazo necesita su motivo.',
  acceptReasonNeeded: 'Este registro tiene excepciones: escribir por qué se aprueba a pesar de ellas.',
  reviewer: 'Nombre',
  nameNeeded: 'Quien decide da su nombre.',
  history: 'Antes',

  // judge again
  judge: 'Juzgar otra vez con el motor de hoy',
  judging: 'Juzgando …',
  judgedSame: (n: number) => `Los ${n} eventos son los mismos.`,
  judgedWhat:
    'El registro sellado vale. Esto muestra lo que el motor de hoy dice distinto de los mismos datos.',
  judgedRecorded: 'Esto muestra lo que el motor de hoy dice distinto de los mismos datos.',
  gone: 'Solo en el registro',
  fresh: 'Solo hallado ahora',
  engines: (then: number, now: number) =>
    `Registrado con el motor ${then}, juzgado otra vez con el motor ${now}.`,

  // exports
  exportTitle: 'Exportar',
  savePicture: 'Imagen (SVG)',
  savePng: 'Imagen (PNG)',
  saveData: 'Datos visibles (CSV)',

  // keys
  keyTitle: 'Clave de firma de este ordenador',
  keyNone: 'Aún sin clave. Se hace una al sellar el primer registro.',
  keyLost:
    'La clave que firmaba aquí se perdió (almacenamiento borrado, o copia de otro ordenador). El próximo sellado hace una nueva, y otros ven un firmante nuevo. Los registros firmados antes valen como valían.',
  keyReady: 'Dar esta huella a la empresa. La clave en sí nunca sale del ordenador.',
  fingerprintSince: (date: string) => `Huella, desde el ${date}`,
  knownSince: (name: string, date: string) => `${name}, desde el ${date}`,
  keyChange: 'Cambiar la clave',
  keyChangeAsk: '¿Cambiar la clave de firma?',
  keyChangeText:
    'Desde ahora firma una clave nueva, y la actual responde por ella. Otros ven un firmante nuevo: decir la nueva huella a la empresa.',
  keyBefore: 'Claves anteriores',
  lost: 'perdida; por la siguiente solo responde la empresa',
  changed: 'cambiada; responde por la siguiente',
  knownTitle: 'Claves conocidas',
  knownText:
    'Los registros firmados con estas claves son válidos aquí. Una clave vale lo que valga el camino por el que llegó su huella.',
  knownNone: 'Aún ninguna.',
  fingerprint: 'Huella',
  owner: 'De quién es',
  know: 'Añadir a las claves conocidas',
  term: {
    open: 'Cuándo vale',
    title: (name: string) => `Cuándo vale la clave de ${name}`,
    from: 'Vale desde el día',
    until: 'Vale hasta el final del día',
    revoked: 'Revocada desde el día: está en otras manos',
    what: 'Lo que firmó mientras valía sigue siendo válido. Olvidar una clave es otra cosa: entonces no vale nada de lo que firmó. Quien tiene una clave puede firmar con cualquier fecha, así que comparar los registros tardíos con una refrendante.',
    save: 'Guardar',
    wrong: 'El último día es anterior al primero.',
    replace: 'Otra clave ocupa ahora su lugar',
    replaceBy: 'Huella de la clave nueva',
    fromThe: (date: string) => `Vale desde el ${date}.`,
    untilThe: (date: string) => `Vale hasta el ${date}.`,
    revokedThe: (date: string) => `Revocada desde el ${date}.`,
    replaced: 'Otra clave firma en su lugar.',
  },
  forget: 'Quitar',
  badFingerprint: 'Una huella tiene 64 signos: cifras y letras de la a a la f.',

  // verify
  verifyTitle: 'Verificar un fichero',
  verifyLead:
    'Un fichero de registro, o el paquete en el que vino, se verifica byte a byte en este navegador. No se envía nada.',
  choose: 'Elegir un fichero',
  drop: 'o soltarlo aquí',
  inPacket: (packet: string, record: string) =>
    `Esto vale para el fichero de registro ${record} del paquete ${packet}. De las copias de al lado, certificado y fotografías, no dice nada.`,
  checking: 'Verificando',
  FIRST: {
    valid: 'Hasta ahora: firmado con una clave conocida; curva, cadena y diario de control se sostienen.',
    'unknown-signer':
      'Hasta ahora: curva, cadena y diario de control se sostienen, firmado con una clave que aquí no se conoce.',
    'not-derived':
      'Hasta ahora: firmado con una clave conocida; curva, cadena y diario de control se sostienen.',
    changed: 'CAMBIADO: firma, curva, cadena o diario de control no se sostienen.',
    incomplete: 'Hasta ahora: falta una parte del registro.',
    refused: 'Esto no es un registro que se pueda verificar aquí.',
    practice: 'REGISTRO DE PRÁCTICA: grabado en el equipo de práctica, no es registro de ningún trabajo.',
  },
  firstRest: 'Los demás ficheros se están rehaciendo.',
  cancelled:
    'Cancelado. De este fichero no se dice nada, y no se guardó nada de él. Elegirlo otra vez para verificarlo.',
  expected: 'Huella que tiene el certificado',
  expectedHint:
    'Los 64 signos al pie de su primera página, o rellenados por su código. Sin ella, cualquier registro sellado se toma por sí mismo.',
  expectedNone: 'Una huella tiene 64 signos, de 0 a 9 y de a a f.',
  expectedSame: 'La misma huella: este es el registro de ese certificado.',
  expectedOther:
    'OTRA HUELLA: este fichero no es el registro de ese certificado, se diga aquí de él lo que se diga.',
  findings: 'Lo que se encontró',
  remarks: 'Conviene saber',
  openRecord: 'Abrir',
  keep: 'Guardar en el archivo',
  kept: 'Guardado en el archivo.',
  alreadyKept: 'Ya está en el archivo.',
  others: (n: number) =>
    n === 1
      ? 'A su lado queda otro fichero de la misma sesión.'
      : `A su lado quedan otros ${n} ficheros de la misma sesión.`,
  recorded: 'Registrado',
  samples: 'Lecturas',
  readOnly: 'Fichero de fuera: aquí no se puede cambiar nada en él.',
  changedNote: 'Este fichero no es el registro que se firmó. Lo que muestra no prueba nada.',
  unknownNote: 'Firmado con una clave que aquí no se conoce. Preguntar a la empresa de quién es esta clave.',

  // certificate
  print: 'Imprimir o guardar como PDF',
  saveHtml: 'Guardar como página (HTML)',
  certificateLanguage: 'Idioma del certificado',
  /** @param language of the one that was sealed, its name in itself */
  certificateCopy: (language: string) => `Una copia para leer. El certificado sellado: ${language}.`,
};

const VERDICT: Record<Verdict, { readonly word: string; readonly means: string }> = {
  valid: {
    word: 'Válido',
    means: 'Firmado con una clave conocida, y cada byte está como se firmó.',
  },
  changed: {
    word: 'Cambiado',
    means: 'Este no es el registro que se firmó. No usarlo como prueba.',
  },
  refused: { word: 'Rechazado', means: 'Esto no es un registro que se pueda verificar aquí.' },
  'unknown-signer': {
    word: 'Firmante desconocido',
    means:
      'Entero y sin cambios; él, o un añadido suyo, está firmado con una clave que aquí no se conoce, o no para esa fecha.',
  },
  'not-derived': {
    word: 'No deducido otra vez',
    means:
      'Firmado con una clave conocida, y cada byte está como se firmó. Si lo que dice se sigue de sus lecturas no se ha mostrado aquí.',
  },
  incomplete: { word: 'Incompleto', means: 'Falta una parte del registro.' },
  practice: {
    word: 'Registro de práctica',
    means: 'Grabado en el equipo de práctica. No es registro de ningún trabajo, lo firme quien lo firme.',
  },
};

const witnessOf = (name: string | null): string =>
  name === null
    ? 'una refrendante que aquí no se conoce'
    : name === ''
      ? 'este mismo navegador'
      : `la refrendante ${name}`;

const APART_FROM: Record<ApartFrom, string> = {
  clock: 'Los relojes discrepan: ver abajo cuáles, y por cuánto.',
  device: 'Lo que el aparato dijo de sí mismo no concuerda con el Setup: ver abajo.',
  papers: 'Los documentos no son aquellos por los que se juzgó la sesión: ver abajo cuáles.',
};

const reservedText = ({ unjudged, failed, otherwise, notMade, apart }: Reservations): readonly string[] =>
  [
    failed
      ? 'La deducción se cortó: o el registro contiene algo que no se puede seguir, o este programa tiene un fallo. No se dice nada en ningún sentido.'
      : '',
    unjudged ? 'Los juicios no se dedujeron otra vez: son palabra de quien firmó.' : '',
    otherwise.length === 0
      ? ''
      : `Como se firmó, y no lo que esta versión hace del registro: ${otherwise.join(', ')}.`,
    notMade.length === 0 ? '' : `Sin rehacer, de modo que solo responde la firma: ${notMade.join(', ')}.`,
    ...apart.map((from) => APART_FROM[from]),
  ].filter((t) => t !== '');

export const evidence = (f: Format) => ({
  reservedText,
  EVIDENCE,
  VERDICT,

  signerText: (signer: string | null): string =>
    signer === null ? UNKNOWN_KEY : signer === '' ? THIS_BROWSER : signer,

  /** @param firstUs run clock of the first sample: places are told as in the trace, from it on */
  findingText(finding: Finding, firstUs: number): string {
    const at = (us: number): string => f.stopwatch(Math.max(0, us - firstUs) / 1e6);
    const span = (from: number | null, to: number | null): string => {
      const begins = from !== null && from > firstUs;
      const ends = to !== null && to > firstUs;
      if (begins) return ends ? `, de ${at(from)} a ${at(to)} de sesión` : `, desde ${at(from)} de sesión`;
      return ends ? `, hasta ${at(to)} de sesión` : ', al comienzo de la sesión';
    };
    switch (finding.f) {
      case 'refused':
        return `No se leyó: ${CONTAINER[finding.why]} (byte ${finding.offset}).`;
      case 'container':
        return `El fichero que envuelve el registro: ${CONTAINER[finding.why]} en el byte ${finding.offset}${finding.file === null ? '' : `, ${finding.file}`}.`;
      case 'missing':
        return `Falta: ${finding.file}.`;
      case 'strange':
        return `No es parte del registro: ${finding.file}.`;
      case 'file':
        return `${finding.file} se cambió${finding.offset === null ? '' : ` en el byte ${finding.offset}`}.`;
      case 'practice':
        return 'Dice de sí mismo que es un registro de práctica.';
      case 'manifest':
        return `manifest.json: ${MANIFEST[finding.why]}.`;
      case 'entries':
        return `Curva: ${ENTRIES[finding.what](finding.count)}; lo primero en el bloque ${finding.page}, a los ${at(finding.tUs)} de sesión.`;
      case 'scale':
        return `El Setup del bloque ${finding.page} (a los ${at(finding.tUs)} de sesión) lee el canal ${finding.channel} con otra escala que la que dio el aparato: sus presiones o temperaturas no son lo que dijo el sensor.`;
      case 'translation':
        return `${finding.count === 1 ? '1 lectura no es' : `${finding.count} lecturas no son`} lo que el mapa de lectura hace de lo que llegó por la línea; lo primero en el bloque ${finding.page}, a los ${at(finding.tUs)} de sesión.`;
      case 'setup':
        if (finding.what === 'uncertainty')
          return `El Setup del bloque ${finding.page} (a los ${at(finding.tUs)} de sesión) da la lectura a la presión admisible por más segura de lo que permiten su sensor y su calibración: ningún plan lo hizo.`;
        return finding.channel === null
          ? `El Setup del bloque ${finding.page} (a los ${at(finding.tUs)} de sesión) tiene un techo mayor que la presión admisible menos la incertidumbre de la lectura, y no da motivo: ningún plan lo hizo.`
          : `El Setup del bloque ${finding.page} (a los ${at(finding.tUs)} de sesión) lee el canal ${finding.channel} con una ganancia o una desviación que no son las de sus puntos de calibración: ningún plan lo hizo.`;
      case 'contradiction':
        return `Manifiesto y curva se contradicen en: ${finding.members.join(', ')}.`;
      case 'pages': {
        const pages =
          finding.pages === 1
            ? finding.page === 0
              ? 'el primer bloque (bloque 0)'
              : `bloque ${finding.page}`
            : `bloques ${finding.page} a ${finding.page + finding.pages - 1}`;
        return `Curva, ${pages}: ${PAGE[finding.why]}${span(finding.fromUs, finding.toUs)}.`;
      }
      case 'judgement':
        if (finding.moved > 0)
          return `${finding.moved} eventos del registro están en otro orden que aquel en que se juzgaron (${finding.kinds.join(', ')}): de dos iguales cuenta el último.`;
        return `Lo que juzgó el registro no se sigue de sus lecturas: ${finding.recorded} de sus eventos no se vuelven a hallar, ${finding.again} otros sí (${finding.kinds.join(', ')}).`;
      case 'witness':
        return `Diario de control: ${PROOF[finding.why]}.`;
      case 'addition':
        return `Añadido ${finding.number}: ${ADDITION[finding.why]}.`;
      case 'addition-signer':
        return finding.why === undefined
          ? `El añadido ${finding.number} está firmado con una clave que no está entre las conocidas.`
          : `El añadido ${finding.number} está firmado con una clave ${TERM[finding.why]}.`;
      case 'signer':
        return finding.why === undefined
          ? 'La clave no está entre las conocidas.'
          : `La clave es ${TERM[finding.why]}.`;
    }
  },

  /** @param firstUs arrival of the first reading on the run clock, µs */
  remarkText(r: Remark, firstUs = 0): string {
    const utc = (ms: number | null): string => (ms === null ? '(sin anotar)' : f.dateTimeZone(ms));
    const at = (us: number): string => f.stopwatch(Math.max(0, us - firstUs) / 1e6);
    switch (r.r) {
      case 'interrupted':
        return 'La sesión se interrumpió: nadie la terminó.';
      case 'resumed':
        return `La sesión se interrumpió y se reanudó (${r.times}); los huecos están marcados.`;
      case 'damaged-at-sealing':
        return r.pages === 1
          ? '1 bloque estaba dañado en el ordenador antes de sellar el registro.'
          : `${r.pages} bloques estaban dañados en el ordenador antes de sellar el registro.`;
      case 'no-job':
        return 'A esta sesión no le corresponde ninguna hoja de trabajo.';
      case 'not-logged':
        return 'No está anotado en ningún diario de control: que se abrió cuando dice es solo palabra del ordenador.';
      case 'logged':
        return `Anotado en el diario de control del ordenador (${r.origin}) según el reloj del ordenador: abierto ${utc(r.openedUtcMs)}, terminado ${utc(r.endedUtcMs)}, sellado ${utc(r.sealedUtcMs)}; entre ellos, la cabeza de la cadena ${r.heads} ${r.heads === 1 ? 'vez' : 'veces'}.`;
      case 'no-witness':
        return 'Nadie más ha visto aún ese diario: ninguna refrendante acota cuándo se escribió. Lo hace una fotografía de su código, o la oficina.';
      case 'bounded':
        if (r.fingerprint === null)
          return `Sellado antes de ${utc(r.utcMs)}: lo dice un sello de tiempo. Su firma se comprueba con openssl ts -verify, no aquí.`;
        return r.side === 'not-before'
          ? `Abierto después de ${utc(r.utcMs)}: un punto de control que firmó entonces ${witnessOf(r.name)} está en el diario antes que él.`
          : `Sellado antes de ${utc(r.utcMs)}: ${witnessOf(r.name)} firmó entonces el diario, con este registro dentro.`;
      case 'additions':
        return `${r.count} ${r.count === 1 ? 'añadido firmado' : 'añadidos firmados'}.`;
      case 'no-sums':
        return 'Sin sumas firmadas: los demás ficheros se rehicieron y compararon.';
      case 'states-apart':
        return r.count === 1
          ? `Un estado del programa guardado en el bloque ${r.page} (a los ${at(r.tUs)} de sesión) no es el que resulta de las lecturas. No se usó: se juzgó desde antes de él.`
          : `${r.count} estados del programa guardados en el registro, el primero en el bloque ${r.page} (a los ${at(r.tUs)} de sesión), no son los que resultan de las lecturas. No se usaron: se juzgó desde antes de ellos.`;
      case 'derived-otherwise':
        return `${r.file} está como se firmó; esta versión lo haría distinto.`;
      case 'not-judged':
        return r.page === undefined
          ? `Juicios no deducidos otra vez: ${NOT_JUDGED[r.why]}.`
          : `Juicios no deducidos otra vez, desde el bloque ${r.page}: ${NOT_JUDGED[r.why]}.`;
      case 'not-derived':
        return r.failed
          ? `${r.file} está como se firmó; al rehacerlo se cortó. O el registro contiene algo que no se puede seguir, o este programa tiene un fallo.`
          : `${r.file} está como se firmó; aquí no se rehízo.`;
      case 'clock-back':
        return `${CLOCK_BACK[r.what](r.at, r.times)}, ${f.duration(r.seconds)}. Se ajustó el reloj del ordenador, o una hora no es cierta.`;
      case 'clock-apart':
        return `${CLOCK_APART[r.what]}: ${f.duration(r.seconds)} de diferencia${r.tUs === undefined ? '' : `, a los ${at(r.tUs)} de sesión`}. Un reloj iba mal, o una hora no es cierta.`;
      case 'gaps':
        return `Faltan lecturas: ${r.count} ${r.count === 1 ? 'hueco' : 'huecos'} de un segundo o más, el más largo de ${f.duration(r.seconds)} hasta los ${at(r.tUs)} de sesión.`;
      case 'read-by-map':
        return r.beside ? BESIDE_BY_MAP[r.map] : READ_BY_MAP[r.map];
      case 'device-limit':
        return `El aparato vigilaba ${f.quantity('pressure', r.deviceBar)}, y el techo del Setup es ${f.quantity('pressure', r.ceilingBar)}: se le dijo otro límite, o no admitió uno más alto.`;
      case 'device-counts':
        return `El aparato vigilaba ${r.counts} cuentas como ${f.quantity('pressure', r.mbar / 1000)}, ${r.lines} ${r.lines === 1 ? 'vez' : 'veces'}; según el Setup son ${r.expected} cuentas. Su límite se le dijo con otra escala o calibración que las del Setup.`;
      case 'papers-apart':
        return `Los documentos sellados con él no son aquellos por los que se juzgó la sesión: ${r.what.map((w) => PAPERS_APART[w]).join(', ')}.`;
      case 'key-followed':
        return r.reason === 'lost'
          ? `La clave siguió a otra que se perdió; la otra ${r.endorsed ? 'responde' : 'no responde'} por ella.`
          : `La clave siguió a otra que se cambió; la otra ${r.endorsed ? 'responde' : 'no responde'} por ella.`;
    }
  },

  progressText: (what: string, share: number): string =>
    share <= 0 ? `${what} …` : `${what} … ${Math.round(share * 100)} %`,

  holdLine: (inBandS: number | null, holdS: number | null, floorKnown: boolean): string =>
    inBandS === null || holdS === null
      ? '–'
      : `${f.duration(inBandS)} de ${f.duration(holdS)}${floorKnown ? '' : ' (el mínimo no se sabe)'}`,
});
