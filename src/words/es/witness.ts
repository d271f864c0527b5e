import type { Comparison } from '../../record/witness/compare.ts';
import type { SeenOutcome, TakeOutcome } from '../../record/witness/exchange.ts';
import type { WITNESS as ENGLISH } from '../en/witness.ts';

export const WITNESS: typeof ENGLISH = {
  title: 'Diario de control',
  lead: 'Este ordenador anota cada sesión al abrirse, cada cinco minutos y al terminar, cada sellado y cada añadido, en un diario que solo crece. Su último punto de control responde por todo él: quien haya visto uno puede decir después si se dejó fuera o se cambió algo.',
  link: 'Diario de control',
  code: 'Punto de control',
  codeLead:
    'Dejar que el cliente fotografíe este código al comienzo y al final de la sesión. La fotografía da fe: su fecha acota cuándo se escribió el diario.',
  line: (entries: string, short: string) => `Punto de control del diario: ${entries}, ${short}`,
  lineDay:
    'El primero del día, antes de abrir una sesión: dejar que el cliente fotografíe este código. Lo anotado hasta aquí ya no se puede cambiar sin que se vea contra la fotografía.',
  lineEnded:
    'La sesión ha terminado y está anotada: dejar que el cliente fotografíe este código. Contra la fotografía se ve después si esta sesión, como está ahora, se cambió o se dejó fuera.',
  lineSealed:
    'El registro está sellado y anotado: dejar que el cliente fotografíe este código. Se selló antes de hacer la fotografía, y contra ella se ve si se selló otro en su lugar.',
  codeLabel: 'Código QR con el punto de control firmado del diario',
  asText: 'Lo mismo como texto',
  leaves: (n: number) => (n === 1 ? '1 entrada' : `${n} entradas`),
  refresh: 'Último punto de control',
  save: 'Guardar el diario',
  saveNote:
    'El diario contiene horas y hashes, ningún nombre. Quien lo tenga con dos puntos de control puede comprobar todas las entradas entre ellos.',
  unsealed: 'Abierto y sin sellar',
  unsealedNone: 'Todas las sesiones abiertas están selladas.',
  opened: (when: string) => `abierta ${when}`,
  ended: (when: string) => `terminada ${when}`,
  notEnded: 'sin terminar',
  gone: 'Una sesión que ya no está en este ordenador',
  practice: (n: number) =>
    n === 1
      ? 'También está anotada 1 sesión de práctica; no es trabajo.'
      : `También están anotadas ${n} sesiones de práctica; no son trabajo.`,
  twice: (n: number) =>
    n === 1 ? '1 sesión se selló más de una vez.' : `${n} sesiones se sellaron más de una vez.`,
  witnesses: 'Quién lo ha visto',
  witnessesNone:
    'Aún no lo ha visto nadie más que este ordenador. Una fotografía también cuenta, pero solo la tiene quien la hizo.',
  seenBy: (name: string, size: string, when: string) => `${name}: ${size}, ${when}`,
  stampBy: 'Un sello de tiempo',
  unknownWitness: 'Una refrendante que aquí no se conoce',
  self: 'Este mismo navegador',
  office: 'Por la carpeta compartida',
  officeLead:
    'El punto de control se deja en la carpeta compartida, y se toma lo que la oficina firmó allí. La próxima sesión lo lleva, de modo que su hora queda acotada por ambos lados.',
  exchange: 'Dejar allí el punto de control',
  countersign: 'Refrendar los puntos de control de otros',
  countersignLead:
    'Como oficina: firma con la hora lo que continúa lo que ya se vio, y rechaza una historia más corta o distinta.',
  asWitness: 'Huella de la clave con que refrenda este navegador',
  working: 'Mirando en la carpeta',
  report: (published: number | null, taken: number, cosigned: number) =>
    [
      published === null ? 'No hay punto de control nuevo que dejar.' : 'El punto de control se dejó allí.',
      taken === 0 ? 'Nada nuevo de refrendantes.' : `De refrendantes, ${taken} más.`,
      cosigned === 0 ? '' : cosigned === 1 ? '1 refrendado.' : `${cosigned} refrendados.`,
    ]
      .filter((t) => t !== '')
      .join(' '),
  refused: 'Rechazado',
  others: 'Diarios que este navegador ha visto',
  otherLine: (origin: string, size: string, when: string) => `${origin}: ${size}, ${when}`,
  otherRefused: (why: string, when: string) => `Rechazado por última vez ${when}: ${why}`,
  stamp: 'Sello de tiempo',
  stampLead:
    'npm run stamp hace una solicitud para un punto de control, a la que responde una autoridad de RFC 3161. Pegar el punto de control y elegir la respuesta (.tsr). Su firma se comprueba con openssl ts -verify, no aquí.',
  stampText: 'Punto de control que se selló en el tiempo',
  stampFile: 'Elegir la respuesta',
  compare: 'Comparar un punto de control',
  compareLead: 'Pegar el texto de un código fotografiado, o de cualquier punto de control de este diario.',
  compareFileLead:
    'Pegar el texto que un teléfono lee de un código fotografiado. Se compara con el diario de control que lleva este fichero.',
  compareText: 'Texto del código',
  compareDo: 'Comparar',
};

