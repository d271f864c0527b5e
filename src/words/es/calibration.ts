import type { CalibrationRefusal } from '../../sensing/calibration.ts';

export const CALIBRATION = {
  title: 'Lo que dan los puntos',
  asLeftCounts: 'La recta de calibración pasa por los puntos como se dejó.',
  asFoundCounts: 'No se ajustó nada: la recta de calibración pasa por los puntos como se halló.',
  point: 'Patrón',
  residual: 'Fuera de la recta de calibración',
  gain: 'Ganancia',
  correction: (at: string) => `Corrección a ${at}`,
  scatter: 'Dispersión en torno a la recta de calibración, incertidumbre típica',
  assumed: 'Supuesta: dos puntos no dejan dispersión que medir. Un tercero la dice.',
  assumedOne: 'Supuesta: una comparación no deja dispersión que medir. Una segunda la dice.',
  offset: 'Corrección en todas partes',
  byOffset: 'Corregido con una desviación: puntos tan juntos no dicen nada de la pendiente.',
  far: 'Más de 3 K de diferencia: tanto no se desvía un termopar. ¿Quedaba hielo, estaba la punta dentro y quieta, y es esta sonda? Comparar otra vez.',
  worstFound: 'Mayor error como se halló',
  worstLeft: 'Mayor error como se dejó',
  drift: (at: string) => `De como se halló a como se dejó, lo mayor a ${at}`,
  series: 'Calibraciones',
  sinceLast: 'Movido desde la calibración anterior',
  due: (days: number) => (days < 0 ? `Vencida hace ${-days} d.` : `Vence en ${days} d.`),
};

export const CALIBRATION_REFUSAL: Record<CalibrationRefusal, string> = {
  'too-few': 'Aún no hay calibración: hacen falta dos puntos; para una temperatura, uno.',
  'too-many': 'No hay calibración: más de once puntos.',
  'not-finite': 'No hay calibración: un punto o el rango no es un número.',
  narrow: 'No hay calibración: los puntos cubren menos de la mitad del rango.',
  gain: 'No hay calibración: la pendiente se desvía más de un décimo. ¿Otro rango, u otra unidad?',
  offset: 'No hay calibración: el extremo bajo se desvía más de un veinteavo del rango.',
  residual: 'No hay calibración: un punto cae a más de un centésimo del rango de la recta.',
  'far-off':
    'No hay calibración: más de 10 K de diferencia. ¿Hilos cruzados, otro tipo de termopar, o hielo sin remover?',
  scattered:
    'No hay calibración: los puntos difieren en más de 2 K. Comparar otra vez, removiendo, y esperar a que esté quieto.',
};
