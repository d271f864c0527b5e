/** From a register map to requests: which registers are read together, and how often each is due. */
import { mainQuantity, REGISTER_WORDS } from '../../job/codes.ts';
import type { RegisterChannel, RegisterMap } from '../../job/reading-map.ts';
import { answerBytes, MOST_REGISTERS, REQUEST_BYTES, type Read } from './frames.ts';
import { turnUs } from './timing.ts';

/** A request of the round, and the channels whose values or status lie in its answer. */
export interface Ask extends Read {
  readonly everyMs: number;
  /** Index in the map. */
  readonly channels: readonly number[];
}

interface Span {
  readonly channel: number;
  readonly address: number;
  readonly fn: RegisterChannel['fn'];
  from: number;
  to: number;
}

/** Registers from a channel's first to its last, its status among them where it lies right beside the value. */
function spansOf(c: RegisterChannel, channel: number): Span[] {
  const { address, fn, register, status } = c;
  const value: Span = { channel, address, fn, from: register, to: register + REGISTER_WORDS[c.type] };
  if (status === null) return [value];
  return [value, { channel, address, fn, from: status.register, to: status.register + 1 }];
}

/**
 * Registers that follow each other without a gap are read together: what lies between may not be there to read, and a unit
 * then refuses the whole request. The ask of the first pressure comes first, or where there is none of the first value: everything else waits for it.
 */
export function asksOf({ channels }: Pick<RegisterMap, 'channels'>): readonly Ask[] {
  const spans = channels.flatMap(spansOf);
  spans.sort((a, b) => a.address - b.address || a.fn - b.fn || a.from - b.from || b.to - a.to);
  const asks: { -readonly [K in keyof Ask]: Ask[K] }[] = [];
  for (const { channel, address, fn, from, to } of spans) {
    const { everyMs } = channels[channel]!;
    const last = asks[asks.length - 1];
    const end = last === undefined ? 0 : last.register + last.count;
    const joins =
      last?.address === address && last.fn === fn && from <= end && to - last.register <= MOST_REGISTERS;
    if (last !== undefined && joins) {
      last.count = Math.max(end, to) - last.register;
      last.everyMs = Math.min(last.everyMs, everyMs);
      if (!last.channels.includes(channel)) last.channels = [...last.channels, channel];
    } else asks.push({ address, fn, register: from, count: to - from, everyMs, channels: [channel] });
  }
  const main = channels.findIndex((c) => c.quantity === mainQuantity({ channels }));
  const at = asks.findIndex((a) => holdsRegister(a, channels[main]!));
  return [asks[at]!, ...asks.filter((_, i) => i !== at)];
}

/** The registers of the channel's value are in the ask's answer. */
export const holdsRegister = (a: Read, c: Pick<RegisterChannel, 'address' | 'fn' | 'register'>): boolean =>
  a.address === c.address && a.fn === c.fn && c.register >= a.register && c.register < a.register + a.count;

/**
 * Pressure readings a second that the bus carries at best, and those that are asked for. Between two of them one other
 * request goes out at most.
 */
export function paceOf(map: RegisterMap): { readonly askedHz: number; readonly mostHz: number } {
  const [main, ...others] = asksOf(map);
  const turn = (a: Ask): number => turnUs(map, REQUEST_BYTES, answerBytes(a));
  const longest = Math.max(0, ...others.map(turn));
  return { askedHz: 1000 / main!.everyMs, mostHz: 1e6 / (turn(main!) + longest) };
}
