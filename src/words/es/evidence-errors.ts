import type { EVIDENCE_ERROR as ENGLISH } from '../en/evidence-errors.ts';

export const EVIDENCE_ERROR: typeof ENGLISH = {
  practice: {
    title: 'Práctica',
    todo: 'Un registro de práctica no va a ningún cliente. Guardarlo como fichero.',
  },
  open: {
    title: 'La sesión no tiene final',
    todo: 'Terminarla, o cerrarla como interrumpida, y después sellarla.',
  },
  unreadable: {
    title: 'El registro no se puede leer',
    todo: 'Su primer bloque está dañado: no se puede sellar.',
  },
  sealed: { title: 'Ya está sellado', todo: 'Lo que haya que corregir se añade, firmado.' },
  'not-sealed': { title: 'Sin sellar', todo: 'Sellar primero el registro.' },
  'key-missing': {
    title: 'Este navegador no tiene Ed25519',
    todo: 'Usar un navegador más nuevo, o comprobar el fichero a mano como dice su CHECK.txt.',
  },
  'too-large': {
    title: 'El fichero es demasiado grande',
    todo: 'Ningún fichero de este programa es tan grande.',
  },
  'language-future': {
    title: 'Los documentos del registro están en un idioma que aquí no hay',
    todo: 'Actualizar este programa para verlos. El registro en sí no cambia por ello.',
  },
  'not-a-backup': {
    title: 'No es una copia de seguridad',
    todo: 'Elegir un fichero hecho por esta página. No se ha cambiado nada.',
  },
  'backup-damaged': {
    title: 'La copia de seguridad está dañada',
    todo: 'Está cortada o alterada. Traerla otra vez, o usar una anterior. No se ha cambiado nada.',
  },
  'backup-future': {
    title: 'La copia de seguridad es de una versión posterior',
    todo: 'Actualizar este programa y restaurar después. No se ha cambiado nada.',
  },
  'reason-needed': {
    title: 'Falta un motivo',
    todo: 'Este registro tiene excepciones: escribir por qué se acepta a pesar de ellas. Aún no se ha decidido nada.',
  },
  cancelled: { title: 'Cancelado', todo: 'No se ha cambiado nada.' },
  'picture-not-a-picture': {
    title: 'No es una foto',
    todo: 'Elegir un fichero JPEG, PNG o WebP. No se ha guardado nada.',
  },
  'picture-heic': {
    title: 'Formato propio de una cámara (HEIC)',
    todo: 'Poner la cámara en JPEG («más compatible»), o guardar la foto como JPEG, y elegirla. No se ha guardado nada.',
  },
  'picture-drawing': {
    title: 'Un dibujo, no una foto',
    todo: 'Elegir un fichero JPEG, PNG o WebP. No se ha guardado nada.',
  },
  'picture-broken': {
    title: 'La foto no se puede abrir',
    todo: 'Está dañada o cortada. Hacerla de nuevo, o copiarla otra vez de la cámara. No se ha guardado nada.',
  },
  'picture-large': {
    title: 'La foto es demasiado grande',
    todo: 'Se admiten hasta 64 MB y 110 megapíxeles. Guardarla más pequeña y elegirla. No se ha guardado nada.',
  },
  'picture-twice': { title: 'Esta foto ya está aquí', todo: 'No se ha tomado dos veces.' },
  'picture-sealed': {
    title: 'Está en un registro sellado',
    todo: 'Se queda como se selló. Lo que haya que corregir se añade, firmado.',
  },
  'picture-unread': {
    title: 'Este navegador no puede reducir fotos',
    todo: 'Usar una versión más nueva. No se ha guardado nada.',
  },
  'pictures-full': {
    title: 'No caben más fotos en esta sesión',
    todo: 'Un registro admite 40. Quitar una que diga lo mismo que otra.',
  },
  'signature-blank': {
    title: 'El recuadro está vacío',
    todo: 'Firmar en el recuadro con el dedo o un lápiz, y guardar después.',
  },
};
