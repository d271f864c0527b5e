import type { STAGE_KEY as ENGLISH_KEY, TIME_SLOT as ENGLISH_TIME } from '../en/slots.ts';
import { STAGE_ACTION } from './terms.ts';

export const PRESSURE_SLOT = {
  line: 'Presión de la línea',
  ceiling: 'EN EL TECHO',
  'over-rated': 'SOBRE LA ADMISIBLE',
  'over-range': 'SENSOR AL FINAL',
  stale: 'Lectura antigua',
  lost: 'Sin lectura',
};

/** A name ends where the time begins. */
export const TIME_SLOT: typeof ENGLISH_TIME = {
  stage: 'En esta fase',
  'pot-life': 'Vida de la mezcla: quedan',
  settle: 'Dejar la llave cerrada',
  cue: 'Listos en la llave',
  'cue-stopped': 'Sin cuenta: guiarse por la presión',
  'cure-left': 'Del tiempo de curado quedan',
  'cure-still': 'Tiempo de curado parado',
  'cure-unknown': 'Tiempo de curado no se sabe',
  'check-sample': 'TOCAR LA MUESTRA',
  'cure-reached': 'Tiempo de curado de la ficha técnica alcanzado (cuenta prudente)',
  held: 'En retención',
  'empties-in': 'Línea vacía en unos',
  vent: 'Purga cerrada',
  'vent-failed': 'FALLÓ A LOS',
  'vent-stayed': 'Se quedó en cero',
  'ceiling-in': 'Techo en',
  'rated-in': 'Admisible en',
  'over-ceiling': 'Lleva sobre el techo',
  'over-rated': 'Lleva sobre la admisible',
  'no-reading': 'Lleva sin lectura',
  supply: 'Medir el suministro otros',
  tripped: 'Saltó hace',
  falling: 'Cae desde hace',
  'floor-in': 'Mínimo en',
  'air-stabilise': 'El aire se estabiliza otros',
  'air-settle': 'El tiempo empieza en',
  'air-timing': 'Del ensayo quedan',
  'air-verdict': 'Ensayo con aire',
};

export const TIME_NOW = {
  'ceiling-in': 'En el techo',
  'rated-in': 'En la admisible',
  'floor-in': 'En el mínimo',
};

export const STAGE_KEY: typeof ENGLISH_KEY = {
  ...STAGE_ACTION,
  connect: 'Conectar el aparato',
  zero: 'Poner a cero',
  mixed: 'Resina mezclada',
  compare: 'Comparar el manómetro',
  hard: 'Dura',
  'not-hard': 'No dura',
  'vent-open': 'La purga se abrió',
  test: 'Purga cerrada: probar',
  'supply-shut': 'Llave cerrada',
  'supply-stop': 'Parar la prueba',
  end: 'Terminar la sesión',
  'air-begin': 'Empezar el ensayo',
  'air-begin-probed': 'Empezar, sonda en el tubo',
  'air-again': 'Ensayar otra vez',
  'air-again-probed': 'Otra vez, sonda en el tubo',
  'air-not-held': 'No aguanta',
  'air-stop': 'Parar el ensayo',
  demoted: 'Cambiar fase: mantener pulsado',
};
