import type { Wants } from '../../job/checklist.ts';

/** Words of the editor of checklists. */
export const CHECKLIST = {
  one: 'Lista de control',
  none: 'Ninguna propia todavía: las hojas de trabajo toman la incorporada. «Nuevo» hace una copia con palabras propias.',
  head: 'La lista',
  text: 'Empieza como copia de la incorporada. Una hoja de trabajo toma la lista como está ese día y la conserva: lo que se cambie aquí no cambia ningún trabajo ni registro.',
  name: 'Nombre',
  inUse: 'Las hojas nuevas la toman',
  items: 'Puntos',
  itemsText:
    'Cada uno se pregunta en su momento y no antes. Un punto de seguridad se pregunta antes de que el botón deje seguir; sin él se sigue solo con un motivo, que sale en el certificado.',
  itemText: 'Qué se revisa',
  at: 'Se pregunta',
  safety: 'Punto de seguridad',
  wants: 'Respuesta',
  unit: 'Unidad del número',
  noText: 'Aún sin texto',
  add: (moment: string) => `Añadir un punto: ${moment}`,
  up: (item: string) => `Antes: ${item}`,
  down: (item: string) => `Después: ${item}`,
  remove: 'Quitar este punto',
  removed: (item: string) => `Quitado: ${item}`,
  empty: 'No queda ningún punto. Añadir uno o empezar de nuevo con la lista incorporada.',
  beginAgain: 'Empezar de nuevo con la incorporada',
  full: (most: number) => `${most} puntos: una lista no puede tener más.`,
  saveFile: 'Guardar como fichero',
  openFile: 'Abrir un fichero',
  fileTooLarge: 'El fichero no es una lista de control: es demasiado grande. Aquí no se cambió nada.',
  fileRefused: (why: string) => `El fichero no es una lista de control: ${why} Aquí no se cambió nada.`,
  fileTaken: 'Tomado. Repasarlo y guardar.',
  fileTamed: (n: number) =>
    n === 1
      ? 'Tomado; de un texto se quitaron marcas de otro programa. Repasarlo y guardar.'
      : `Tomado; de ${n} textos se quitaron marcas de otro programa. Repasarlos y guardar.`,
};

/** What an answer is, beside the tick. */
export const WANTS: Record<Wants, string> = {
  tick: 'Una marca',
  number: 'Una marca y un número',
  text: 'Una marca y unas palabras',
};
