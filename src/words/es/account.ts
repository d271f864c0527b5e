import type { Account, OpenPoint } from '../../record/account.ts';
import { type DisplayUnits, type Format, METRIC, type RunClock } from '../create-format.ts';
import type { supply } from './supply.ts';

/** Of all holds together; null is not known. */
interface Held {
  readonly holdS: number | null;
  readonly inBandS: number | null;
  readonly floorKnown: boolean;
  readonly lowestHoldBar: number | null;
}

/** A hold that left the band for less held all the time: a reading's own grain, s. */
const WHOLE_S = 5;

const OPEN: Record<OpenPoint, string> = {
  'no-limit': 'No había límite puesto',
  'no-hold': 'No hay retención registrada',
  'not-held': 'Salió de la banda de retención',
  'zero-none': 'Cero sin tomar',
  'supply-went-on': 'Inflado con un suministro que se probó demasiado alto',
  'supply-moved': 'Por encima de donde se probó o estaba el suministro',
  'supply-over': 'Inflado con el suministro sobre el techo',
  'sensors-differ': 'Los dos sensores de presión discreparon',
  'gauge-none': 'Manómetro sin comparar',
  'gauge-differs': 'Manómetro y sensor discrepan',
  'batch-slow': 'Lote lento según el vaso testigo',
  'cup-doubted': 'El vaso testigo no lo dijo',
  'witness-none': 'Muestra testigo sin anotar',
  'witness-soft': 'Muestra testigo no dura',
  'witness-warm': 'Muestra testigo no guardada a la temperatura del tubo',
  'rebound-none': 'No se vio seguir en cero con la purga cerrada',
  'rebound-back': 'La presión volvió con la purga cerrada',
  'checks-passed': 'Se siguió sin puntos de seguridad de la lista',
  'air-test-failed': 'Ensayo con aire no superado',
  'air-test-unsaid': 'El ensayo con aire no dice nada',
  'air-test-none': 'Ensayo con aire previsto, sin hacer',
};

const ACCOUNT = {
  label: 'Cómo fue esta sesión',
  open: 'Queda pendiente',
  nothingOpen: 'Nada pendiente',
  reading: 'Leyendo el registro …',
  yes: 'coinciden',
  no: 'discrepan',
  cannot: 'no se pueden comparar',
  supply: 'Suministro antes de acoplar',
  supplyNone: 'sin probar',
  gauge: 'Manómetro y sensor',
  witness: 'Muestra testigo',
  witnessNone: 'sin anotar',
  atCeiling: 'En el techo',
  never: 'nunca',
  reached: 'alcanzado',
  noCeiling: 'sin límite puesto',
  over: 'Sobre la admisible',
};

