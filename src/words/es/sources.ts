import type { MapKind } from '../../job/reading-map.ts';
import type { Lack } from '../../link/maps/lacks.ts';
import type { DoubtCode } from '../../link/maps/translate.ts';

export const SOURCE: Record<MapKind, { readonly title: string; readonly way: string }> = {
  registers: {
    title: 'Leído de un bus: sin reloj, vigilancia ni botón propios',
    way: 'Un aparato con el protocolo de este programa tiene todo esto.',
  },
  columns: {
    title: 'Línea sin control: sin suma, reloj, vigilancia ni botón',
    way: 'La mejora es un firmware que hable el protocolo de este programa: tiene todo esto.',
  },
};

export const LACK: Record<Lack, string> = {
  check:
    'Sin suma de control: una línea alterada no se distingue de una buena, y un número falso puede parecer bueno.',
  clock: 'Sin reloj propio: las lecturas llevan la hora a la que llegaron a este ordenador.',
  guard: 'Sin vigilancia propia: si falla este ordenador o su cable, allí no suena nada.',
  button: 'Sin botón: las alarmas se reconocen aquí.',
};

export const reachedRate = (hz: string): string =>
  `Se piden ${hz} lecturas por segundo; el silencio se mide por cuántas llegan de verdad.`;

/** Exception codes: Modbus Application Protocol V1.1b3, 7. */
const EXCEPTION: Readonly<Record<number, string>> = {
  1: 'no conoce esta función',
  2: 'no tiene esos registros, que se cuentan desde 0',
  3: 'no admite este número de registros',
  4: 'ha fallado',
  5: 'necesita más tiempo',
  6: 'está ocupada',
  8: 'ha fallado su memoria',
  10: 'la pasarela no tiene camino hasta ella',
  11: 'no responde a su pasarela',
};

const DOUBT: Record<DoubtCode, (value: number | null) => string> = {
  exception: (code) =>
    `la unidad se niega: ${EXCEPTION[code ?? 0] ?? 'por un motivo suyo'} (excepción ${code ?? 'desconocida'}).`,
  status: () => 'su registro de estado dice que el valor no vale.',
  'no-number': () =>
    'lo que hay ahí no es un número de instrumento. Probar otro orden de bytes u otro tipo en el mapa.',
  outside: (value) =>
    `${value ?? 'lo enviado'} está muy fuera de su rango: ¿otra unidad, orden de bytes o escala en el mapa?`,
  missing: () => 'la línea no tiene ahí un número. Sus columnas o nombres no son los del mapa.',
};

/** @param row of the map, counted from 1 */
export const doubtText = (row: number, code: DoubtCode, value: number | null): string =>
  `Fila ${row} del mapa: ${DOUBT[code](value)}`;
