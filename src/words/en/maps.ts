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
  registersOne: 'Register map',
  columnsOne: 'Column map',
  noPressure:
    'No row is a pressure: this map is a second adapter’s. It is read for temperatures, beside a device with the pressure.',
  registersText:
    'For transmitters and modules with Modbus RTU on a USB adapter for RS-485. Each row is one value; its data sheet gives unit address, function, register, type and byte order.',
  columnsText:
    'For a board that prints lines of text. Each row is one value: by its name in name=value, or by its column. A line has no check, so a wrong number may look right.',
  source: 'Source',
  bus: 'Bus',
  line: 'Line',
  rows: 'Values',
  row: (n: number) => `Value ${n}`,
  add: 'Add a value',
  remove: (n: number) => `Remove value ${n}`,
  status: 'A status register says whether it holds',
  test: 'Trial reading',
  testText:
    'Reads once by what stands here, saved or not. Whatever is connected is let go for it; during a run it is refused.',
  testNow: 'Read now',
  testing: 'Reading …',
  testWrong: 'Correct the marked fields first.',
  value: (row: number, value: string) => `Value ${row}: ${value}`,
  noValue: (row: number) => `Value ${row}: nothing`,
  fits: 'in the span',
  orderValue: (order: string, value: string) => `${order}: ${value}`,
  orderNone: (order: string) => `${order}: no number`,
  useOrder: 'Take this order',
  cells: (n: number) => (n === 1 ? 'The newest line has one column.' : `The newest line has ${n} columns.`),
  takeCells: (n: number) => `Lines have ${n} columns`,
  useCell: (row: number) => `Take for value ${row}`,
  pace: (asked: string, most: string) =>
    `${asked} readings a second are asked for; the bus carries ${most} at best.`,
  paceShort: 'That is more than the bus carries: it comes as often as it can. A higher speed helps.',
  saveFile: 'Save as a file',
  openFile: 'Open a file',
  fileRefused: (why: string) => `The file is no map of this kind: ${why}`,
  fileTooLarge: 'The file is no map of this kind: it is too large.',
  fileTaken: 'Taken over. Look through it, then save.',
};

export const REGISTERS = {
  name: 'Name',
  deviceId: 'Known as',
  deviceIdHint: 'Calibrations and runs belong to this name, as to a device’s own.',
  baud: 'Speed',
  parity: 'Parity',
  answerMs: 'Wait for an answer, ms',
  retries: 'Ask again',
  quantity: 'Measures',
  place: 'Position',
  address: 'Unit address',
  fn: 'Function',
  register: 'Register, from 0',
  registerHint:
    'A data sheet’s 40001 is register 0 of function 3; its 30001 register 0 of function 4. Hexadecimal 0010h is 16.',
  type: 'Type',
  order: 'Byte order',
  unit: 'Told in',
  scale: 'Times',
  scaleHint: 'What is read, times this, plus the next. A count of 0.1 mbar: told in mbar, times 0.1.',
  offset: 'Plus',
  lo: 'Span from',
  hi: 'Span to',
  everyMs: 'New value every, ms',
  /** Asked back of a register as a data sheet numbers it. */
  asPrinted: (printed: number, register: number, fn: ReadFunction) =>
    `As a data sheet prints it? Its ${printed} is register ${register} of function ${fn}.`,
  statusRegister: 'Status register, from 0',
  mask: 'Bits that count (mask)',
  maskHint: 'As one number: bits 0, 1 and 2 are 1 + 2 + 4 = 7, all sixteen 65535.',
  good: 'Good when they are',
  goodHint: '0 where a bit that is set means a fault; else those that must be set, added up in the same way.',
  key: 'Name before =',
  column: 'Or column, from 1',
  decimal: 'Decimal mark',
  cells: 'Columns of a line',
  cellsHint:
    'A line with another number of columns is kept and not read. Empty where names say which is which.',
  notes: 'Notes',
};

export const PARITY: Record<Parity, string> = { even: 'even', odd: 'odd', none: 'none (8N1 or 8N2)' };
export const READ_FUNCTION: Record<ReadFunction, string> = {
  3: '3: holding registers',
  4: '4: input registers',
};
export const REGISTER_TYPE: Record<RegisterType, string> = {
  int16: 'whole, 16 bits, with sign',
  uint16: 'whole, 16 bits',
  int32: 'whole, 32 bits, with sign',
  uint32: 'whole, 32 bits',
  float32: 'float, 32 bits',
};
export const WORD_ORDER: Record<WordOrder, string> = {
  abcd: 'AB CD: high word first',
  cdab: 'CD AB: low word first',
  badc: 'BA DC: high word first, bytes swapped',
  dcba: 'DC BA: low word first, bytes swapped',
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
  'not-said': 'not said',
  packer: 'own line to the packer',
  hose: 'hose',
  supply: 'regulator’s outlet',
  sleeve: 'sleeve',
  air: 'air in the packer',
  pipe: 'pipe wall',
  ground: 'ground',
};
export const BAUD = (baud: number): string => `${baud} baud`;
export const DECIMAL_MARK: Record<'point' | 'comma', string> = { point: '1.25', comma: '1,25' };
