import type { Setup } from '../../job/setup.ts';
import { DEVICE_FAULTS } from '../../link/frames.ts';
import type { GapReason } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { type Format, METRIC } from '../create-format.ts';
import { hasCase } from '../said/alarm-cases.ts';
import type { airTest } from './air-test.ts';
import { ALARM_STATE, ALARM_TITLE, alarmTitle, PRIORITY } from './alarm-titles.ts';
import type { alarms } from './alarms.ts';
import { itemName } from './checks.ts';
import type { cup } from './cup.ts';
import { deviceFault } from './device-faults.ts';
import type { hold } from './hold.ts';
import { STORE_CAUSE } from './link.ts';
import { overrideText } from './overrides.ts';
import type { supply } from './supply.ts';
import { PLACE, STAGE } from './terms.ts';
import { ZERO } from './zero.ts';

const GAP: Record<GapReason, string> = {
  silence: 'El aparato callaba',
  port: 'Se fue el cable o el puerto',
  reset: 'El aparato se reinició',
  dropped: 'El cable era demasiado lento, se perdieron lecturas',
  clock: 'El ordenador se durmió',
  resumed: 'La sesión se interrumpió y se reanudó',
  garbage: 'Ruido en lugar de lecturas',
  'out-of-order': 'Las lecturas llegaron en otro orden que el de toma; las tardías no se usan',
  'device-clock': 'El reloj del aparato dio un salto',
};

const CURE_START: Record<Extract<WatchEvent, { e: 'cure-start' }>['from'], string> = {
  seat: 'El tiempo de curado cuenta desde aquí (asentada)',
  inflate: 'El tiempo de curado cuenta desde aquí (inflado)',
  hold: 'El tiempo de curado cuenta desde aquí (retención)',
};

const SAMPLE: Record<Extract<WatchEvent, { e: 'sample' }>['doubt'], (age: string) => string> = {
  'hard-early': (age) =>
    `Muestra dura al ${age} % del tiempo de la ficha técnica: ¿estuvo más caliente que el tubo, o es de otra resina?`,
  'soft-late': (age) =>
    `Muestra no dura al ${age} % del tiempo de la ficha técnica: ¿un lote lento, o una muestra guardada más fría? La cuenta la espera`,
};

const SEGMENT_WHY: Record<Extract<WatchEvent, { e: 'segment' }>['why'], string> = {
  still: 'quieta',
  'top-up': 'repuesta',
  flow: 'pasa aire',
  gap: 'hueco en las lecturas',
  stage: 'cambió la fase',
  end: 'fin de la sesión',
};

const REBOUND: Record<Extract<WatchEvent, { e: 'rebound' }>['what'], string> = {
  started: 'Purga cerrada, se espera por si vuelve la presión',
  stayed: 'Se quedó en cero con la purga cerrada. Un doblez o una válvula antirretorno puede esconder aire',
  'came-back': 'La presión volvió con la purga cerrada: el packer no está vacío',
  'broken-off': 'Prueba de rebote interrumpida',
};

const DEVICE: Record<Extract<WatchEvent, { e: 'device' }>['what'], string> = {
  greeted: 'Aparato conectado',
  reset: 'El aparato se reinició',
  other: 'Respondió otro aparato',
  rescaled: 'El aparato volvió con otra escala',
  taken: 'Se tomó el otro aparato para la sesión; su cero aún no está tomado',
  button: 'Se pulsó el botón del aparato',
  trip: 'Saltó el límite propio del aparato',
  return: 'El límite propio del aparato volvió a su sitio',
  fault: 'El aparato avisa de un fallo',
  hostlost: 'El aparato no oye nada de este ordenador',
  hostback: 'El aparato vuelve a oír a este ordenador',
};

function zeroTaken(
  offset: string,
  second: Extract<WatchEvent, { e: 'zero' }>['second'],
  pressure: (bar: number) => string,
): string {
  if (second === undefined) return `Cero tomado, desviación ${offset}`;
  const { reason } = second;
  switch (reason) {
    case 'ok':
      return `Cero tomado de ambos sensores, desviaciones ${offset} y ${pressure(second.offsetBar)}`;
    case 'too-far':
      return `Cero tomado, desviación ${offset}; no del segundo sensor, que leía ${pressure(second.offsetBar)}`;
    case 'noisy':
      return `Cero tomado, desviación ${offset}; no del segundo sensor, que no estaba quieto`;
    case 'no-reading':
      return `Cero tomado, desviación ${offset}; no del segundo sensor, que no dio lectura`;
    default:
      return reason satisfies never;
  }
}

