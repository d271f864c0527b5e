import type { Moment } from '../../job/checklist.ts';
import type { CHECK as ENGLISH } from '../en/checks.ts';
import { itemNamed } from '../said/check-item.ts';

export const CHECK: typeof ENGLISH = {
  permit: 'Permiso de entrada y reglas de espacio confinado atendidos',
  'flow-stopped': 'Caudal cortado o desviado',
  'camera-before': 'Inspeccionado con cámara, posición medida',
  'diameter-measured': 'Diámetro interior medido, no solo nominal',
  'packer-inspected': 'Packer sin corte, roce ni desgaste; hasta un corte superficial lo descarta',
  'fittings-locked': 'Los acoples encajan y cierran',
  'relief-fitted': 'Válvula de seguridad puesta, tarada a la presión admisible o por debajo',
  'regulator-fitted': 'Regulador puesto',
  'gauge-fitted': 'Manómetro puesto, marca cero con la línea abierta',
  'line-zero': 'Sensor puesto a cero con el acople visto abierto',
  'probe-warmed': 'Cada sonda calentada en la mano junto a un termómetro',
  'rope-fixed': 'Cuerda de recuperación fijada, su cabo lejos de la manga',
  'film-fitted': 'Película recta, sin torcer, sujeta en las bocas',
  'sleeve-marks': 'Manga dentro de las marcas de longitud útil',
  'batches-noted': 'Números de lote anotados',
  'witness-kept': 'Muestra testigo guardada a la temperatura del tubo',
  ventilation: 'Gas medido, boca ventilada',
  protection: 'Guantes, ojos y respiración como pide la ficha de datos de seguridad',
  'area-clear': 'Nadie en línea con el packer ni sobre la boca',
  'camera-after': 'Cámara después de la reparación',
  cleaned: 'Packer limpio e inspeccionado otra vez',
};

/** When items are asked, as the heading over them. */
export const MOMENT: Record<Moment, string> = {
  arrival: 'En la obra',
  mixing: 'Antes de mezclar',
  air: 'Antes de dar aire',
  'let-down': 'Antes de desinflar',
  after: 'Después de la reparación',
};

export const itemName = (id: string, text: string | null): string =>
  itemNamed(id, text, CHECK, LIST.unknownItem);

/** Reasons at hand for going on without a safety item. */
export const CHECK_REASONS: readonly string[] = [
  'No procede en esta obra.',
  'Lo atendieron otros en la obra.',
  'Aquí no se puede, el riesgo se miró.',
];

export const LIST = {
  builtIn: 'Lista de control incorporada',
  named: (name: string, revision: number) => `${name}, versión ${revision}`,
  title: 'Lista de control',
  safety: 'Seguridad',
  seen: (when: string, by: string) => (by === '' ? when : `${when}, ${by}`),
  noTime: 'sin hora',
  goOn: 'Seguir sin esto',
  without: (item: string) => `Seguir sin esto: ${item}`,
  why: 'Pulsar el motivo. Queda con el punto y sale en el certificado.',
  passed: (reason: string) => `Se siguió sin esto: ${reason}`,
  value: (text: string, unit: string) => (unit === '' ? text : `${text} ${unit}`),
  inUnit: (name: string, unit: string) => `${name}, ${unit}`,
  unknownItem: (id: string) => `Punto ${id}, ya no está en la lista`,
  others: 'Ya no están en la lista',
  by: 'Al ordenador',
  nobodyText:
    'Marcar quién está hoy en Ajustes, Personas: así las respuestas y las pulsaciones llevan iniciales.',
  which: 'Lista de control de este trabajo',
  keeps: 'Ya se respondió: este trabajo conserva su lista.',
  answered: (n: number, of: number) => `${n} de ${of} respondidos`,
  noSheet: 'Esta sesión no tiene hoja de trabajo, y por eso tampoco lista.',
  nothingNow: 'En esta fase no se pregunta nada.',
  before: 'Se preguntó antes',
  later: 'Se pregunta después',
  open: 'Abrir la lista',
  due: (n: number) => `Lista: ${n}`,
  dueShort: (n: number) => `Lista: ${n}`,
  number: 'Número',
  text: 'Respuesta',
};
