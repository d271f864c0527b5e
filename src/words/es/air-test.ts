import type { AirTestReason, AirTestVerdict } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** Within a sentence. */
const REASON: Record<AirTestReason, string> = {
  'not-in-stage': 'solo en su propia fase',
  'no-plan': 'la hoja de trabajo no dice ninguno, o le falta un dato',
  'no-reading': 'no hay lectura',
  'sensor-too-coarse': 'la incertidumbre del sensor pasa de un décimo de la caída admitida',
  'over-plugs': 'el agua freática pide más aire del que se da a los obturadores',
  stopped: 'parado a mano',
  'not-held': 'no se mantiene en la presión de ensayo',
  'air-came-in': 'entró aire mientras se medía la caída',
  gap: 'faltan lecturas',
  device: 'otro sensor, escala o ensayo',
  stage: 'el trabajo siguió adelante',
  end: 'la sesión terminó',
  near: 'la caída está más cerca de la admitida de lo que se la conoce',
  rose: 'la presión subió: calor, o un suministro sin cerrar',
};

const VERDICT: Record<AirTestVerdict, string> = {
  passed: 'Superado',
  failed: 'No superado',
  'cannot-say': 'No se puede decir',
};

const TASK = {
  title: 'Ensayo con aire',
  none: 'No hay ninguno previsto: la hoja de trabajo dice el método.',
  method: (method: string) => (method === 'F1417' ? 'ASTM F1417' : `EN 1610, método ${method}`),
  testPressure: 'Presión de ensayo',
  first: 'Primero, para estabilizar',
  most: 'Nunca más de',
  time: 'Tiempo',
  allowed: 'Caída admitida',
  drop: 'Caída',
  attempts: 'Intentos',
  noAttempt: 'Ninguno aún. Si se salta, el certificado lo dice.',
  probe:
    'Una sonda «aire» puesta en el tubo entre los obturadores permite dar la caída a temperatura constante. En otro sitio la falsea.',
  codes:
    'Procedimiento de ensayo, obturadores y quién puede usarlos: según las normas locales. Esta página no sustituye ninguna.',
};

export function airTest(f: Format) {
  const mbar = (value: number | null, u: DisplayUnits): string =>
    f.testPressure(value === null ? null : value / 1000, u);

  type Told = Extract<WatchEvent, { e: 'air-test' }>;

  function judgedText(e: Told, u: DisplayUnits = METRIC): string {
    const why = e.reason === null ? '' : ` (${REASON[e.reason]})`;
    const warmed =
      e.warmedK === null
        ? ''
        : `, el aire ${f.quantity('temperatureDifference', Math.abs(e.warmedK), u)} más ${e.warmedK < 0 ? 'frío' : 'caliente'}, tenido en cuenta`;
    return `${VERDICT[e.verdict ?? 'cannot-say']}${why}: caída ${mbar(e.dropMbar, u)} ± ${mbar(e.uMbar, u)} en ${f.duration(e.seconds)} desde ${mbar(e.startMbar, u)}, admitida ${mbar(e.allowedMbar, u)}${e.method === null ? '' : ` (${TASK.method(e.method)})`}${warmed}`;
  }

  function airTestEvent(e: Told, u: DisplayUnits = METRIC): string {
    const why = e.reason === null ? '' : `: ${REASON[e.reason]}`;
    switch (e.what) {
      case 'begun':
        return `Ensayo con aire ${e.attempt} empezado${e.method === null ? '' : `, ${TASK.method(e.method)}`}`;
      case 'refused':
        return `Ensayo con aire no empezado${why}`;
      case 'stabilised':
        return `Ensayo con aire ${e.attempt}: estabilizado durante ${f.duration(e.seconds)}`;
      case 'timed':
        return `Ensayo con aire ${e.attempt}: medido desde ${mbar(e.startMbar, u)} durante ${f.duration(e.seconds)}`;
      case 'judged':
        return `Ensayo con aire ${e.attempt}: ${judgedText(e, u)}`;
      case 'broken-off':
        return `Ensayo con aire ${e.attempt} interrumpido${why}`;
      case 'vented':
        return 'Línea otra vez vacía tras el ensayo con aire';
    }
  }

  return { AIR: TASK, AIR_REASON: REASON, AIR_VERDICT: VERDICT, airTestEvent, judgedText };
}
