import type { MapKind } from '../../job/reading-map.ts';
import type { Finding, Remark } from '../../record/findings.ts';
import type { TermFault } from '../../record/key-terms.ts';
import type { AdditionFault } from '../../record/seal.ts';
import type { ProofFault } from '../../record/witness/check-proof.ts';

/** After 'bloque 3:' or 'bloques 3 a 5:'; no word of it is bent by their number. */
export const PAGE: Record<Extract<Finding, { f: 'pages' }>['why'], string> = {
  crc: 'contenido cambiado',
  torn: 'contenido cortado',
  missing: 'falta',
  order: 'orden cambiado',
  chain: 'no es lo que nombra el bloque siguiente',
  form: 'contenido ilegible',
  version: 'de una versión posterior',
  run: 'de otra sesión',
  rewritten: 'algo rehecho en este tramo',
  end: 'falta al final',
  cut: 'falta, el fichero acaba aquí',
};

export const ADDITION: Record<AdditionFault, string> = {
  form: 'no se puede leer',
  version: 'es de una versión posterior',
  signature: 'su firma no se sostiene',
  fingerprint: 'su clave no es la que nombra',
  order: 'no está en su sitio',
  record: 'es de otro registro',
  'too-many': 'más de los que admite un registro, y no se lee',
};

export const NOT_JUDGED: Record<Extract<Remark, { r: 'not-judged' }>['why'], string> = {
  engine: 'el registro es de otra versión del motor',
  damaged: 'había páginas dañadas en el ordenador',
  'too-long': 'la sesión dice durar más de ocho días, o más de dos en los que apenas se leyó nada',
  'not-asked': 'solo se revisaron firmas, cadena y sumas',
  failed:
    'el juicio se cortó. O el registro contiene algo que no se puede juzgar, o este programa tiene un fallo: no se dice nada en ningún sentido',
};

export const CLOCK_BACK = {
  pages: (at: number, times: number) =>
    times === 1
      ? `El reloj fue hacia atrás en la sesión, antes del bloque ${at}`
      : `El reloj fue hacia atrás ${times} veces en la sesión, la primera antes del bloque ${at}`,
  end: () => 'Según el reloj, la sesión terminó antes de abrirse',
  sealing: () => 'Según el reloj, el registro se selló antes de acabar la sesión',
  addition: (at: number) => `Según el reloj, el añadido ${at} es anterior a aquello a lo que se añade`,
} as const;

export const CLOCK_APART: Record<Extract<Remark, { r: 'clock-apart' }>['what'], string> = {
  opened: 'El diario de control anotó otra hora de apertura',
  ended: 'El diario de control anotó otra hora de final',
  sealed: 'Se anotó como sellado antes de lo que dice',
  'not-before': 'Dice que se abrió antes de que una refrendante firmara lo que nombra su primera página',
  'not-after': 'Dice que se selló después de que una refrendante firmara el diario con este registro dentro',
  device: 'Según el reloj propio del aparato, la sesión duró otro tiempo que según el del ordenador',
  'device-step':
    'Desde un momento dado las lecturas llegaron más tarde, o antes, de lo que dice el reloj propio del aparato, como cuando se ha cortado un trozo',
  pages:
    'Según el reloj del ordenador, la sesión duró otro tiempo, o se abrió en otro, que el que dicen sus bloques',
};

export const PAPERS_APART: Record<Extract<Remark, { r: 'papers-apart' }>['what'][number], string> = {
  sensor: 'otro sensor o rango',
  calibration: 'otra calibración',
  packer: 'un packer de otra presión admisible',
  resin: 'otra resina, u otra ficha técnica de ella',
  pipe: 'otro diámetro del tubo',
  site: 'otro sitio del sensor, clase de línea, calefacción o humedad',
  'air-test': 'otro ensayo con aire',
};

export const TERM: Readonly<Record<TermFault, string>> = {
  before: 'conocida, y esto se firmó antes de que valga',
  after: 'conocida, y esto se firmó cuando ya no valía',
  revoked: 'revocada, y esto se firmó después de ese momento',
};

export const READ_BY_MAP: Readonly<Record<MapKind, string>> = {
  registers:
    'Leído de un bus con un mapa de registros: sus lecturas llevan solo la hora de este ordenador, y ningún aparato vigilaba un límite propio.',
  columns:
    'Línea sin control: sus lecturas llegaron como texto sin suma, llevan solo la hora de este ordenador, y ningún aparato vigilaba un límite propio.',
};

export const ENTRIES = {
  setup: (n: number) => (n === 1 ? 'un Setup no lo es' : `${n} Setups no lo son`),
  command: (n: number) =>
    n === 1 ? 'una pulsación no tiene su forma' : `${n} pulsaciones no tienen su forma`,
  notice: (n: number) => (n === 1 ? 'un aviso no tiene su forma' : `${n} avisos no tienen su forma`),
  event: (n: number) => (n === 1 ? 'un evento no tiene su forma' : `${n} eventos no tienen su forma`),
  map: (n: number) => (n === 1 ? 'un mapa de lectura no lo es' : `${n} mapas de lectura no lo son`),
} as const;

export const MANIFEST: Record<Extract<Finding, { f: 'manifest' }>['why'], string> = {
  form: 'no tiene la forma de un manifiesto',
  signature: 'la firma no se sostiene',
  fingerprint: 'la clave no es la que nombra',
  practice: 'se selló una sesión de práctica como trabajo, cosa que ningún programa nuestro hace',
};

export const CONTAINER: Record<Extract<Finding, { f: 'refused' | 'container' }>['why'], string> = {
  'not-a-zip': 'no es un fichero zip',
  'not-a-record': 'no es un registro de este programa',
  version: 'de una versión posterior del programa: usar una más nueva',
  compressed: 'comprimido por dentro, y ningún registro lo está',
  encrypted: 'cifrado',
  zip64: 'de un tamaño que ningún registro tiene',
  name: 'un nombre que ningún registro tiene',
  twice: 'un nombre que está dos veces',
  'too-many': 'demasiados ficheros dentro',
  truncated: 'cortado',
  sequence: 'los ficheros en otro orden',
  header: 'no está como se hizo (cabecera)',
  behind: 'no está como se hizo (detrás)',
};

export const PROOF: Record<ProofFault, string> = {
  form: 'un fichero suyo no tiene su forma',
  key: 'es de otro diario que el que nombra el manifiesto',
  note: 'un punto de control no está firmado por su diario, o por su refrendante',
  inclusion: 'lo anotado no está en el árbol del punto de control',
  consistency: 'un punto de control no es el comienzo del otro: dos historias',
  content: 'lo anotado no es de este registro',
  twice: 'la sesión se selló más de una vez',
  addition: 'se anotó un añadido que el fichero no tiene',
  stamp: 'el sello de tiempo es de otra cosa',
};

export const BESIDE_BY_MAP: Readonly<Record<MapKind, string>> = {
  registers:
    'Las temperaturas vinieron de un segundo bus con un mapa de registros: sus horas son las del ordenador. Lo que llegó por él está en el registro y se volvió a seguir.',
  columns:
    'Las temperaturas vinieron por una segunda línea SIN CONTROL: una alterada puede parecer buena; sus horas son las del ordenador. Lo que llegó por ella está en el registro y se volvió a seguir.',
};