/** @param time how long nothing had come */
const BESIDE: Record<Extract<WatchEvent, { e: 'beside' }>['what'], (time: string) => string> = {
  greeted: () => 'Segundo adaptador conectado: sus temperaturas se leen junto a la presión',
  other: () => 'Respondió otro segundo adaptador que el de la hoja de trabajo; no se lee',
  rescaled: () => 'El segundo adaptador volvió con otra escala; no se lee',
  port: () => 'Segundo adaptador perdido: sus temperaturas se quedan como estaban, la presión sigue',
  closed: () => 'Segundo adaptador desconectado: sus temperaturas se quedan como estaban, la presión sigue',
  silent: (time) =>
    `Nada del segundo adaptador durante ${time}: sus temperaturas se quedan como estaban, la presión sigue`,
  back: (time) => `El segundo adaptador volvió, tras ${time}`,
};

function checkLine({ item, said, how, text, by }: Extract<WatchEvent, { e: 'check' }>): string {
  const who = by === '' ? '' : ` (${by})`;
  const name = itemName(item, said);
  switch (how) {
    case 'done':
      return text === '' ? `Revisado: ${name}${who}` : `Revisado: ${name}: ${text}${who}`;
    case 'passed':
      return `Se siguió sin esto: ${name}. Motivo: ${text}${who}`;
    case 'taken-back':
      return `Respuesta retirada: ${name}${who}`;
    default:
      return how satisfies never;
  }
}

function storeFault(code: string): string {
  const known = hasCase(STORE_CAUSE, code) ? STORE_CAUSE[code] : code;
  return `Fallo al grabar (${known})`;
}

function agreement(agrees: boolean | null): string {
  if (agrees === null) return 'no se pueden comparar';
  return agrees ? 'coinciden dentro de su incertidumbre' : 'difieren más que su incertidumbre';
}