export function account(f: Format, { SUPPLY_REASON, supplyText }: ReturnType<typeof supply>) {
  const pressureSentence = (a: Account, n: Held, units: DisplayUnits): string => {
    if (n.holdS === null || n.inBandS === null) return 'No se registró ninguna retención.';
    const low = f.pressure(n.lowestHoldBar, units);
    const time = f.duration(n.inBandS);
    const whole = f.duration(n.holdS);
    if (!n.floorKnown)
      return a.atCeiling === false
        ? `Inflado durante ${time}, lo más bajo ${low}, nunca en el techo; el mínimo no se sabe.`
        : `Inflado durante ${time}, lo más bajo ${low}; el mínimo no se sabe.`;
    const isWhole = n.holdS - n.inBandS <= WHOLE_S;
    if (a.atCeiling === false)
      return isWhole
        ? `Estuvo ${whole} en la banda de retención, lo más bajo ${low}, nunca en el techo.`
        : `En la banda de retención ${time} de ${whole}, lo más bajo ${low}, nunca en el techo.`;
    if (a.atCeiling === true && a.overRated === null)
      return isWhole
        ? `Estuvo ${whole} en la banda de retención, lo más bajo ${low}; se llegó al techo.`
        : `En la banda de retención ${time} de ${whole}, lo más bajo ${low}; se llegó al techo.`;
    return isWhole
      ? `Estuvo ${whole} en la banda de retención, lo más bajo ${low}.`
      : `En la banda de retención ${time} de ${whole}, lo más bajo ${low}.`;
  };

  const floorSentence = ({ underFloor }: Account, clock: RunClock): readonly string[] => {
    if (underFloor === null) return [];
    const { spans, when } = underFloor;
    const [first] = spans;
    if (first === undefined) return [];
    const [from, to] = [clock(first.fromS), clock(first.toS)];
    const total = f.duration(spans.reduce((t, s) => t + s.toS - s.fromS, 0));
    const cure =
      when === null
        ? ''
        : when === 'before-cure'
          ? ', antes del tiempo de curado'
          : ', con el tiempo de curado ya alcanzado';
    if (spans.length > 1)
      return [
        `Bajo el mínimo ${spans.length} veces, la primera de ${from} a ${to}, ${total} en total${cure}.`,
      ];
    return [
      from === to
        ? `Bajo el mínimo en ${from} durante ${total}${cure}.`
        : `Bajo el mínimo de ${from} a ${to}${cure}.`,
    ];
  };

  const cureSentence = ({ cure }: Account): string => {
    switch (cure.state) {
      case 'met':
        return cure.afterS === null
          ? 'El tiempo de curado de la ficha técnica se alcanzó en el punto probable más frío.'
          : `El tiempo de curado de la ficha técnica se alcanzó tras ${f.duration(cure.afterS)} en el punto probable más frío.`;
      case 'not-met':
        return `El tiempo de curado de la ficha técnica no se alcanzó: se contaron ${f.duration(cure.countedS)}.`;
      case 'not-started':
        return 'El tiempo de curado de la ficha técnica no empezó a contar.';
      case 'not-followed':
        return 'No se siguió tiempo de curado: sin resina con tiempos de curado en la hoja de trabajo.';
      case 'not-judged':
        return 'El curado no se juzgó: la resina cura con luz.';
      default:
        return cure satisfies never;
    }
  };

  return {
    ACCOUNT,
    OPEN_POINT: OPEN,

    /**
     * The worst first.
     * @param clock names a time of the run, seconds from its first sample
     */
    accountText(a: Account, n: Held, clock: RunClock, units = METRIC): readonly string[] {
      const over =
        a.overRated === null
          ? []
          : a.overRated.forS === null
            ? [`Pasó de la admisible en ${f.pressure(a.overRated.byBar, units)}.`]
            : [
                `Pasó de la admisible en ${f.pressure(a.overRated.byBar, units)} durante ${f.duration(a.overRated.forS)}.`,
              ];
      return [...over, ...floorSentence(a, clock), pressureSentence(a, n, units), cureSentence(a)];
    },

    supplyProved({ supply }: Account, units = METRIC): string {
      if (supply === null) return ACCOUNT.supplyNone;
      const text = supplyText(supply.proved, units);
      return supply.voidBy === null ? text : `${text} Dejó de valer: ${SUPPLY_REASON[supply.voidBy]}.`;
    },

    gaugeText(a: Account, units = METRIC): string {
      const { gauge } = a;
      if (gauge === null) return 'sin comparar';
      const how = gauge.agrees === null ? ACCOUNT.cannot : gauge.agrees ? ACCOUNT.yes : ACCOUNT.no;
      return `${f.pressureNumber(gauge.gaugeBar, units)}, ${f.pressure(gauge.readingBar, units)}: ${how}`;
    },

    witnessText(a: Account): string {
      const { witness } = a;
      if (witness === null) return ACCOUNT.witnessNone;
      if (!witness.atPipeTemperature)
        return witness.hard
          ? `dura a ${f.stopwatch(witness.atS)}, no guardada a la temperatura del tubo`
          : `no dura a ${f.stopwatch(witness.atS)}, no guardada a la temperatura del tubo`;
      return witness.hard ? `dura a ${f.stopwatch(witness.atS)}` : `no dura a ${f.stopwatch(witness.atS)}`;
    },

    overText(a: Account, units = METRIC): string {
      if (a.overRated === null) return ACCOUNT.never;
      return a.overRated.forS === null
        ? f.pressure(a.overRated.byBar, units)
        : `${f.pressure(a.overRated.byBar, units)}, ${f.duration(a.overRated.forS)}`;
    },
  };
}
