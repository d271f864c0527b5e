import type { AlarmCode, LossCause } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import type { AlarmView } from '../../watch/view.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';
import {
  afterFall,
  afterJump,
  areSwapped,
  hasCase,
  inHose,
  isNow,
  isOver,
  isUnderNow,
  leftFull,
  roundedDown,
  SEEN_BAR,
  type Texts,
  unannounced,
} from '../said/alarm-cases.ts';
import { cureAlarms } from './alarms-cure.ts';
import { deviceFault } from './device-faults.ts';
import { STORE_CAUSE } from './link.ts';

const NO_WARNING = 'Peligro también sin aviso.';

const LOSS: Record<LossCause, { readonly is: string; readonly was: string }> = {
  silence: { is: 'el aparato calla', was: 'el aparato callaba' },
  port: { is: 'se fue el cable o el puerto', was: 'se había ido el cable o el puerto' },
  range: { is: 'el sensor lee muy por debajo de cero', was: 'el sensor leía muy por debajo de cero' },
  fault: { is: 'el sensor o su hilo está averiado', was: 'el sensor o su hilo estaba averiado' },
  reset: { is: 'el aparato se reinició', was: 'el aparato se reinició' },
  garbage: { is: 'solo llega ruido', was: 'solo llegaba ruido' },
  'other-device': {
    is: 'responde otro aparato: volver a poner el primero',
    was: 'respondía otro aparato',
  },
  rescaled: { is: 'el aparato tiene otra escala: no se lee', was: 'el aparato tenía otra escala' },
};

function lossCause(cause: string | undefined, tense: 'is' | 'was'): string {
  if (cause === undefined) return '';
  return ` (${hasCase(LOSS, cause) ? LOSS[cause][tense] : cause})`;
}

function storeCause(cause: string | undefined): string {
  if (cause === undefined) return '';
  return ` (${hasCase(STORE_CAUSE, cause) ? STORE_CAUSE[cause] : cause})`;
}

const GAUGE_FIRST = 'El sensor ha dado un salto: mirar primero el manómetro, no dar aire';
const LOSS_FIRST = 'Buscar primero la pérdida. Mantenerse lejos';
const HOSE_ALONE =
  'cerrar la llave de aire y después abrir la purga: sujetar la manguera, no acoplar nada, bajar el regulador';
/** What a packer over its rating asks for; a hose alone sends nobody away who has to hold it. */
const ventIt = (v: AlarmValues): string =>
  inHose(v) ? HOSE_ALONE : 'cerrar la llave de aire y después abrir la purga, todos lejos';

