/**
 * The master of a bus as a pure machine: time is an argument, bytes go in and out, nothing waits here. One request is on the
 * line at a time; pressure is asked for again after every other request, so that no slow unit holds it up for more than one.
 */
import type { RegisterMap } from '../../job/reading-map.ts';
import type { RawPart } from '../maps/raw.ts';
import { type Ask, asksOf } from './asks.ts';
import { type Answer, answerBytes, hear, type Misfit, REQUEST_BYTES, requestBytes } from './frames.ts';
import { charactersUs, silenceUs, turnUs } from './timing.ts';

/** What the master tells. */
export interface MasterSink {
  /** A round is over: what was answered in it, in order; `main` false: the pressure was not. Empty where nothing was. */
  round(parts: readonly RawPart[], main: boolean): void;
  /** Bytes that are not the answer that was asked for. */
  stray(why: Misfit, bytes: Uint8Array): void;
  /** The unit did not answer an ask, after all retries; or answered it again. */
  unit(ask: Ask, told: 'silent' | 'garbled' | Answer): void;
}

export interface Master {
  /** What is to be done now: bytes to be sent at once, or nothing before that time, us. */
  next(nowUs: number): { readonly send: Uint8Array } | { readonly untilUs: number };
  /** Bytes that came. next() is due anew. */
  take(chunk: Uint8Array, nowUs: number): void;
  /** Asks for pressure readings so often at most, Hz. */
  pace(hz: number): void;
}

/** Bytes of one frame may come in two bunches of an adapter: after so long they do not belong together, us (common practice). */
const BUNCH_US = 30_000;
/** A unit that does not answer is asked seldom, so that the others are not held up, ms. */
const SILENT_UNIT_MS = 2000;

interface Turn {
  readonly ask: Ask;
  readonly number: number;
  tries: number;
  sentUs: number;
  deadlineUs: number;
  garbled: boolean;
}

class RtuMaster implements Master {
  private readonly asks: readonly Ask[];
  private readonly dueUs: number[];
  private readonly failing = new Set<number>();
  private leastMs = 0;
  private turn: Turn | null = null;
  /** The turn waits for its answer; else for the bus to be free. */
  private asked = false;
  private freeUs = 0;
  private lastByteUs = 0;
  private held = new Uint8Array(0);
  private parts: RawPart[] = [];
  /** The pressure was asked last. */
  private othersTurn = false;

  constructor(
    private readonly map: RegisterMap,
    private readonly sink: MasterSink,
  ) {
    this.asks = asksOf(map);
    this.dueUs = this.asks.map(() => Number.NEGATIVE_INFINITY);
  }

  pace(hz: number): void {
    this.leastMs = 1000 / hz;
  }

  next(nowUs: number): { readonly send: Uint8Array } | { readonly untilUs: number } {
    if (this.asked && this.turn !== null) {
      if (nowUs < this.turn.deadlineUs) return { untilUs: this.turn.deadlineUs };
      this.timeOut(this.turn, nowUs);
    }
    this.dropStale(nowUs);
    if (nowUs < this.freeUs) return { untilUs: this.freeUs };
    this.turn ??= this.choose(nowUs);
    const { turn } = this;
    if (turn === null) return { untilUs: this.dueUs[0]! };
    const { ask } = turn;
    turn.sentUs = nowUs;
    turn.deadlineUs =
      nowUs + charactersUs(this.map, REQUEST_BYTES + answerBytes(ask)) + this.map.answerMs * 1000;
    this.asked = true;
    return { send: requestBytes(ask) };
  }

  take(chunk: Uint8Array, nowUs: number): void {
    this.dropStale(nowUs);
    this.lastByteUs = nowUs;
    const all = new Uint8Array(this.held.length + chunk.length);
    all.set(this.held);
    all.set(chunk, this.held.length);
    this.held = all;
    // Whoever speaks while nobody was asked must have ended before the next request.
    if (!this.asked) this.freeUs = Math.max(this.freeUs, nowUs + silenceUs(this.map));
    for (;;) {
      const heard = hear(this.held, this.asked ? (this.turn?.ask ?? null) : null);
      if (heard.h === 'more') return;
      const bytes = this.held.slice(0, heard.length);
      this.held = this.held.slice(heard.length);
      if (heard.h === 'answer') this.answered(bytes, heard.answer, nowUs);
      else {
        this.sink.stray(heard.why, bytes);
        if (heard.why === 'crc' && this.asked && this.turn !== null) this.garbled(this.turn, nowUs);
      }
    }
  }

