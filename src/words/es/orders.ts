import type { Format } from '../create-format.ts';
import { type OrderWords, ordersOf } from '../said/orders.ts';
import type { alarms } from './alarms.ts';

/**
 * 'Cortar' is for air that comes in, 'purgar' for air that goes out: no word is said of both taps. Two verbs with their
 * things ('cerrar aire', 'abrir purga') would read as their opposite where the eye crosses the lines, so the second is
 * one word alone.
 */
const WORDS: OrderWords = {
  VERB: {
    'air-off': { lines: ['CORTAR YA', 'EL AIRE'], spoken: 'Cortar el aire, ya.' },
    'air-off-vent': { lines: ['CORTAR AIRE', 'PURGAR'], spoken: 'Cortar el aire. Luego, purgar.' },
    'air-off-clear': { lines: ['CORTAR AIRE', 'ALEJARSE'], spoken: 'Cortar el aire. Alejarse.' },
    'keep-clear': { lines: ['LEJOS DEL', 'TUBO'], spoken: 'Mantenerse lejos del tubo.' },
    'keep-clear-asking': {
      lines: ['LEJOS DEL', 'TUBO'],
      spoken: 'Lejos del tubo. ¿Se está desinflando?',
    },
    'find-loss': { lines: ['BUSCAR LA', 'PÉRDIDA'], spoken: 'Buscar primero la pérdida. Lejos.' },
    'find-leak': { lines: ['BUSCAR', 'LA FUGA'], spoken: 'Buscar la fuga.' },
    'top-up': { lines: ['REPONER', 'DESPACIO'], spoken: 'Reponer aire despacio.' },
    'check-gauge': { lines: ['MIRAR EL', 'MANÓMETRO'], spoken: 'Mirar el manómetro.' },
    'check-device': { lines: ['REVISAR', 'APARATO'], spoken: 'Revisar el aparato.' },
    'check-cable': { lines: ['REVISAR', 'EL CABLE'], spoken: 'Revisar el cable.' },
    'check-cables': { lines: ['REVISAR', 'CABLES'], spoken: 'Revisar los cables de los sensores.' },
    'check-probe': { lines: ['REVISAR', 'LA SONDA'], spoken: 'Revisar la sonda.' },
    'check-power': { lines: ['REVISAR', 'CORRIENTE'], spoken: 'Revisar la corriente.' },
    'check-valve': { lines: ['MIRAR LA', 'LLAVE'], spoken: 'Mirar la llave de aire.' },
    'feel-sample': { lines: ['TOCAR LA', 'MUESTRA'], spoken: 'Tocar la muestra testigo.' },
    'let-out-a-little': { lines: ['PURGAR', 'UN POCO'], spoken: 'Purgar un poco de aire.' },
    'go-by-gauge': { lines: ['USAR SOLO', 'MANÓMETRO'], spoken: 'Guiarse por el manómetro.' },
    'slow-down': { lines: ['MÁS', 'DESPACIO'], spoken: 'Más despacio.' },
    'seat-or-take-out': { lines: ['ASENTAR O', 'RETIRAR'], spoken: 'Asentar la manga, o retirarla.' },
    'seat-or-let-down': { lines: ['ASENTAR O', 'DESINFLAR'], spoken: 'Asentar la manga, o desinflar.' },
    'vent-again': { lines: ['PURGAR', 'OTRA VEZ'], spoken: 'Purgar otra vez. El packer no está vacío.' },
    'lower-regulator': { lines: ['BAJAR', 'REGULADOR'], spoken: 'Bajar el regulador.' },
    'wait-or-warm': { lines: ['ESPERAR O', 'CALENTAR'], spoken: 'Esperar, o calentar el tubo.' },
    'write-down': { lines: ['ANOTAR LA', 'PRESIÓN'], spoken: 'Anotar la presión.' },
    'keep-screen-on': { lines: ['PANTALLA', 'ENCENDIDA'], spoken: 'Mantener la pantalla encendida.' },
  },
  letOutTo: (pressure) => ({ lines: ['PURGAR', `A ${pressure}`], spoken: `Purgar hasta ${pressure}.` }),
  EVERYONE_CLEAR: { text: 'TODOS LEJOS', spoken: 'Todos lejos.' },
  FIGURE: {
    'at-least': 'Al menos',
    rated: 'Admisible',
    'over-rated-by': 'De más',
    ceiling: 'Techo',
    'if-left-open': 'Si queda abierta',
    'supply-now': 'Suministro ahora',
    supply: 'Suministro',
    'may-stand-over': 'Puede pasar de',
    'it-stood-at': 'Estaba a',
    'supply-proved-at': 'Probado a',
    'last-reading': 'Última lectura',
    'no-reading-for': 'Sin lectura',
    'limit-in-device': 'Límite en aparato',
    'limit-here': 'Límite aquí',
    'reading-here': 'Lectura aquí',
    now: 'Ahora',
    'hold-floor': 'Mínimo',
    'hold-floor-in': 'Al mínimo en',
    leak: 'Fuga',
    'leave-at-least': 'Dejar al menos',
    sensor: 'Sensor',
    'readings-a-second': 'Lecturas/segundo',
    'jumped-by': 'Saltó',
    'dial-gauge': 'Manómetro',
    packer: 'Packer',
    second: 'Segundo',
    'came-back-to': 'Volvió a',
    'zero-is-up-to': 'Es cero hasta',
    coldest: 'Lo más frío',
    'pot-life-left': 'Vida de mezcla',
    'usual-time': 'Lo habitual',
    pressure: 'Presión',
    'asleep-for': 'Dormido',
    'test-allows': 'El ensayo admite',
  },
  NOW: 'ya',
};

export function orders(f: Format, { alarmSentence }: ReturnType<typeof alarms>) {
  return {
    /** What an alarm says from three metres, by its code, its own view and the stage. */
    VERBS: ordersOf(f, WORDS, alarmSentence),
  };
}