export function events(
  f: Format,
  { alarmWas }: Pick<ReturnType<typeof alarms>, 'alarmWas'>,
  { leakText }: Pick<ReturnType<typeof hold>, 'leakText'>,
  { supplyEvent }: Pick<ReturnType<typeof supply>, 'supplyEvent'>,
  { airTestEvent }: Pick<ReturnType<typeof airTest>, 'airTestEvent'>,
  { cupMark, cupText }: Pick<ReturnType<typeof cup>, 'cupMark' | 'cupText'>,
) {
  return {
    GAP,

    eventText(event: WatchEvent, units = METRIC): string {
      switch (event.e) {
        case 'stage':
          return `${STAGE[event.stage]}${event.attempt > 1 ? `, intento ${event.attempt}` : ''}${event.by === 'data' ? ' (visto en los datos)' : ''}`;
        case 'alarm':
          if (event.to === 'unacknowledged')
            return `${PRIORITY[event.priority]}: ${alarmWas(event.alarm, event.values, units)}`;
          return `${alarmTitle(event)}: ${ALARM_STATE[event.to]}`;
        case 'acknowledge-refused':
          return `${ALARM_TITLE[event.alarm]}: una pulsación para una alarma anterior llegó tarde y no reconoció nada`;
        case 'cue':
          return `Aviso: cerrar la llave en ${f.duration(event.closeInS)}`;
        case 'too-fast':
          return `Demasiado rápido: a ${f.pressureSlope(event.rateBarPerS, units)} una mano llega tarde por ${f.pressure(event.lateBar, units)}, hasta ${f.pressureSlope(event.mostBarPerS, units)} llega a tiempo`;
        case 'gap':
          return `Hueco de ${f.duration((event.toUs - event.fromUs) / 1e6)}: ${GAP[event.reason]}`;
        case 'limits':
          return event.ceilingBar === null
            ? 'Sin límite: no se avisa de sobrepresión'
            : `Límites: techo ${f.pressure(event.ceilingBar, units)}, trabajo ${f.pressure(event.workingBar, units)}, mínimo ${event.floorBar === null ? 'no se sabe' : f.pressure(event.floorBar, units)}`;
        case 'setup-refused':
          return event.reason === 'ceiling-raised'
            ? 'Cambio de la hoja de trabajo rechazado: durante una sesión el techo se puede bajar, nunca subir'
            : 'Cambio de la hoja de trabajo rechazado: no es más nueva';
        case 'zero':
          return event.taken
            ? zeroTaken(f.pressure(event.offsetBar, units, 1), event.second, (bar) =>
                f.pressure(bar, units, 1),
              )
            : ZERO[event.reason];
        case 'gauge':
          return `Manómetro ${f.pressure(event.gaugeBar, units)}, sensor ${f.pressure(event.readingBar, units)}: ${agreement(event.agrees)}`;
        case 'warm-check':
          return `Sonda ${PLACE[event.place]} ${f.temperature(event.readingC, units)}, termómetro ${f.temperature(event.thermometerC, units)}: ${agreement(event.agrees)}`;
        case 'segment':
          return `La línea cerrada ${event.what === 'opened' ? 'empieza' : 'acaba'} (${SEGMENT_WHY[event.why]})`;
        case 'leak':
          return leakText(event.leak, units);
        case 'hold':
          return `Retención: ${f.fixed(event.minutesInBand, 1)} min en la banda de retención, ${f.pressure(event.minBar, units)} a ${f.pressure(event.maxBar, units)}. ${leakText(event.leak, units)}`;
        case 'knee':
          return `El packer toca la pared a ${f.pressure(event.freeInflationBar, units)} (${f.pressureNumber(event.low, units)} a ${f.pressureNumber(event.high, units)})`;
        case 'lift':
          return `El calor del curado subirá la presión a ${f.pressure(event.peakBar.value, units)} (${f.pressureNumber(event.peakBar.low, units)} a ${f.pressureNumber(event.peakBar.high, units)})`;
        case 'cure-start':
          return event.before === undefined
            ? CURE_START[event.from]
            : `${CURE_START[event.from]}, con ${f.fixed(event.before.minutes, 1)} min desde la mezcla a ${f.temperature(event.before.coldestC, units)} o más`;
        case 'cure-met':
          return 'Tiempo de curado de la ficha técnica alcanzado en el punto probable más frío (cuenta prudente)';
        case 'question':
          if (event.answer === null) return 'Pregunta: ¿se desinfla o se pierde?';
          if (event.answer === 'held')
            return 'Pregunta retirada: la caída acabó y la presión se ha mantenido';
          return event.answer === 'let-down' ? 'Respuesta: desinflando' : 'Respuesta: pérdida de presión';
        case 'rebound':
          return REBOUND[event.what];
        case 'supply':
          return supplyEvent(event, units);
        case 'air-test':
          return airTestEvent(event, units);
        case 'outlet-stood':
          return `La salida del regulador está a ${f.pressure(event.bar, units)}`;
        case 'cup':
          return event.heatAge === null
            ? cupText(event)
            : `${cupText(event)}. ${cupMark(event.heatAge, f.quantity('temperatureDifference', event.riseK, units))}`;
        case 'mixed':
          return 'Resina mezclada';
        case 'witness':
          return `Muestra testigo ${event.hard ? 'dura' : 'no dura'}, ${event.atPipeTemperature ? 'guardada a la temperatura del tubo' : 'no guardada a la temperatura del tubo'}`;
        case 'sample':
          return SAMPLE[event.doubt](f.fixed(event.age * 100, 0));
        case 'override':
          return `Se siguió contra el consejo (${overrideText(event.what)}): ${event.reason}`;
        case 'check':
          return checkLine(event);
        case 'operator':
          return event.by === '' ? 'Al ordenador: nadie indicado' : `Al ordenador: ${event.by}`;
        case 'note':
          return event.text;
        case 'device':
          return event.what === 'fault'
            ? `${DEVICE.fault}: ${deviceFault(DEVICE_FAULTS[(event.value ?? 0) - 1]).was}`
            : DEVICE[event.what];
        case 'beside':
          return BESIDE[event.what](f.duration(event.seconds ?? 0));
        case 'store':
          return event.ok ? 'Se vuelve a grabar' : storeFault(event.code);
        case 'end':
          return 'Fin de la sesión';
      }
    },

    limitsText(setup: Setup | null, units = METRIC): string {
      const limits = setup?.limits ?? null;
      if (limits === null) return 'Sin límite: no se avisa de sobrepresión';
      return `Admisible ${f.pressure(limits.ratedBar, units)}, techo ${f.pressure(limits.ceilingBar, units)}, trabajo ${f.pressure(limits.workingBar, units)}`;
    },
  };
}
