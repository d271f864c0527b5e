import type { Drift } from '../../sensing/opinion.ts';
import type {
  PUT_AWAY as ENGLISH_AWAY,
  CUP_KEPT as ENGLISH_CUP,
  CYCLES as ENGLISH_CYCLES,
  HISTORY as ENGLISH_HISTORY,
} from '../en/history.ts';

export const HISTORY: typeof ENGLISH_HISTORY = {
  title: 'A lo largo de sus trabajos',
  none: 'Ningún trabajo ha revisado aún este sensor. Aquí se reúnen los ceros, las comparaciones con el manómetro y los calentamientos en la mano.',
  job: 'Trabajo',
  zero: 'Cero tomado',
  gauge: 'Lectura menos manómetro',
  warm: 'Lectura menos termómetro',
  refused: 'demasiado lejos, rechazado',
  differed: 'no coincidían',
  before: '(antes de la calibración vigente)',
  more: (n: number) => `No se muestran ${n} trabajos anteriores.`,
  plot: (title: string) => `${title}, trabajo a trabajo`,
};

export const PUT_AWAY: typeof ENGLISH_AWAY = {
  title: 'Recoger el packer',
  note: (packer: string) =>
    `Limpiarlo y mirarlo: por un corte reventará. El ciclo va al historial de ${packer}.`,
  peak: 'Pico',
  leak: 'Fuga de la última retención',
  inflated: 'Bajo presión',
  found: 'La inspección encontró',
  notYet: 'Aún sin mirar',
  well: 'Ni corte, ni roce, ni desgaste',
  damage: 'Daño: no usarlo',
  foundNeeded: 'Decir qué encontró la inspección.',
  by: 'Iniciales',
  byNeeded: 'Quien lo miró pone sus iniciales.',
  what: 'Qué se encontró',
  log: 'Anotar este ciclo',
  done: 'El ciclo está en el historial del packer.',
  logged: (date: string, by: string) => `Anotado en el packer, ${date}, ${by}.`,
  toPacker: 'Ver su historial',
};

export const CUP_KEPT: typeof ENGLISH_CUP = {
  title: 'Guardar la marca del vaso con la resina',
  note: (resin: string) =>
    `Por lo que mostraron los vasos de lotes normales, el próximo lote de ${resin} se distingue de uno lento. Guardarla solo de un lote aprobado y bien pesado.`,
  mark: 'Este lote',
  mass: 'En el vaso',
  known: 'Conocido hasta ahora',
  batches: (n: number, scatter: string) =>
    n === 1 ? `1 lote, el próximo dentro de ±${scatter} %` : `${n} lotes, el próximo dentro de ±${scatter} %`,
  none: 'Aún ningún lote',
  keep: 'Guardarla con la resina',
  done: 'La marca del vaso está con la resina.',
  kept: 'Guardada con la resina.',
  toResin: 'Ver la resina',
  slow: 'Este lote fue lento según su vaso: no es marca de uno normal, y no se guarda.',
  soft: 'La muestra testigo no estaba dura: lo que mostró el vaso no se guarda.',
  full: (most: number) => `La resina tiene ${most} marcas: quitar primero una.`,
};

export const CYCLES: typeof ENGLISH_CYCLES = {
  title: 'Ciclos',
  count: (n: number) => (n === 1 ? '1 ciclo en total.' : `${n} ciclos en total.`),
  unseen: 'Desde el último no consta ninguna inspección.',
  none: 'Aún ninguno anotado. La revisión de una sesión tiene «Anotar este ciclo» al recoger el packer.',
  leak: 'Fuga, ciclo a ciclo',
  noLeak: 'Desde la última reparación no se midió ninguna fuga.',
  noneSeen: 'no se ve',
  plot: 'Fuga a lo largo de los ciclos',
  day: 'Día',
};

export function driftText(
  drift: Drift | null,
  text: (off: number) => string,
  none = 'Sin revisar desde la calibración.',
  level = text,
): string {
  if (drift === null) return none;
  const { jobs, now, since, perDay, moving, daysToLimit, jumped } = drift;
  const said = [
    jobs === 1
      ? `${level(now)} en un trabajo.`
      : `${level(now)} ahora, movido ${text(since)} en ${jobs} trabajos.`,
  ];
  if (jumped) said.push('El último paso se sale de los trabajos anteriores.');
  else if (moving && perDay !== null) {
    said.push(`Se mueve ${text(perDay * 30)} en 30 días.`);
    if (daysToLimit === 0) said.push('La tolerancia está agotada.');
    else if (daysToLimit !== null)
      said.push(`A este paso la tolerancia se agota en unos ${Math.max(1, Math.round(daysToLimit))} días.`);
  } else
    said.push(
      jobs >= 4 ? 'Está quieto dentro de su dispersión.' : 'El paso se dice a partir de cuatro trabajos.',
    );
  return said.join(' ');
}
