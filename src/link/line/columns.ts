/** A plain line to numbers: `name=value` pairs, or columns. */
import type { ColumnMap } from '../../job/reading-map.ts';

/** A word of the line. */
export interface Cell {
  /** Before the '=' or ':'; empty: none. */
  readonly key: string;
  /** null: it is no number. */
  readonly value: number | null;
  readonly text: string;
}

type Decimal = ColumnMap['decimal'];

const NUMBER = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?$/;

/** What stands behind the digits is the unit, where it is letters or signs that no number has. */
const UNIT = /^(.*?[\d.])\s*(?:[a-zA-Z°%µ/²³]{1,8})$/;

function numberIn(text: string, decimal: Decimal): number | null {
  const plain = decimal === 'comma' ? text.replace(',', '.') : text;
  if (NUMBER.test(plain)) return Number(plain);
  const digits = UNIT.exec(plain)?.[1];
  return digits !== undefined && NUMBER.test(digits) ? Number(digits) : null;
}

const utf8 = new TextDecoder();

/** Cells are parted by commas (not where they are decimals), semicolons, tabs or blanks; blanks beside '=' part nothing. */
export function cellsOf(bytes: Uint8Array, decimal: Decimal): readonly Cell[] {
  const text = utf8.decode(bytes).trim();
  const close = text.replace(/\s*([=:])\s*/g, '$1');
  const words = close.split(decimal === 'comma' ? /[;\s]+/ : /[,;\s]+/).filter((w) => w !== '');
  return words.map((word) => {
    const at = word.search(/[=:]/);
    const key = at < 0 ? '' : word.slice(0, at);
    const told = at < 0 ? word : word.slice(at + 1);
    return { key, value: numberIn(told, decimal), text: told };
  });
}

/**
 * The number of each channel of the map; null: what stands there is none, or nobody knows which it is. undefined: this line does
 * not name it; another one may.
 */
export function numbersOf(map: ColumnMap, cells: readonly Cell[]): readonly (number | null | undefined)[] {
  const isOther = map.cells !== null && cells.length !== map.cells;
  return map.channels.map(({ key, column }) => {
    if (key === '') return isOther ? null : (cells[(column ?? 0) - 1]?.value ?? null);
    const named = cells.filter((c) => c.key === key);
    if (named.length === 0) return undefined;
    // Named twice: whoever prints it may mean either.
    return named.length === 1 ? named[0]!.value : null;
  });
}
