import type { MapKind } from '../../job/reading-map.ts';
import type { Lack } from '../../link/maps/lacks.ts';
import type { DoubtCode } from '../../link/maps/translate.ts';

/** What is said all along of a source that does not speak the device protocol. */

export const SOURCE: Record<MapKind, { readonly title: string; readonly way: string }> = {
  registers: {
    title: 'Von einem Bus gelesen: keine eigene Uhr, kein eigener Wächter, kein eigener Taster',
    way: 'Ein Gerät mit dem Protokoll dieses Programms hat das alles.',
  },
  columns: {
    title: 'Ungeprüfte Leitung: keine Prüfsumme, keine Uhr, kein Wächter, kein Taster',
    way: 'Besser ist eine Firmware mit dem Protokoll dieses Programms: sie hat das alles.',
  },
};

export const LACK: Record<Lack, string> = {
  check:
    'Keine Prüfsumme: eine gestörte Zeile ist von einer guten nicht zu unterscheiden, eine falsche Zahl sieht vielleicht richtig aus.',
  clock: 'Keine eigene Uhr: Messwerte tragen die Zeit, zu der sie an diesem Computer ankamen.',
  guard: 'Kein eigener Wächter: fällt dieser Computer oder sein Kabel aus, ertönt dort nichts.',
  button: 'Kein Taster: Alarme werden hier quittiert.',
};

export const reachedRate = (hz: string): string =>
  `${hz} Messwerte je Sekunde sind verlangt; Schweigen erkennt man daran, wie oft sie wirklich kommen.`;

/** Exception codes: Modbus Application Protocol V1.1b3, 7. */
const EXCEPTION: Readonly<Record<number, string>> = {
  1: 'sie kennt diese Funktion nicht',
  2: 'sie hat solche Register nicht; gezählt wird ab 0',
  3: 'sie nimmt diese Zahl von Registern nicht',
  4: 'sie hat versagt',
  5: 'sie braucht länger',
  6: 'sie ist beschäftigt',
  8: 'ihr Speicher hat versagt',
  10: 'das Gateway hat keinen Weg zu ihr',
  11: 'sie antwortet ihrem Gateway nicht',
};

const DOUBT: Record<DoubtCode, (value: number | null) => string> = {
  exception: (code) =>
    `die Einheit lehnt ab: ${EXCEPTION[code ?? 0] ?? 'aus einem eigenen Grund'} (Ausnahmecode ${code ?? 'unbekannt'}).`,
  status: () => 'ihr Statusregister sagt, dass der Wert nicht gilt.',
  'no-number': () =>
    'dort steht keine Zahl eines Messgeräts. In der Karte eine andere Bytefolge oder einen anderen Typ versuchen.',
  outside: (value) =>
    `${value ?? 'das Gesendete'} liegt weit außerhalb des Messbereichs: andere Einheit, Bytefolge oder Skala in der Karte?`,
  missing: () => 'die Zeile hat dort keine Zahl. Ihre Spalten oder Namen sind nicht die der Karte.',
};

/** @param row of the map, counted from 1 */
export const doubtText = (row: number, code: DoubtCode, value: number | null): string =>
  `Zeile ${row} der Karte: ${DOUBT[code](value)}`;
