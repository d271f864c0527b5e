import type { AGAIN as ENGLISH_AGAIN, DUE as ENGLISH_DUE, MIX as ENGLISH_MIX } from '../en/due.ts';

export const DUE: typeof ENGLISH_DUE = {
  title: 'Por atender',
  damaged: 'Daño en su historial: repararlo o retirarlo',
  'over-rated': 'Pasó de su presión admisible: inspeccionarlo antes de volver a meterlo',
  'not-inspected': 'Sin inspeccionar desde su última sesión',
  overdueBy: (days: number) =>
    days === 1 ? 'Calibración vencida hace 1 día' : `Calibración vencida hace ${days} días`,
  dueIn: (days: number) =>
    days === 0
      ? 'La calibración vence hoy'
      : days === 1
        ? 'La calibración vence mañana'
        : `La calibración vence en ${days} días`,
  'not-sealed': 'Sesión sin sellar',
  'not-sent': 'Fichero de registro sin enviar',
  sentOtherwise: 'Ya se envió',
  more: (n: number) => `y ${n} más, en el archivo`,
};

export const MIX: typeof ENGLISH_MIX = {
  title: 'Resina para hoy',
  sleeves: (n: number) => (n === 1 ? '1 manga' : `${n} mangas`),
  masses: (whole: string, hardener: string | null) =>
    hardener === null ? `${whole} de mezcla` : `${whole} de mezcla, ${hardener} son endurecedor`,
  noMass: (n: number) =>
    n === 1
      ? '1 manga aún no tiene masa: ver su hoja de trabajo'
      : `${n} mangas aún no tienen masa: ver sus hojas de trabajo`,
  each: (minutes: number) =>
    `Mezclar para cada manga por separado, justo antes de impregnarla: vida de la mezcla ${minutes} min con la mezcla más caliente.`,
  eachUnknown:
    'Mezclar para cada manga por separado, justo antes de impregnarla: la vida de su mezcla no espera a la anterior.',
  packer: (name: string, n: number) => `${name}: ${n} reparaciones, una tras otra`,
  least: (time: string) => `al menos ${time} de manipulación y curado`,
  leastUnknown: 'tiempo no conocido: falta la manipulación o la temperatura del terreno',
};

export const AGAIN: typeof ENGLISH_AGAIN = {
  title: 'Otra igual',
  what: (title: string) => `Como ${title}: misma línea, packer, resina, sensores y aparato. Nuevo para esta:`,
  name: 'Título',
  position: 'Posición (distancia)',
  length: 'Longitud del defecto',
  resinBatch: 'Lote de resina',
  hardenerBatch: 'Lote de endurecedor',
  sameBatch: (batches: string) => `De los mismos lotes: ${batches}`,
  inspected: 'El packer se inspeccionó desde que salió: sin corte, roce ni desgaste',
  zero: 'El cero se toma de nuevo antes de la sesión: el último no cuenta.',
  rest: 'También se vuelven a pedir la infiltración, la temperatura al mezclar y todas las revisiones.',
  make: 'Hacer la hoja de trabajo',
};
