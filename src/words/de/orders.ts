import type { Format } from '../create-format.ts';
import { type OrderWords, ordersOf } from '../said/orders.ts';
import type { alarms } from './alarms.ts';

/**
 * Each tap by its own name, and no line that reads as its opposite where the eye takes in one line of the two, or both
 * across. 'Entlüften' beside 'Luft zu' has the same letters and the other sense, so the tap is named: 'Ablass auf'.
 * 'Bleiben' and 'halten' stand on no line of their own: one is 'stay', the other a stage. No order sends a person
 * towards a packer that may be full.
 */
const WORDS: OrderWords = {
  VERB: {
    'air-off': { lines: ['LUFT ZU', 'SOFORT'], spoken: 'Luft zu, sofort.' },
    'air-off-vent': { lines: ['LUFT ZU', 'ABLASS AUF'], spoken: 'Luft zu. Dann Ablass auf.' },
    'air-off-clear': { lines: ['LUFT ZU', 'ABSTAND'], spoken: 'Luft zu. Abstand.' },
    'keep-clear': { lines: ['ABSTAND'], spoken: 'Abstand halten.' },
    'keep-clear-asking': { lines: ['ABSTAND'], spoken: 'Abstand halten. Wird entlüftet?' },
    'find-loss': { lines: ['VERLUST', 'SUCHEN'], spoken: 'Erst den Verlust suchen. Abstand halten.' },
    'find-leak': { lines: ['LECK', 'SUCHEN'], spoken: 'Leck suchen.' },
    'top-up': { lines: ['LANGSAM', 'NACHFÜLLEN'], spoken: 'Langsam nachfüllen.' },
    'check-gauge': { lines: ['MANOMETER', 'PRÜFEN'], spoken: 'Manometer prüfen.' },
    'check-device': { lines: ['GERÄT', 'PRÜFEN'], spoken: 'Gerät prüfen.' },
    'check-cable': { lines: ['KABEL', 'PRÜFEN'], spoken: 'Kabel prüfen.' },
    'check-cables': { lines: ['KABEL', 'PRÜFEN'], spoken: 'Kabel der Sensoren prüfen.' },
    'check-probe': { lines: ['FÜHLER', 'PRÜFEN'], spoken: 'Fühler prüfen.' },
    'check-power': { lines: ['STROM', 'PRÜFEN'], spoken: 'Stromversorgung prüfen.' },
    'check-valve': { lines: ['HAHN', 'PRÜFEN'], spoken: 'Zulufthahn prüfen.' },
    'feel-sample': { lines: ['PROBE', 'FÜHLEN'], spoken: 'Rückstellprobe fühlen.' },
    'let-out-a-little': { lines: ['ETWAS', 'ABLASSEN'], spoken: 'Etwas Luft ablassen.' },
    'go-by-gauge': { lines: ['MANOMETER', 'GILT'], spoken: 'Das Manometer gilt.' },
    'slow-down': { lines: ['LANGSAMER'], spoken: 'Langsamer.' },
    'seat-or-take-out': { lines: ['ANLEGEN', 'ODER RAUS'], spoken: 'Kurzliner anlegen oder herausnehmen.' },
    'seat-or-let-down': { lines: ['ANLEGEN /', 'ENTLÜFTEN'], spoken: 'Kurzliner anlegen oder entlüften.' },
    'vent-again': { lines: ['NOCHMAL', 'ENTLÜFTEN'], spoken: 'Nochmal entlüften. Packer ist nicht leer.' },
    'lower-regulator': { lines: ['REGLER', 'RUNTER'], spoken: 'Druckregler herunterdrehen.' },
    'wait-or-warm': { lines: ['WARTEN /', 'WÄRMEN'], spoken: 'Warten oder das Rohr wärmen.' },
    'write-down': { lines: ['DRUCK', 'NOTIEREN'], spoken: 'Druck aufschreiben.' },
    'keep-screen-on': { lines: ['COMPUTER', 'AN LASSEN'], spoken: 'Computer an lassen.' },
  },
  letOutTo: (pressure) => ({ lines: ['ABLASSEN', `BIS ${pressure}`], spoken: `Ablassen bis ${pressure}.` }),
  EVERYONE_CLEAR: { text: 'ALLE AUF ABSTAND', spoken: 'Alle auf Abstand.' },
  FIGURE: {
    'at-least': 'Mindestens',
    rated: 'Höchstdruck',
    'over-rated-by': 'Darüber um',
    ceiling: 'Obergrenze',
    'if-left-open': 'Bleibt es auf',
    'supply-now': 'Zuluft jetzt',
    supply: 'Zuluft',
    'may-stand-over': 'Vielleicht über',
    'it-stood-at': 'Sie stand bei',
    'supply-proved-at': 'Zuluft im Test',
    'last-reading': 'Letzter Messwert',
    'no-reading-for': 'Ohne Messwert',
    'limit-in-device': 'Grenze im Gerät',
    'limit-here': 'Grenze hier',
    'reading-here': 'Messwert hier',
    now: 'Jetzt',
    'hold-floor': 'Mindestdruck',
    'hold-floor-in': 'Mindestdruck in',
    leak: 'Leck',
    'leave-at-least': 'Mindestens lassen',
    sensor: 'Sensor',
    'readings-a-second': 'Messwerte je s',
    'jumped-by': 'Sprung um',
    'dial-gauge': 'Manometer',
    packer: 'Packer',
    second: 'Zweiter',
    'came-back-to': 'Wieder auf',
    'zero-is-up-to': 'Null gilt bis',
    coldest: 'Am kältesten',
    'pot-life-left': 'Topfzeit noch',
    'usual-time': 'Übliche Zeit',
    pressure: 'Druck',
    'asleep-for': 'Geschlafen',
    'test-allows': 'Prüfung erlaubt',
  },
  NOW: 'jetzt',
};

export function orders(f: Format, { alarmSentence }: ReturnType<typeof alarms>) {
  return {
    /** What an alarm says from three metres, by its code, its own view and the stage. */
    VERBS: ordersOf(f, WORDS, alarmSentence),
  };
}
