import type { MapKind } from '../../job/reading-map.ts';
import type { Lack } from '../../link/maps/lacks.ts';
import type { DoubtCode } from '../../link/maps/translate.ts';

/** What is said all along of a source that does not speak the device protocol. */

export const SOURCE: Record<MapKind, { readonly title: string; readonly way: string }> = {
  registers: {
    title: 'Read off a bus: no clock, no guard and no button of its own',
    way: 'A device of this program’s own protocol has all of this.',
  },
  columns: {
    title: 'Unchecked line: no check, no clock, no guard, no button',
    way: 'The way up is a firmware that speaks this program’s own protocol: it has all of this.',
  },
};

export const LACK: Record<Lack, string> = {
  check: 'No check: a disturbed line is not told from a sound one, and a wrong number may look right.',
  clock: 'No clock of its own: readings carry the time at which they came to this computer.',
  guard: 'No guard of its own: when this computer or its cable fails, nothing sounds there.',
  button: 'No button: alarms are acknowledged here.',
};

export const reachedRate = (hz: string): string =>
  `${hz} readings a second are asked for; silence is told by how often they really come.`;

/** Exception codes: Modbus Application Protocol V1.1b3, 7. */
const EXCEPTION: Readonly<Record<number, string>> = {
  1: 'it does not know this function',
  2: 'it has no such registers, which count from 0',
  3: 'it does not take this number of registers',
  4: 'it has failed',
  5: 'it needs longer',
  6: 'it is busy',
  8: 'its memory has failed',
  10: 'the gateway has no way to it',
  11: 'it does not answer its gateway',
};

const DOUBT: Record<DoubtCode, (value: number | null) => string> = {
  exception: (code) =>
    `the unit refuses: ${EXCEPTION[code ?? 0] ?? 'for a reason of its own'} (exception ${code ?? 'unknown'}).`,
  status: () => 'its status register says that the value does not hold.',
  'no-number': () =>
    'what stands there is no number of an instrument. Try another byte order or type in the map.',
  outside: (value) =>
    `${value ?? 'what was sent'} is far outside of its span: another unit, byte order or scale in the map?`,
  missing: () => 'the line has no number there. Its columns or names are not those of the map.',
};

/** @param row of the map, counted from 1 */
export const doubtText = (row: number, code: DoubtCode, value: number | null): string =>
  `Row ${row} of the map: ${DOUBT[code](value)}`;