export function comparisonText(c: Comparison | null): string {
  if (c === null)
    return 'El fichero no lleva nada de un diario de control, así que no se puede comparar nada con él.';
  switch (c.c) {
    case 'no-checkpoint':
      return 'Esto no es un punto de control firmado. Copiar todo el texto del código, desde «log.» hasta su último signo.';
    case 'other-log':
      return `Punto de control de otro ordenador: ${c.origin}.`;
    case 'unsigned':
      return 'DISTINTO: el diario nunca firmó este punto de control. Se cambió, o lo hizo otro.';
    case 'same-history':
      return SAME[c.holds ?? 'log'];
    case 'another-history':
      return `DISTINTO: el diario firmó dos historias de ${c.size} entradas. Desde este punto de control se cambió o se dejó fuera algo.`;
    case 'shorter':
      return `DISTINTO: el diario tiene ahora ${c.now} entradas, y este punto de control era de ${c.size}. Lo que vino después se quitó.`;
    case 'not-told':
      return `No se dice: nada de aquí demuestra cómo encaja el árbol de ${c.size} entradas con el otro. Guardar el diario en el ordenador que lo lleva y comparar con él.`;
  }
}

const SAME: Readonly<Record<'nothing' | 'part' | 'sealed' | 'log', string>> = {
  nothing: 'La misma historia: el punto de control es de antes de la sesión, y la sesión se abrió después.',
  part: 'La misma historia: el punto de control contiene la apertura de esta sesión, y lo que se había anotado de ella hasta entonces.',
  sealed: 'La misma historia: el punto de control contiene este registro como se selló.',
  log: 'La misma historia: el diario sigue desde este punto de control, y nada anterior se cambió.',
};

export const SEEN: Readonly<Record<SeenOutcome, string>> = {
  cosigned: 'refrendado',
  own: 'de este mismo navegador',
  known: 'ya visto',
  form: 'no es un punto de control, o no lo firmó su diario',
  shorter: 'MÁS CORTO que lo visto antes, y nunca visto',
  different: 'OTRA HISTORIA que la vista antes',
  'no-proof': 'más largo, y nada demuestra que continúe lo visto',
};

export const TAKEN: Readonly<Record<TakeOutcome, string>> = {
  taken: 'El sello de tiempo se tomó. Lo llevan los ficheros de registro que se hagan desde ahora.',
  form: 'Eso no es un punto de control, o no es una respuesta para un sello de tiempo.',
  'other-log': 'El punto de control es de otro diario.',
  'another-history': 'El punto de control es de otra historia que la de este diario.',
  unsigned: 'El punto de control no está firmado.',
  refused: 'La autoridad no concedió ningún sello.',
  'no-stamp-of': 'El sello es de otra cosa que este punto de control.',
};