  /** Bytes that began a frame and were not gone on with. */
  private dropStale(nowUs: number): void {
    const waits = this.asked && this.turn !== null && nowUs < this.turn.deadlineUs;
    if (this.held.length === 0 || waits || nowUs - this.lastByteUs < BUNCH_US) return;
    this.giveUpHeld();
  }

  private giveUpHeld(): void {
    if (this.held.length > 0) this.sink.stray('partial', this.held);
    this.held = new Uint8Array(0);
  }

  private choose(nowUs: number): Turn | null {
    const begin = (number: number): Turn => ({
      ask: this.asks[number]!,
      number,
      tries: 0,
      sentUs: 0,
      deadlineUs: 0,
      garbled: false,
    });
    // Right behind a pressure, or in time before the next one.
    const other = this.otherDue(nowUs, this.othersTurn ? Number.POSITIVE_INFINITY : this.dueUs[0]!);
    if (other !== null) {
      this.othersTurn = false;
      return begin(other);
    }
    this.othersTurn = false;
    if (nowUs < this.dueUs[0]!) return null;
    this.othersTurn = true;
    return begin(0);
  }

  /** The one that waits longest of those that are due and over before that time; null: none. */
  private otherDue(nowUs: number, beforeUs: number): number | null {
    let most: number | null = null;
    for (let i = 1; i < this.asks.length; i++) {
      if (nowUs < this.dueUs[i]! || nowUs + this.takesUs(i) > beforeUs) continue;
      if (most === null || this.dueUs[i]! < this.dueUs[most]!) most = i;
    }
    return most;
  }

  /** What a request takes; of a unit that did not answer the last time all that is waited for it. */
  private takesUs(i: number): number {
    const turn = turnUs(this.map, REQUEST_BYTES, answerBytes(this.asks[i]!));
    return this.failing.has(i) ? turn + this.map.answerMs * 1500 : turn;
  }

  private answered(bytes: Uint8Array, answer: Answer, nowUs: number): void {
    const { turn } = this;
    if (turn === null) return;
    const { number, ask } = turn;
    this.failing.delete(number);
    this.parts.push({ ask: number, bytes });
    this.over(turn, Math.max(ask.everyMs, number === 0 ? this.leastMs : 0), nowUs, true);
    this.freeUs = nowUs + silenceUs(this.map);
    this.sink.unit(ask, answer);
  }

  private garbled(turn: Turn, nowUs: number): void {
    turn.garbled = true;
    this.failed(turn, nowUs);
  }

  private timeOut(turn: Turn, nowUs: number): void {
    if (this.held.length > 0) turn.garbled = true;
    this.giveUpHeld();
    this.failed(turn, nowUs);
  }

  /**
   * No answer, or a garbled one. Before anything else is asked the bus must be quiet: an answer that comes late would be taken
   * for that of the next request.
   */
  private failed(turn: Turn, nowUs: number): void {
    this.asked = false;
    this.freeUs = nowUs + Math.max(silenceUs(this.map), (this.map.answerMs * 1000) / 2);
    turn.tries++;
    const { number, ask } = turn;
    const retries = this.failing.has(number) ? 0 : this.map.retries;
    if (turn.tries <= retries) return;
    this.failing.add(number);
    this.over(turn, number === 0 ? ask.everyMs : Math.max(ask.everyMs, SILENT_UNIT_MS), nowUs, false);
    this.sink.unit(ask, turn.garbled ? 'garbled' : 'silent');
  }

  private over({ number, sentUs }: Turn, everyMs: number, nowUs: number, isAnswered: boolean): void {
    this.asked = false;
    this.turn = null;
    this.dueUs[number] = (isAnswered ? sentUs : nowUs) + everyMs * 1000;
    if (number !== 0) return;
    const { parts } = this;
    this.parts = [];
    this.sink.round(parts, isAnswered);
  }
}

export const createMaster = (map: RegisterMap, sink: MasterSink): Master => new RtuMaster(map, sink);
