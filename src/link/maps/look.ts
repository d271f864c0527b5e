/** What a map makes of one round or line, for whoever writes the map: each value, and what the other orders of its bytes would give. */
import { WORD_ORDERS, type WordOrder } from '../../job/codes.ts';
import type { MapChannel, ReadingMap, RegisterMap } from '../../job/reading-map.ts';
import type { Cell } from '../line/columns.ts';
import type { LinkError } from '../status.ts';
import type { Raw } from './raw.ts';
import { countsOfValue, valueOfCounts } from './scale.ts';
import { createTranslate, type DoubtCode } from './translate.ts';

/** A value by another order of the bytes. */
export interface OtherOrder {
  readonly order: WordOrder;
  /** bar or °C; null: no number that an instrument sends. */
  readonly value: number | null;
  /** It lies in the span of the map, and is not nothing: a zero is one in every order, and tells none. */
  readonly fits: boolean;
}

export interface LookedAt {
  /** bar or °C; null: none. */
  readonly value: number | null;
  readonly doubt: DoubtCode | null;
  /** Of an exception its code; else the number as it was sent. null: nothing was. */
  readonly sent: number | null;
  /** Of registers alone: what all four orders give. */
  readonly orders: readonly OtherOrder[];
}

/** What a trial reading found. */
export interface TestRead {
  /** Why nothing could be read; null: it could. */
  readonly trouble: LinkError | null;
  /** The newest of what could not be read, for reading. */
  readonly line: string | null;
  /** One a channel of the map. */
  readonly channels: readonly LookedAt[];
  /** Of a plain line: what the newest one is made of. */
  readonly cells: readonly Cell[];
}

const withOrder = (map: RegisterMap, channel: number, order: WordOrder): RegisterMap => ({
  ...map,
  channels: map.channels.map((c, i) => (i === channel ? { ...c, order } : c)),
});

const isInSpan = (c: MapChannel, counts: number): boolean =>
  counts >= countsOfValue(c, c.lo) && counts <= countsOfValue(c, c.hi);

export function lookAt(map: ReadingMap, raw: Raw): readonly LookedAt[] {
  const { counts, doubts } = createTranslate(map)(raw);
  return map.channels.map((c, i) => {
    const found = counts[i] ?? null;
    const doubt = doubts.find((d) => d.channel === i) ?? null;
    const isThere = found !== null || (doubt !== null && doubt.code !== 'exception');
    const orders =
      map.is === 'columns' || !isThere
        ? []
        : WORD_ORDERS.map((order): OtherOrder => {
            const other = createTranslate(withOrder(map, i, order))(raw).counts[i] ?? null;
            return {
              order,
              value: other === null ? null : valueOfCounts(c, other),
              fits: other !== null && other !== 0 && isInSpan(c, other),
            };
          });
    return {
      value: found === null ? null : valueOfCounts(c, found),
      doubt: doubt?.code ?? null,
      sent: doubt?.value ?? null,
      orders,
    };
  });
}
