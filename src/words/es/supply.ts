import type { PairPath, SupplyReason, SupplyVerdict } from '../../watch/codes.ts';
import type { Bounded, WatchEvent } from '../../watch/events.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

const REASON: Record<SupplyReason, string> = {
  'not-in-prepare': 'solo antes de asentar el packer',
  'no-reading': 'no hay lectura',
  'not-empty': 'la línea estaba bajo presión: vaciarla primero',
  'no-rise': 'no llegó presión. ¿Se abrió el suministro? Un sensor en el packer no lo ve',
  'slow-rise': 'subió más despacio de lo que se llena una manguera',
  'never-still': 'no se estabilizó: la manguera pierde o su extremo está abierto',
  'end-leaks': 'bajó al cerrar la llave: el extremo de la manguera está abierto o pierde',
  'packer-on': 'el packer estaba en la manguera',
  stopped: 'parada a mano',
  turned: 'se volvió a ajustar el regulador',
  stage: 'el trabajo siguió adelante',
  gap: 'faltan lecturas',
  device: 'otro sensor, escala o sitio',
  'fill-as-fast': 'el packer se llenó tan deprisa como la manguera: entonces ya estaba puesto',
};

const VERDICT: Record<SupplyVerdict, string> = {
  stands: 'Queda en la presión de trabajo',
  'under-working': 'Queda bajo la presión de trabajo: ningún inflado llega a ella',
  'over-working': 'Queda sobre la presión de trabajo: bajar el regulador',
  'over-ceiling': 'SOBRE EL TECHO: bajar el regulador, no acoplar',
  creeps: 'Sube solo: no dejarlo abierto',
};

const TASK = {
  title: 'Probar el suministro',
  text: 'Antes de poner la manguera en el packer: cerrar su extremo y abrir el suministro. Sube y queda en lo que deja pasar el regulador.',
  beside:
    'Se descubre un extremo abierto o que pierde, o un packer en la manguera; una llave que se queda abierta, no.',
  shut: 'Extremo cerrado',
  uncoupled: 'Desacoplada, el acople cierra',
  closed: '¿Cómo está cerrado el extremo de la manguera?',
  again: 'Para probarlo otra vez: ¿cómo está cerrado el extremo de la manguera?',
  underWay: 'En marcha: la orden dice lo que sigue.',
  turned: 'Se reajustó el regulador',
  stoodAt: 'Suministro antes de inflar',
  path: 'Entre suministro y packer',
  outletTitle: 'Salida del regulador',
  outletText: (bar: string) =>
    `Estaba a ${bar} antes de dar aire. Si desde entonces se giró a propósito, decirlo: se vigila desde donde esté en ese momento.`,
  needsLimits: 'Sin límites no hay contra qué probarlo: elegir un packer.',
  skipped: 'Sin probar. El certificado lo dice.',
  notProved: (why: string) => `Sin probar: ${why}.`,
  slowValve: 'No: había una mano en la llave o el regulador',
  packerOn: 'El packer está en la manguera',
};

const PATH: Record<PairPath, string> = {
  flows: 'pasa aire',
  level: 'los dos están iguales, no viene más',
  blocked: 'no pasa nada: una llave cerrada, o una manguera doblada',
  escapes: 'pasa aire y el packer no sube',
};

export function supply(f: Format) {
  const range = ({ value, low, high }: Bounded, u: DisplayUnits): string =>
    `${f.pressure(value, u)} (${f.pressureNumber(low, u)} a ${f.pressureNumber(high, u)})`;

  function supplyText(
    told: {
      readonly lockUpBar: Bounded | null;
      readonly verdict: SupplyVerdict | null;
      readonly creepMbarPerMin: Bounded | null;
      readonly ceilingInS: Bounded | null;
    },
    u: DisplayUnits = METRIC,
  ): string {
    const { lockUpBar, verdict, creepMbarPerMin, ceilingInS } = told;
    const out: string[] = [];
    if (lockUpBar !== null) out.push(`${range(lockUpBar, u)}.`);
    if (verdict !== null) out.push(`${VERDICT[verdict]}.`);
    if (ceilingInS !== null) out.push(`Pasa del techo en ${f.duration(ceilingInS.value)}.`);
    else if (creepMbarPerMin !== null) out.push(`Subida lenta ${f.pressureRate(creepMbarPerMin.value, u)}.`);
    return out.join(' ');
  }

  function supplyEvent(e: Extract<WatchEvent, { e: 'supply' }>, u: DisplayUnits = METRIC): string {
    const why = e.reason === null ? '' : `: ${REASON[e.reason]}`;
    switch (e.what) {
      case 'begun':
        return e.end === 'uncoupled'
          ? 'Prueba del suministro empezada, manguera desacoplada'
          : 'Prueba del suministro empezada, extremo de la manguera cerrado';
      case 'refused':
        return `Prueba del suministro no empezada${why}`;
      case 'asked':
        return `Se preguntó si el packer está en la manguera${why}`;
      case 'locked':
        return `El suministro queda en ${supplyText({ ...e, creepMbarPerMin: null }, u)}`;
      case 'proved':
        return `Suministro probado: ${supplyText(e, u)}`;
      case 'broken-off':
        return `Prueba del suministro interrumpida${why}`;
      case 'vented':
        return 'Línea otra vez vacía tras la prueba del suministro';
      case 'void':
        return `La prueba del suministro ya no vale${why}`;
      case 'elsewhere':
        return `El inflado está a ${f.pressure(e.bar, u)}${e.lockUpBar === null ? '' : `, el suministro se probó a ${f.pressure(e.lockUpBar.value, u)}`}`;
    }
  }

  return { PAIR_PATH: PATH, SUPPLY: TASK, SUPPLY_REASON: REASON, supplyText, supplyEvent };
}
