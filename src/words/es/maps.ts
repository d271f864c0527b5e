import type {
  Parity,
  ReadFunction,
  ReadingUnit,
  RegisterType,
  SuggestedPlace,
  WordOrder,
} from '../../job/codes.ts';
import type { MAPS as ENGLISH_MAPS, REGISTERS as ENGLISH_REGISTERS } from '../en/maps.ts';

export const MAPS: typeof ENGLISH_MAPS = {
  registersOne: 'Mapa de registros',
  columnsOne: 'Mapa de columnas',
  noPressure:
    'Ninguna fila es una presión: este mapa es de un segundo adaptador. Se lee para temperaturas, junto a un aparato con la presión.',
  registersText:
    'Para transmisores y módulos con Modbus RTU en un adaptador USB de RS-485. Cada fila es un valor; su ficha técnica da dirección de unidad, función, registro, tipo y orden de bytes.',
  columnsText:
    'Para una placa que escribe líneas de texto. Cada fila es un valor: por su nombre en nombre=valor, o por su columna. Una línea no tiene suma de control, así que un número falso puede parecer bueno.',
  source: 'Fuente',
  bus: 'Bus',
  line: 'Línea',
  rows: 'Valores',
  row: (n: number) => `Valor ${n}`,
  add: 'Añadir un valor',
  remove: (n: number) => `Quitar el valor ${n}`,
  status: 'Un registro de estado dice si vale',
  test: 'Lectura de prueba',
  testText:
    'Lee una vez con lo que hay aquí, guardado o no. Lo que esté conectado se suelta para ello; durante una sesión se rechaza.',
  testNow: 'Leer ahora',
  testing: 'Leyendo …',
  testWrong: 'Corregir primero los campos marcados.',
  value: (row: number, value: string) => `Valor ${row}: ${value}`,
  noValue: (row: number) => `Valor ${row}: nada`,
  fits: 'dentro del rango',
  orderValue: (order: string, value: string) => `${order}: ${value}`,
  orderNone: (order: string) => `${order}: ningún número`,
  useOrder: 'Tomar este orden',
  cells: (n: number) =>
    n === 1 ? 'La última línea tiene una columna.' : `La última línea tiene ${n} columnas.`,
  takeCells: (n: number) => `Las líneas tienen ${n} columnas`,
  useCell: (row: number) => `Tomar para el valor ${row}`,
  pace: (asked: string, most: string) =>
    `Se piden ${asked} lecturas por segundo; el bus lleva como mucho ${most}.`,
  paceShort: 'Es más de lo que lleva el bus: vienen tan a menudo como puede. Ayuda más velocidad.',
  saveFile: 'Guardar como fichero',
  openFile: 'Abrir un fichero',
  fileRefused: (why: string) => `El fichero no es un mapa de esta clase: ${why}`,
  fileTooLarge: 'El fichero no es un mapa de esta clase: es demasiado grande.',
  fileTaken: 'Tomado. Repasarlo y guardar.',
};

export const REGISTERS: typeof ENGLISH_REGISTERS = {
  name: 'Nombre',
  deviceId: 'Conocido como',
  deviceIdHint: 'Calibraciones y sesiones van con este nombre, como con el propio de un aparato.',
  baud: 'Velocidad',
  parity: 'Paridad',
  answerMs: 'Esperar respuesta, ms',
  retries: 'Preguntar otra vez',
  quantity: 'Mide',
  place: 'Posición',
  address: 'Dirección de la unidad',
  fn: 'Función',
  register: 'Registro, desde 0',
  registerHint:
    'El 40001 de una ficha técnica es el registro 0 de la función 3; su 30001, el registro 0 de la función 4. El hexadecimal 0010h es 16.',
  type: 'Tipo',
  order: 'Orden de bytes',
  unit: 'Dado en',
  scale: 'Por',
  scaleHint:
    'Lo que se lee, por esto, más lo siguiente. Una cuenta de una décima de mbar: dado en mbar, por una décima.',
  offset: 'Más',
  lo: 'Rango desde',
  hi: 'Rango hasta',
  everyMs: 'Valor nuevo cada, ms',
  asPrinted: (printed: number, register: number, fn: ReadFunction) =>
    `¿Como lo imprime una ficha técnica? Su ${printed} es el registro ${register} de la función ${fn}.`,
  statusRegister: 'Registro de estado, desde 0',
  mask: 'Bits que cuentan (máscara)',
  maskHint: 'Como un número: los bits 0, 1 y 2 son 1 + 2 + 4 = 7, los dieciséis 65535.',
  good: 'Bien cuando son',
  goodHint:
    '0 donde un bit puesto significa un fallo; si no, los que tienen que estar puestos, sumados igual.',
  key: 'Nombre antes de =',
  column: 'O columna, desde 1',
  decimal: 'Signo decimal',
  cells: 'Columnas de una línea',
  cellsHint:
    'Una línea con otro número de columnas se guarda y no se lee. Vacío donde los nombres dicen cuál es cuál.',
  notes: 'Notas',
};

export const PARITY: Record<Parity, string> = { even: 'par', odd: 'impar', none: 'ninguna (8N1 u 8N2)' };
export const READ_FUNCTION: Record<ReadFunction, string> = {
  3: '3: registros de retención (holding)',
  4: '4: registros de entrada (input)',
};
export const REGISTER_TYPE: Record<RegisterType, string> = {
  int16: 'entero, 16 bits, con signo',
  uint16: 'entero, 16 bits',
  int32: 'entero, 32 bits, con signo',
  uint32: 'entero, 32 bits',
  float32: 'coma flotante, 32 bits',
};
export const WORD_ORDER: Record<WordOrder, string> = {
  abcd: 'AB CD: palabra alta primero',
  cdab: 'CD AB: palabra baja primero',
  badc: 'BA DC: palabra alta primero, bytes cambiados',
  dcba: 'DC BA: palabra baja primero, bytes cambiados',
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
  'not-said': 'no se dice',
  packer: 'línea propia al packer',
  hose: 'manguera',
  supply: 'salida del regulador',
  sleeve: 'manga',
  air: 'aire del packer',
  pipe: 'pared del tubo',
  ground: 'terreno',
};
export const BAUD = (baud: number): string => `${baud} baudios`;
export const DECIMAL_MARK: Record<'point' | 'comma', string> = { point: '1.25', comma: '1,25' };