export function alarms(f: Format) {
  const with_ = (label: string, bar: number | undefined, u: DisplayUnits): string => {
    return bar === undefined ? '' : `${label}${f.pressure(bar, u)}`;
  };

  /** Just under the floor both are one number in print: then it is said once. */
  const underFloor = ({ bar, floorBar }: AlarmValues, u: DisplayUnits): string => {
    const floor = with_(' ', floorBar, u);
    const now = with_(' ', bar, u);
    return `La presión${now === floor ? '' : now} está bajo el mínimo${floor}`;
  };

  const range = (low: number | undefined, high: number | undefined, u: DisplayUnits): string => {
    if (low === undefined || high === undefined) return '';
    return ` (${f.pressureNumber(low, u)} a ${f.pressureNumber(high, u)})`;
  };

  const number = (label: string, bar: number | undefined, u: DisplayUnits): string => {
    return bar === undefined ? '' : `${label}${f.pressureNumber(bar, u)}`;
  };

  const seconds = (label: string, s: number | undefined, after = ''): string => {
    return s === undefined ? '' : `${label}${f.duration(s)}${after}`;
  };

  const rate = (label: string, mbarPerMin: number | undefined, u: DisplayUnits): string => {
    return mbarPerMin === undefined ? '' : `${label}${f.pressureRate(mbarPerMin, u)}`;
  };

  /** A time to danger, never longer than it is. */
  const soon = (v: AlarmValues): string => {
    if (v.inS === undefined) return '';
    const range =
      v.inLowS === undefined || v.inHighS === undefined
        ? ''
        : ` (${f.duration(roundedDown(v.inLowS))} a ${f.duration(v.inHighS)})`;
    return isNow(v.inS) ? ' en menos de un segundo' : ` en ${f.duration(roundedDown(v.inS))}${range}`;
  };

  const advice = (v: AlarmValues, u: DisplayUnits): string => {
    if (v.adviceHighBar === undefined) return 'abrir un poco la purga y sacar algo de aire';
    const floor =
      v.adviceLowBar === undefined
        ? '; el mínimo no se sabe'
        : f.pressureNumber(v.adviceLowBar, u) === f.pressureNumber(v.adviceHighBar, u)
          ? ', no más'
          : `, no bajar de ${f.pressureNumber(v.adviceLowBar, u)}`;
    return `abrir un poco la purga, purgar a ${f.pressure(v.adviceHighBar, u)}${floor}`;
  };

  const perSecond = (v: AlarmValues): string => {
    if (v.cause === 'late' && v.seconds !== undefined) return ` con ${f.fixed(v.seconds, 1)} s de retraso`;
    const { perSecond: now, perSecondBefore: before } = v;
    return now === undefined || before === undefined
      ? ' menos a menudo que antes'
      : ` ${f.fixed(now, now < 2 ? 1 : 0)} veces por segundo en vez de ${f.fixed(before, before < 2 ? 1 : 0)}`;
  };

  const rising: Texts = {
    now: (v, u) => {
      if (v.kind === 'settle' && v.settleBar !== undefined)
        return `La línea quedará en ${f.pressure(v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', techo ', v.ceilingBar, u)}: cerrar ya la llave de aire, después bajar el regulador`;
      const ceiling = `${with_(' ', v.ceilingBar, u)}${soon(v)}`;
      const act = 'cerrar ya la llave de aire; si aún sube, abrir la purga';
      if (v.kind === 'left-band')
        return `La presión${with_(' ', v.bar, u)} ha salido de la banda de trabajo y no frena, techo${ceiling}: ${act}`;
      if (v.kind === 'opened')
        return `La presión${with_(' ', v.bar, u)} sube deprisa y la llave de aire se dio por cerrada, techo${ceiling}: ${act}`;
      if (v.kind === 'hand-time') return `Techo${ceiling}, antes de que una mano reaccione: ${act}`;
      return `Techo${ceiling}: ${act}`;
    },
    was: (v, u) => {
      if (v.kind === 'settle' && v.settleBar !== undefined)
        return `la línea iba a quedar en ${f.pressure(v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', techo ', v.ceilingBar, u)}`;
      const when = seconds(', faltaban ', v.inS);
      const limit = `techo${with_(' ', v.ceilingBar, u)}`;
      if (v.kind === 'opened')
        return `la presión subía deprisa${with_(' a ', v.bar, u)} y la llave de aire se dio por cerrada, ${limit}${when}`;
      return v.kind === 'left-band'
        ? `la presión había salido de la banda de trabajo${with_(' a ', v.bar, u)} y no frenaba, ${limit}${when}`
        : `la presión subía${with_(', estaba a ', v.bar, u)}, ${limit}${when}`;
    },
  };

  const TEXT: Record<AlarmCode, Texts> = {
    'over-range': {
      now: (v, u) =>
        `Más de${with_(' ', v.spanBar, u)}${v.spanBar === undefined ? ' lo que lee el sensor' : ', donde acaba el sensor'}, nadie ve cuánto: ${ventIt(v)}`,
      was: (v, u) => `más allá del rango del sensor${with_(', ', v.spanBar, u)}`,
    },
    'over-rated': {
      now: (v, u) =>
        v.overBar !== undefined && v.overBar < SEEN_BAR
          ? `En la presión admisible${with_(' ', v.ratedBar, u)}: ${ventIt(v)}`
          : `${v.overBar === undefined ? 'Sobre' : `${f.pressure(v.overBar, u)} sobre`} la admisible${with_(', ', v.ratedBar, u)}: ${ventIt(v)}`,
      was: (v, u) =>
        `sobre la presión admisible${with_(' ', v.ratedBar, u)}${with_(', como máximo ', v.bar, u)}`,
    },
    'over-test': {
      now: (v, u) =>
        `Entre los obturadores hay más de lo que admite el ensayo${v.ceilingBar === undefined ? '' : `, ${f.testPressure(v.ceilingBar, u)}`}: cerrar la llave de aire y después abrir la purga, nadie cerca de los obturadores`,
      was: (v, u) =>
        `entre los obturadores, más de lo que admite el ensayo${v.ceilingBar === undefined ? '' : `, ${f.testPressure(v.ceilingBar, u)}`}${v.bar === undefined ? '' : `, como máximo ${f.testPressure(v.bar, u)}`}`,
    },
    ceiling: {
      now: (v, u) =>
        `La presión${with_(' ', v.bar, u)} está en el techo${with_(' ', v.ceilingBar, u)}: ${inHose(v) ? HOSE_ALONE : 'cerrar la llave de aire y después abrir la purga, mantenerse lejos'}`,
      was: (v, u) => `en el techo${with_(' ', v.ceilingBar, u)}${with_(', como máximo ', v.bar, u)}`,
    },
    rising,
    'supply-over': {
      now: (v, u) =>
        `${
          isUnderNow(v)
            ? `La salida del regulador${with_(', ahora ', v.secondBar, u)}, puede estar sobre el techo${with_(' ', v.ceilingBar, u)}`
            : `El suministro${with_(' ', v.secondBar, u)} a la salida del regulador está sobre el techo${with_(' ', v.ceilingBar, u)}`
        }: llave de aire cerrada, no acoplar nada, bajar el regulador`,
      was: (v, u) =>
        `la salida del regulador ${isUnderNow(v) ? 'pudo estar' : 'estaba'} sobre el techo${with_(' ', v.ceilingBar, u)}${with_('; estaba a ', v.secondBar, u)}`,
    },
    'supply-moved': {
      now: (v, u) =>
        v.secondBar !== undefined
          ? `El suministro${with_(' ', v.secondBar, u)} a la salida del regulador está por encima de donde estaba${with_(', ', v.lockUpBar, u)}: el regulador se ha movido. Cerrar la llave de aire, mantenerse lejos`
          : `La presión${with_(' ', v.bar, u)} está por encima del suministro probado${with_(', ', v.lockUpBar, u)}: el regulador se ha movido. Cerrar la llave de aire, mantenerse lejos`,
      was: (v, u) =>
        v.secondBar !== undefined
          ? `la salida del regulador estaba por encima de donde había estado${with_(', ', v.lockUpBar, u)}${with_('; estaba a ', v.secondBar, u)}`
          : `por encima del suministro probado${with_(', ', v.lockUpBar, u)}${with_('; estaba a ', v.bar, u)}`,
    },
    'pressure-lost': {
      now: (v) =>
        `Lectura de presión perdida${lossCause(v.cause, 'is')}: tratar el packer como lleno, cerrar la llave de aire, mantenerse lejos`,
      was: (v) => `lectura de presión perdida${lossCause(v.cause, 'was')}`,
    },
    'device-trip': {
      now: (v, u) =>
        `Saltó el límite propio del aparato${with_(' ', v.ceilingBar, u)}: cerrar la llave de aire, mantenerse lejos, mirar el manómetro; si también está alto, abrir la purga`,
      was: (v, u) => `el límite propio del aparato${with_(' ', v.ceilingBar, u)} había saltado`,
    },
    'fast-fall': {
      now: (v, u) =>
        `${v.cause === 'unseen' ? 'Se perdió presión sin que nadie lo viera' : 'La presión cae deprisa'}${with_(', ahora ', v.bar, u)}. Salvo que se esté desinflando: cerrar la llave de aire, alejarse, no dar aire. ¿Manguera suelta, o packer reventado?`,
      was: (v, u) =>
        v.cause === 'unseen'
          ? `se perdió presión sin que nadie lo viera${with_(', estaba a ', v.bar, u)}`
          : `la presión caía deprisa${with_(', estaba a ', v.bar, u)}`,
    },
    'below-floor': {
      now: (v, u) =>
        afterJump(v)
          ? `La presión${with_(' ', v.bar, u)} se lee bajo el mínimo${with_(' ', v.floorBar, u)}. ${GAUGE_FIRST}`
          : afterFall(v)
            ? `${underFloor(v, u)} tras una pérdida de presión. ${LOSS_FIRST}`
            : `${underFloor(v, u)}, la manga puede despegarse: reponer despacio en la llave de aire, nadie junto al packer`,
      was: (v, u) => `bajo el mínimo${with_(' ', v.floorBar, u)}${with_(', al menos ', v.bar, u)}`,
    },
    leaking: {
      now: (v, u) =>
        afterJump(v)
          ? `Según la lectura, el packer o la línea tiene una fuga${rate(' de ', v.mbarPerMin, u)}. ${GAUGE_FIRST}`
          : afterFall(v)
            ? `El packer o la línea tiene una fuga${rate(' de ', v.mbarPerMin, u)} tras una pérdida de presión. ${LOSS_FIRST}`
            : `El packer o la línea tiene una fuga${rate(' de ', v.mbarPerMin, u)}: mirar y oír la manguera por fuera, no tocar acoples bajo presión; reponer en la llave de aire antes del mínimo`,
      was: (v, u) => `el packer o la línea tenía una fuga${rate(' de ', v.mbarPerMin, u)}`,
    },
    'band-exit': {
      now: (v, u) =>
        afterJump(v)
          ? `Según la lectura, la presión bajará del mínimo${with_(' ', v.floorBar, u)}${soon(v)}. ${GAUGE_FIRST}`
          : afterFall(v)
            ? `La presión bajará del mínimo${with_(' ', v.floorBar, u)}${soon(v)}, tras una pérdida de presión. ${LOSS_FIRST}`
            : `La presión bajará del mínimo${with_(' ', v.floorBar, u)}${soon(v)}: reponer despacio en la llave de aire, nadie junto al packer`,
      was: (v, u) =>
        `la presión iba a bajar del mínimo${with_(' ', v.floorBar, u)}${seconds(', ', v.inS, ' después')}`,
    },
    lift: {
      now: (v, u) =>
        `El calor del curado subirá la presión${with_(' a ', v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', techo ', v.ceilingBar, u)}${soon(v)}: ${advice(v, u)}`,
      was: (v, u) =>
        `el calor del curado iba a subir la presión${with_(' a ', v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', techo ', v.ceilingBar, u)}${seconds(', ', v.inS, ' después')}`,
    },
    'device-unarmed': {
      now: () => 'Límite del aparato apagado. Revisar cable y aparato; quedarse donde se oiga este ordenador',
      was: () => 'el límite propio del aparato estaba apagado',
    },
    'device-deaf': {
      now: () =>
        'El aparato no atiende órdenes, su límite puede ser otro o ninguno. Revisar el cable, quedarse donde se oiga este ordenador',
      was: () => 'el aparato no atendía órdenes, no se le podía decir su límite',
    },
    'device-fault': { now: (v) => deviceFault(v.cause).now, was: (v) => deviceFault(v.cause).was },
    'device-reset': {
      now: () =>
        'El aparato se reinició, faltan algunas lecturas (hueco marcado): revisar su corriente y su cable',
      was: () => 'el aparato se reinició, faltan algunas lecturas (hueco marcado)',
    },
    'supply-low': {
      now: () =>
        'La tensión del sensor es baja o no se sabe, la lectura puede quedar corta: guiarse por el manómetro, revisar la corriente del aparato',
      was: () => 'la tensión del sensor era baja o no se sabía, la lectura pudo quedar corta',
    },
    'slow-readings': {
      now: (v) =>
        `Las lecturas llegan${perSecond(v)}, un inflado que se pasa se ve más tarde: cerrar algo la llave de aire, revisar cable y aparato`,
      was: (v) => `las lecturas llegaban${perSecond(v)}, un inflado se veía más tarde`,
    },
    stuck: {
      now: () =>
        'La lectura no se mueve, no guiarse por ella: cerrar la llave de aire, comparar con el manómetro',
      was: () => 'la lectura no se movía',
    },
    'reading-jump': {
      now: (v, u) =>
        isOver(v)
          ? `La lectura saltó${with_(' ', v.jumpBar, u)}, cosa que el aire no hace, y el packer puede estar sobre su techo, se muestre lo que se muestre: cerrar la llave de aire y después abrir la purga, lejos`
          : `La lectura saltó${with_(' ', v.jumpBar, u)}, cosa que el aire no hace, no guiarse por ella: cerrar la llave de aire, comparar con el manómetro`,
      was: (v, u) => `la lectura había saltado${with_(' ', v.jumpBar, u)}, cosa que el aire no hace`,
    },
    'line-contradicted': {
      now: () =>
        'Las lecturas no encajan con la línea o la toma declarada: mirar la llave de aire, corregir la hoja de trabajo. Hasta entonces no se juzgan retención ni fugas',
      was: () => 'las lecturas no encajaban con la línea o la toma declarada',
    },
    'gauge-differs': {
      now: (v, u) =>
        isOver(v)
          ? `Según el manómetro${with_(', ', v.gaugeBar, u)}, con el sensor en${with_(' ', v.bar, u)}, el packer está sobre su techo, se muestre lo que se muestre: cerrar la llave de aire y después abrir la purga, lejos`
          : `Manómetro${with_(' ', v.gaugeBar, u)} y sensor${with_(' ', v.bar, u)} difieren más que su incertidumbre: creer la lectura más alta, averiguar cuál falla antes de seguir`,
      was: (v, u) =>
        `manómetro${with_(' ', v.gaugeBar, u)} y sensor${with_(' ', v.bar, u)} diferían más que su incertidumbre`,
    },
    'sensors-differ': {
      now: (v, u) => {
        const two = `Packer${with_(' ', v.bar, u)}, segundo sensor${with_(' ', v.secondBar, u)}`;
        if (areSwapped(v))
          return `${two}: el del packer se llenó primero. ¿Cambiados, el segundo fuera de la línea, o un packer lleno? No abrir llaves, corregir cables u hoja de trabajo`;
        return v.cause === 'against-flow'
          ? `${two}: el aire no va de baja a alta, uno de los dos falla. Creer la lectura más alta, comparar con el manómetro`
          : `${two}: difieren más que su incertidumbre. Creer la lectura más alta, comparar con el manómetro`;
      },
      was: (v, u) => {
        const two = `packer${with_(' ', v.bar, u)}, segundo sensor${with_(' ', v.secondBar, u)}`;
        if (areSwapped(v)) return `los dos sensores de presión parecían cambiados: ${two}`;
        return v.cause === 'against-flow'
          ? `el aire parecía ir de baja a alta: ${two}`
          : `los dos sensores de presión diferían más que su incertidumbre: ${two}`;
      },
    },
    'second-lost': {
      now: (v) =>
        v.cause === 'check-pressure'
          ? 'El segundo sensor, en el packer, no da lectura o está clavado: la vigilancia sigue solo con el otro, revisar su cable'
          : 'El sensor a la salida del regulador no da lectura o está clavado: la vigilancia sigue solo con el otro, revisar su cable',
      was: (v) =>
        v.cause === 'check-pressure'
          ? 'el segundo sensor, en el packer, no daba lectura o estaba clavado: la vigilancia siguió solo con el otro'
          : 'el sensor a la salida del regulador no daba lectura o estaba clavado: la vigilancia siguió solo con el otro',
    },
    rebound: {
      now: (v, u) =>
        unannounced(v)
          ? `Entra aire${with_(', ahora ', v.bar, u)}, y no se anunció ningún inflado: cerrar la llave de aire, abrir la purga, mantenerse lejos`
          : leftFull(v)
            ? `Aún bajo presión${with_(', ahora ', v.bar, u)}, y el trabajo se dio por acabado: no tirar ni desacoplar, cerrar la llave de aire, abrir la purga, lejos`
            : `La presión ha vuelto${with_(' a ', v.bar, u)}, el packer no está vacío: no tirar ni desacoplar, cerrar la llave de aire, abrir la purga, esperar más`,
      was: (v, u) =>
        unannounced(v)
          ? `entró aire que ninguna fase había anunciado${with_(', hasta ', v.bar, u)}`
          : leftFull(v)
            ? `el packer estaba bajo presión${with_(', a ', v.bar, u)}, y el trabajo se dio por acabado`
            : `la presión volvió después de haber purgado${with_(', hasta ', v.bar, u)}`,
    },
    ...cureAlarms(f),
    'store-fault': {
      now: (v) =>
        `La vigilancia sigue, pero el registro no se puede escribir${storeCause(v.cause)}: anotar a mano presión y hora, hacer sitio en este ordenador`,
      was: (v) => `el registro no se podía escribir${storeCause(v.cause)}`,
    },
    'clock-jump': {
      now: (v) =>
        `El ordenador se durmió${seconds(' ', v.seconds)}, entretanto no se vigiló nada: tenerlo despierto y enchufado`,
      was: (v) => `el ordenador se durmió${seconds(' ', v.seconds)}, entretanto no se vigiló nada`,
    },
    garbage: {
      now: () =>
        'Llegan bytes que no son lecturas: revisar cable y tierra, buscar un motor o un generador al lado',
      was: () => 'llegaban bytes que no eran lecturas',
    },
  };

  return {
    NO_WARNING,

    /**
     * What is so and what to do, one sentence.
     * @param values as the event carries them (bar, s, °C, mbar/min); any may be missing.
     */
    alarmText: (code: AlarmCode, values: AlarmValues, units: DisplayUnits = METRIC): string =>
      TEXT[code].now(values, units),

    /** What was so, behind a word and a colon: the numbers are those of its moment, and it orders nothing. */
    alarmWas: (code: AlarmCode, values: AlarmValues, units: DisplayUnits = METRIC): string =>
      TEXT[code].was(values, units),

    /** The sentence of an alarm as it stands: one that is over is told as what was. */
    alarmSentence: (
      { alarm, state, values }: Pick<AlarmView, 'alarm' | 'state' | 'values'>,
      units: DisplayUnits = METRIC,
    ): string =>
      state === 'returned' ? `Antes: ${TEXT[alarm].was(values, units)}` : TEXT[alarm].now(values, units),
  };
}
