/**
 * Raw evidence to counts by a reading map: the one place where this is done, live, when a record is verified, and in the
 * editor's test. Stateless: the same evidence gives the same counts for ever.
 */

import { REGISTER_WORDS } from '../../job/codes.ts';
import type { ReadingMap, RegisterChannel, RegisterMap } from '../../job/reading-map.ts';
import { cellsOf, numbersOf } from '../line/columns.ts';
import { type Ask, asksOf, holdsRegister } from '../modbus/asks.ts';
import { answerOf } from '../modbus/frames.ts';
import { isNoNumber, numberOf } from '../modbus/values.ts';
import type { Raw } from './raw.ts';
import { countsOf, countsOfValue } from './scale.ts';

/** Why a channel has no count, or a doubtful one. A leaf's codes: their words stand in the catalogue. */
export const DOUBTS = [
  'exception', // the unit refuses the request, by its code
  'status', // its status register says that the value does not hold
  'no-number', // not a number, or one that no instrument sends: another order of the bytes
  'outside', // further outside its span than the span is wide: another unit, order or type
  'missing', // the line has no such column or name, or no number in it
] as const;
export type DoubtCode = (typeof DOUBTS)[number];

export interface MapDoubt {
  readonly code: DoubtCode;
  /** Index in the map. */
  readonly channel: number;
  /** Of an exception its code; else what was read, as it was sent. null: nothing. */
  readonly value: number | null;
}

export interface Translated {
  /** One a channel of the map: Pa or m°C; null: none. */
  readonly counts: readonly (number | null)[];
  readonly doubts: readonly MapDoubt[];
}

export type Translate = (raw: Raw) => Translated;

/** Words of an answer, by the register of the first. */
interface Words {
  readonly ask: Ask;
  readonly words: readonly number[];
}

class Counting {
  private readonly counts: (number | null)[];
  private readonly doubts: MapDoubt[] = [];

  constructor(private readonly map: ReadingMap) {
    this.counts = new Array<number | null>(map.channels.length).fill(null);
  }

  get told(): Translated {
    return { counts: this.counts, doubts: this.doubts };
  }

  doubt(code: DoubtCode, channel: number, value: number | null): void {
    this.doubts.push({ code, channel, value });
  }

  number(channel: number, sent: number): void {
    const c = this.map.channels[channel]!;
    const counts = isNoNumber(sent) ? null : countsOf(c, sent);
    if (counts === null) {
      this.doubt('no-number', channel, sent);
      return;
    }
    const [lo, hi] = [countsOfValue(c, c.lo), countsOfValue(c, c.hi)];
    if (counts < 2 * lo - hi || counts > 2 * hi - lo) this.doubt('outside', channel, sent);
    this.counts[channel] = counts;
  }
}

function statusHolds({ status, address, fn }: RegisterChannel, answers: readonly Words[]): boolean {
  if (status === null) return true;
  const at = { address, fn, register: status.register };
  const found = answers.find((a) => holdsRegister(a.ask, at));
  const word = found?.words[status.register - found.ask.register];
  // One that did not come says nothing good.
  return word !== undefined && (word & status.mask) === status.good;
}

function byRegisters(map: RegisterMap): Translate {
  const asks = asksOf(map);
  return (raw) => {
    const out = new Counting(map);
    const answers: Words[] = [];
    for (const { ask: n, bytes } of raw) {
      const ask = asks[n];
      const answer = ask === undefined ? null : answerOf(bytes, ask);
      if (ask === undefined || answer === null) continue;
      if (answer.a === 'registers') answers.push({ ask, words: answer.words });
      else for (const channel of ask.channels) out.doubt('exception', channel, answer.code);
    }
    map.channels.forEach((c, channel) => {
      const found = answers.find((a) => holdsRegister(a.ask, c));
      if (found === undefined) return;
      const from = c.register - found.ask.register;
      const sent = numberOf(found.words.slice(from, from + REGISTER_WORDS[c.type]), c.type, c.order);
      if (statusHolds(c, answers)) out.number(channel, sent);
      else out.doubt('status', channel, sent);
    });
    return out.told;
  };
}

export function createTranslate(map: ReadingMap): Translate {
  if (map.is === 'registers') return byRegisters(map);
  return (raw) => {
    const out = new Counting(map);
    const line = raw[0];
    if (line === undefined) return out.told;
    numbersOf(map, cellsOf(line.bytes, map.decimal)).forEach((sent, channel) => {
      if (sent === null) out.doubt('missing', channel, null);
      else if (sent !== undefined) out.number(channel, sent);
    });
    return out.told;
  };
}
