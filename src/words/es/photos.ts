import type { Carried } from '../../job/enclosed.ts';
import type { FIRM as ENGLISH_FIRM, PHOTOS as ENGLISH_PHOTOS } from '../en/photos.ts';
import { OCCASIONS } from './occasions.ts';

const CARRIED: Record<Carried, string> = {
  place: 'el lugar',
  person: 'el nombre de una persona',
  time: 'la hora',
  device: 'la cámara',
  other: 'otras notas',
};

export const PHOTOS: typeof ENGLISH_PHOTOS = {
  title: 'Fotos y firmas',
  lead: 'Se sellan con el registro, en su certificado y en su fichero. Las fotos se reducen aquí, y lo que la cámara anotó con ellas (lugar, nombre, hora) no se guarda.',
  leadSealed: 'Como se sellaron con el registro.',
  none: 'Aún ninguna.',
  present: (names: string) => `Cuadrilla de ese día: ${names}`,
  noneSealed: 'No había ninguna cuando se selló el registro.',
  occasion: 'Qué muestra',
  occasions: OCCASIONS,
  by: 'Iniciales',
  note: 'Observación',
  take: 'Hacer una foto',
  choose: 'Elegir fotos',
  original: 'Guardar también el fichero original',
  originalText:
    'El original puede decir dónde, cuándo y quién lo hizo. Quien reciba el registro recibe también eso.',
  reducing: (n: number, of: number) => (of === 1 ? 'Reduciéndola' : `Reduciendo la foto ${n} de ${of}`),
  kept: (n: number) => (n === 1 ? 'Guardada.' : `${n} fotos guardadas.`),
  taken: {
    camera: (when: string) => `hecha el ${when}`,
    file: (when: string) => `fichero del ${when}`,
  },
  withOriginal: (bytes: string, says: string) =>
    says === '' ? `con su original, ${bytes}` : `con su original, ${bytes}, que dice: ${says}`,
  carries: (list: readonly Carried[]) => list.map((c) => CARRIED[c]).join(', '),
  open: (what: string) => `${what}: verla en grande`,
  remove: 'Quitar',
  removeAsk: '¿Quitar esta foto?',
  removeText: 'Se quita de este navegador. No hay vuelta atrás.',
  gone: 'La foto ya no está.',
  compare: 'Antes y después, lado a lado',
  left: 'Izquierda',
  right: 'Derecha',
  close: 'Cerrar',
  addText:
    'Una foto o una firma a mano que llega después del sellado es también un añadido: firmado por sí mismo, pequeño. Una foto necesita iniciales.',
  signTitle: 'Firmar a mano',
  signLead:
    'Con el dedo, un lápiz o el ratón. Muestra quién estaba allí; el registro en sí lo sella la clave del ordenador.',
  as: 'Por',
  asWhom: { crew: 'la cuadrilla', client: 'el cliente' },
  signed: { crew: 'Por la cuadrilla', client: 'Visto por el cliente' },
  name: 'Nombre',
  nameNeeded: 'Una firma necesita su nombre.',
  pad: 'Recuadro para firmar',
  undo: 'Deshacer el último trazo',
  clear: 'Borrar',
  keep: 'Guardar esta firma',
  blank: 'El recuadro está vacío: firmar en él y guardar después.',
  full: 'No caben más trazos. Guardarla, o borrar el recuadro.',
  removeSigned: 'Quitar esta firma',
};

export const FIRM: typeof ENGLISH_FIRM = {
  mark: 'Logotipo de la empresa',
  markText:
    'Va en los certificados, junto al nombre de la empresa. SVG, PNG o JPEG, hasta 2 MB; aquí se dibuja de nuevo, pequeño, y no se guarda nada más del fichero.',
  markChoose: 'Elegir el logotipo',
  markRemove: 'Quitar el logotipo',
  markRemoved: 'Logotipo quitado.',
  refused: {
    large:
      'El fichero es demasiado grande para un logotipo: hasta 2 MB y 8000 píxeles de lado. Guardarlo más pequeño y elegirlo.',
    unread: 'No es una imagen que se pueda dibujar aquí. Elegir un fichero SVG, PNG o JPEG.',
  },
  far: 'Segunda pantalla',
  farText:
    'La presión y nada más, en una ventana aparte para una pantalla grande de este ordenador. Dice SIN DATOS cuando la página que vigila se cierra o se para; no muestra alarmas.',
  farOpen: 'Abrir la segunda pantalla',
  people: 'Personas',
  peopleText:
    'Quien está marcado está hoy aquí. Se elige una vez al día; sus nombres se sellan con las sesiones del día y están en el certificado, y sus iniciales se ofrecen donde se firma algo.',
  nobody: 'Aún no hay nadie.',
  hereToday: 'Quién está hoy',
  hereText: 'La lista se queda en este ordenador. Mañana no hay nadie marcado.',
  initials: 'Iniciales',
  initialsKnown: 'Estas iniciales ya están tomadas.',
  name: 'Nombre',
  addPerson: 'Añadir esta persona',
  personRemoved: (initials: string) => `Se ha quitado ${initials}.`,
};
