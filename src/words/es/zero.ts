import type { ZERO_SECOND as ENGLISH, ZERO as ENGLISH_ZERO } from '../en/zero.ts';

export const ZERO: typeof ENGLISH_ZERO = {
  ok: 'Cero tomado',
  'too-far': 'Cero rechazado: demasiado lejos de cero, el sensor puede estar dañado o bajo presión',
  noisy: 'Cero rechazado: la lectura aún no está quieta. Esperar unos segundos y pulsar otra vez',
  'in-run': 'Cero rechazado: nunca con una sesión en marcha',
  'no-reading': 'Cero rechazado: no hay lectura',
};

export const ZERO_SECOND: typeof ENGLISH = {
  title: 'Cero del segundo sensor',
  both: 'Los dos sensores leen una línea abierta: se toma el cero de ambos.',
  lost: 'El segundo sensor no da lectura: no se puede tomar su cero. Mirar su cable.',
  asks: {
    'outlet-pressure': (bar) =>
      `El sensor del suministro lee ${bar}. Cerrar el suministro, vaciar su línea, y se toma también su cero. Si no tiene aire, es otro sensor o está dañado.`,
    'check-pressure': (bar) =>
      `El segundo sensor lee ${bar} con el acople abierto. ¿Hay aire en su línea? Si no, es otro sensor o está dañado.`,
  },
  none: 'Aún sin tomar.',
  taken: (offset: string) => `Tomado, desviación ${offset}.`,
  refused: {
    'too-far': (bar) => `Sin tomar: leía ${bar}, que no es una línea abierta.`,
    noisy: () => 'Sin tomar: su lectura no estaba quieta.',
    'no-reading': () => 'Sin tomar: no dio lectura.',
  },
  now: 'Poner ambos a cero',
};
