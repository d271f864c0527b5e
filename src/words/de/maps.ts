import type {
  Parity,
  ReadFunction,
  ReadingUnit,
  RegisterType,
  SuggestedPlace,
  WordOrder,
} from '../../job/codes.ts';

/** Words of the reading maps: registers of a bus, columns of a plain line. */
export const MAPS = {
  registersOne: 'Registerkarte',
  columnsOne: 'Spaltenkarte',
  noPressure:
    'Keine Zeile ist ein Druck: diese Karte gehört zu einem zweiten Adapter. Sie wird für Temperaturen gelesen, neben einem Gerät mit dem Druck.',
  registersText:
    'Für Messumformer und Module mit Modbus RTU an einem USB-Adapter für RS-485. Jede Zeile ist ein Wert; das Datenblatt nennt Adresse, Funktion, Register, Typ und Bytefolge.',
  columnsText:
    'Für eine Platine, die Textzeilen ausgibt. Jede Zeile ist ein Wert: nach seinem Namen in Name=Wert, oder nach seiner Spalte. Eine Zeile hat keine Prüfsumme, eine falsche Zahl sieht vielleicht richtig aus.',
  source: 'Quelle',
  bus: 'Bus',
  line: 'Leitung',
  rows: 'Werte',
  row: (n: number) => `Wert ${n}`,
  add: 'Wert hinzufügen',
  remove: (n: number) => `Wert ${n} entfernen`,
  status: 'Ein Statusregister sagt, ob er gilt',
  test: 'Probelesen',
  testText:
    'Liest einmal nach dem, was hier steht, gespeichert oder nicht. Was verbunden ist, wird dafür getrennt; während eines Laufs wird es abgelehnt.',
  testNow: 'Jetzt lesen',
  testing: 'Liest …',
  testWrong: 'Erst die markierten Felder berichtigen.',
  value: (row: number, value: string) => `Wert ${row}: ${value}`,
  noValue: (row: number) => `Wert ${row}: nichts`,
  fits: 'im Messbereich',
  orderValue: (order: string, value: string) => `${order}: ${value}`,
  orderNone: (order: string) => `${order}: keine Zahl`,
  useOrder: 'Diese Folge nehmen',
  cells: (n: number) =>
    n === 1 ? 'Die neueste Zeile hat eine Spalte.' : `Die neueste Zeile hat ${n} Spalten.`,
  takeCells: (n: number) => `Zeilen haben ${n} Spalten`,
  useCell: (row: number) => `Für Wert ${row} nehmen`,
  pace: (asked: string, most: string) =>
    `${asked} Messwerte je Sekunde sind verlangt; der Bus trägt höchstens ${most}.`,
  paceShort:
    'Das ist mehr, als der Bus trägt: es kommt so oft, wie es geht. Eine höhere Geschwindigkeit hilft.',
  saveFile: 'Als Datei speichern',
  openFile: 'Datei öffnen',
  fileRefused: (why: string) => `Die Datei ist keine Karte dieser Art: ${why}`,
  fileTooLarge: 'Die Datei ist keine Karte dieser Art: sie ist zu groß.',
  fileTaken: 'Übernommen. Durchsehen, dann speichern.',
};

export const REGISTERS = {
  name: 'Name',
  deviceId: 'Bekannt als',
  deviceIdHint: 'Kalibrierungen und Läufe gehören zu diesem Namen wie zu dem eines Geräts.',
  baud: 'Geschwindigkeit',
  parity: 'Parität',
  answerMs: 'Auf Antwort warten, ms',
  retries: 'Nochmal fragen',
  quantity: 'Misst',
  place: 'Position',
  address: 'Adresse der Einheit',
  fn: 'Funktion',
  register: 'Register, ab 0',
  registerHint:
    '40001 eines Datenblatts ist Register 0 von Funktion 3; 30001 ist Register 0 von Funktion 4. Hexadezimal 0010h ist 16.',
  type: 'Typ',
  order: 'Bytefolge',
  unit: 'Angegeben in',
  scale: 'Mal',
  scaleHint:
    'Das Gelesene mal diesem, plus dem nächsten. Ein Zähler von 0,1 mbar: angegeben in mbar, mal 0,1.',
  offset: 'Plus',
  lo: 'Messbereich von',
  hi: 'Messbereich bis',
  everyMs: 'Neuer Wert alle, ms',
  /** Asked back of a register as a data sheet numbers it. */
  asPrinted: (printed: number, register: number, fn: ReadFunction) =>
    `Wie im Datenblatt gedruckt? Dessen ${printed} ist Register ${register} von Funktion ${fn}.`,
  statusRegister: 'Statusregister, ab 0',
  mask: 'Bits, die zählen (Maske)',
  maskHint: 'Als eine Zahl: Bits 0, 1 und 2 sind 1 + 2 + 4 = 7, alle sechzehn 65535.',
  good: 'Gut, wenn sie sind',
  goodHint:
    '0, wo ein gesetztes Bit einen Fehler meint; sonst die, die gesetzt sein müssen, ebenso zusammengezählt.',
  key: 'Name vor =',
  column: 'Oder Spalte, ab 1',
  decimal: 'Dezimalzeichen',
  cells: 'Spalten einer Zeile',
  cellsHint:
    'Eine Zeile mit anderer Spaltenzahl wird behalten und nicht gelesen. Leer, wo Namen sagen, was was ist.',
  notes: 'Notizen',
};

export const PARITY: Record<Parity, string> = {
  even: 'gerade',
  odd: 'ungerade',
  none: 'keine (8N1 oder 8N2)',
};
export const READ_FUNCTION: Record<ReadFunction, string> = {
  3: '3: Halteregister',
  4: '4: Eingangsregister',
};
export const REGISTER_TYPE: Record<RegisterType, string> = {
  int16: 'ganz, 16 Bit, mit Vorzeichen',
  uint16: 'ganz, 16 Bit',
  int32: 'ganz, 32 Bit, mit Vorzeichen',
  uint32: 'ganz, 32 Bit',
  float32: 'Gleitkomma, 32 Bit',
};
export const WORD_ORDER: Record<WordOrder, string> = {
  abcd: 'AB CD: hohes Wort zuerst',
  cdab: 'CD AB: niedriges Wort zuerst',
  badc: 'BA DC: hohes Wort zuerst, Bytes getauscht',
  dcba: 'DC BA: niedriges Wort zuerst, Bytes getauscht',
};
export const READING_UNIT: Record<ReadingUnit, string> = {
  bar: 'bar',
  mbar: 'mbar',
  Pa: 'Pa',
  kPa: 'kPa',
  MPa: 'MPa',
  psi: 'psi',
  C: '°C',
  F: '°F',
  K: 'K',
};
export const SUGGESTED_PLACE: Record<SuggestedPlace, string> = {
  'not-said': 'nicht gesagt',
  packer: 'eigene Leitung zum Packer',
  hose: 'Schlauch',
  supply: 'Reglerausgang',
  sleeve: 'Kurzliner',
  air: 'Luft im Packer',
  pipe: 'Rohrwand',
  ground: 'Erdreich',
};
export const BAUD = (baud: number): string => `${baud} Baud`;
export const DECIMAL_MARK: Record<'point' | 'comma', string> = { point: '1.25', comma: '1,25' };
