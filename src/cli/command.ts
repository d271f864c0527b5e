import type { Catalogue } from '../words/catalogue.ts';
import { InputFault } from './fault.ts';

/** Bad input and wrong usage. */
export const BAD_INPUT = 2;
/** A fault of the program itself, by the number that sysexits.h of BSD gives it: no verdict has it. */
export const INTERNAL = 70;

/** Where a command speaks to people. */
export interface Terminal {
  error(line: string): void;
}

/**
 * Does a command's work and gives the exit code.
 * @param name of the command, before each line that it says of a fault
 */
export async function command(
  name: string,
  words: Catalogue,
  terminal: Terminal,
  work: () => number | Promise<number>,
): Promise<number> {
  try {
    return await work();
  } catch (cause) {
    if (cause instanceof InputFault) {
      terminal.error(`${name}: ${cause.text(words)}`);
      return BAD_INPUT;
    }
    // Whoever sends it on helps to mend it; a script must not take it for a verdict.
    terminal.error(`${name}: ${words.commands.FAULT.internal}`);
    terminal.error(cause instanceof Error ? (cause.stack ?? cause.message) : String(cause));
    return INTERNAL;
  }
}
