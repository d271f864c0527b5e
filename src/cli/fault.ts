import type { Catalogue } from '../words/catalogue.ts';

type FaultWords = Catalogue['commands']['FAULT'];
type Said = (faults: FaultWords, words: Catalogue) => string;

/** Bad input: one line that says what and where. The command ends with exit code 2. */
export class InputFault extends Error {
  override readonly name = 'InputFault';
  constructor(private readonly said: Said) {
    super('bad input');
  }

  /** The line in the reader's language, without line breaks whatever was in the input. */
  text(words: Catalogue): string {
    return this.said(words.commands.FAULT, words).replace(/\s+/g, ' ').slice(0, 500);
  }
}

export const fault = (said: Said): InputFault => new InputFault(said);

/** Signs that move what a terminal shows: of control, and those that turn the direction of a text. */
const MOVES = /[\p{Cc}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu;

/** A line in which nothing moves what a terminal shows, whatever was in the input. */
export const plainLine = (line: string): string => line.replace(MOVES, '\ufffd');

/** What stands in the input, short and on one line. */
export function shown(text: string): string {
  const one = JSON.stringify(text.slice(0, 40));
  return text.length > 40 ? `${one.slice(0, -1)}…"` : one;
}
