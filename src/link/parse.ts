/** The fields of one line whose CRC holds, to a frame: by hand, from bytes, canonical form only. */

import type { Fields, Int, Plain } from './fields.ts';
import { FRAMES, type Frame, type FrameOf, type Letter, type SampleFrame } from './frames.ts';
import { COMMA, isConsistent, isId, MINUS } from './grammar.ts';

type Span = Pick<Int, 'min' | 'max'>;
const FLAG_SPAN: Span = { min: 0, max: 1 };

/** Reads field after field; the first fault makes `bad` true and stays. */
class Line {
  bad = false;
  constructor(
    private readonly bytes: Uint8Array,
    private at: number,
    private readonly end: number,
  ) {}

  get done(): boolean {
    return this.at === this.end;
  }

  maybe({ min, max }: Span): number | null {
    const { bytes, end } = this;
    let i = this.at;
    if (bytes[i] === COMMA && i < end) {
      this.at = i + 1;
      return null;
    }
    const negative = bytes[i] === MINUS;
    if (negative) i++;
    const first = i;
    let value = 0;
    while (i < end) {
      const d = bytes[i]! - 0x30;
      if (d < 0 || d > 9) break;
      value = value * 10 + d;
      i++;
    }
    const digits = i - first;
    const zero = bytes[first] === 0x30;
    if (digits < 1 || digits > 10 || i >= end || bytes[i] !== COMMA || (zero && (digits > 1 || negative)))
      this.bad = true;
    if (negative) value = -value;
    if (value < min || value > max) this.bad = true;
    this.at = i + 1;
    return value;
  }

  int(range: Span): number {
    const value = this.maybe(range);
    if (value === null) this.bad = true;
    return value ?? 0;
  }

  private text(): string {
    let s = '';
    while (this.at < this.end && this.bytes[this.at] !== COMMA)
      s += String.fromCharCode(this.bytes[this.at++]!);
    if (this.at >= this.end) this.bad = true;
    this.at++;
    return s;
  }

  maybeWord(list: readonly string[]): string | null {
    const s = this.text();
    if (s === '') return null;
    const found = list.find((w) => w === s);
    if (found === undefined) this.bad = true;
    return found ?? null;
  }

  word(list: readonly string[]): string {
    const found = this.maybeWord(list);
    if (found === null) this.bad = true;
    return found ?? list[0]!;
  }

  id(): string {
    const s = this.text();
    if (!isId(s)) this.bad = true;
    return s;
  }
}

/** The values of the fields, by name; what is not in the protocol makes `line.bad` true. */
function values(line: Line, fields: Fields<Plain>): Record<string, unknown> {
  const out: Record<string, unknown> = {};
  for (const name in fields) out[name] = value(line, fields[name]!);
  return out;
}

function value(line: Line, of: Plain): unknown {
  switch (of.kind) {
    case 'int':
      return line.int(of);
    case 'flag':
      return line.int(FLAG_SPAN);
    case 'word':
      return line.word(of.words);
    case 'id':
      return line.id();
    case 'maybe':
      return of.of.kind === 'int' ? line.maybe(of.of) : line.maybeWord(of.of.words);
    case 'verb': {
      const verb = line.word(Object.keys(of.verbs));
      return { verb, ...values(line, of.verbs[verb]!) };
    }
    default:
      return of satisfies never;
  }
}

const COUNT = FRAMES.S.counts.of.of;
const MOST_COUNTS = FRAMES.S.counts.most;

/**
 * The sample path: a thousand lines a second, so one loop without calls. `from` is after `S,`; `end` is after
 * the comma before the CRC.
 */
function parseSample(bytes: Uint8Array, from: number, end: number): SampleFrame | null {
  let seq = 0;
  let tick = 0;
  const counts: (number | null)[] = [];
  let field = 0;
  let i = from;
  while (i < end) {
    const first = i;
    const negative = bytes[i] === MINUS;
    if (negative) i++;
    let value = 0;
    let d = bytes[i]! - 0x30;
    const leading = d;
    const start = i;
    while (d >= 0 && d <= 9) {
      value = value * 10 + d;
      d = bytes[++i]! - 0x30;
    }
    const digits = i - start;
    if (bytes[i] !== COMMA || i >= end) return null;
    const empty = i === first;
    if (!empty && (digits < 1 || digits > 10 || (leading === 0 && (digits > 1 || negative)))) return null;
    if (negative) value = -value;
    i++;
    if (i === end) {
      if (empty || value < 0 || value > 0xffff || counts.length < 1) return null;
      return { t: 'S', seq, tick, counts, status: value };
    }
    if (field < 2) {
      if (empty || value < 0 || value > 0xffffffff) return null;
      if (field === 0) seq = value;
      else tick = value;
    } else {
      if (value < COUNT.min || value > COUNT.max || counts.length >= MOST_COUNTS) return null;
      counts.push(empty ? null : value);
    }
    field++;
  }
  return null;
}

const SAMPLE = 0x53;

/** All but the sample, which goes its own way. */
type PlainLetter = Exclude<Letter, 'S'>;
const isLetter = (letter: string): letter is PlainLetter => Object.hasOwn(FRAMES, letter) && letter !== 'S';

/** The one place where what was read by a description gets the type that follows from it. */
function build(line: Line, t: PlainLetter): FrameOf<PlainLetter> {
  return { t, ...values(line, FRAMES[t]) } as FrameOf<PlainLetter>;
}

/**
 * The frame in bytes[from..end), where `end` is after the comma before the CRC; null when the bytes are not the
 * canonical form of a frame of version 1.
 */
export function parseFrame(bytes: Uint8Array, from: number, end: number): Frame | null {
  if (bytes[from + 1] !== COMMA || end - from < 3) return null;
  if (bytes[from] === SAMPLE) return parseSample(bytes, from + 2, end);
  const letter = String.fromCharCode(bytes[from]!);
  if (!isLetter(letter)) return null;
  const line = new Line(bytes, from + 2, end);
  const frame = build(line, letter);
  return line.bad || !line.done || !isConsistent(frame) ? null : frame;
}
