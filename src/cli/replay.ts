import { writeFileSync } from 'node:fs';
import process from 'node:process';
import type { Catalogue } from '../words/catalogue.ts';
import { InputFault } from './fault.ts';
import { readFileNamed } from './files.ts';
import { parseOptions } from './options.ts';
import { readersWords } from './reader.ts';
import { replay } from './run.ts';

/** More than this is no trace of a pipe repair: 12 h at 1 kHz take 2 GB as CSV, 50 Hz 90 MB. */
const MOST_BYTES = 1 << 30;

/** Cells that cannot be used are named one by one up to so many, then counted. */
const MOST_SAID = 10;

function main(args: readonly string[], words: Catalogue): number {
  const say = (text: string): number => {
    process.stderr.write(`replay: ${text}\n`);
    return 2;
  };
  try {
    const options = parseOptions(args);
    const read = (name: string, option: string) => readFileNamed(name, `${option} ${name}`, MOST_BYTES);
    const trace = read(options.trace, '--trace');
    const job = options.job === null ? null : new TextDecoder().decode(read(options.job, '--job'));
    const result = replay(options, trace, job, words);
    const text = `${JSON.stringify(result, null, 2)}\n`;
    if (options.out === null) process.stdout.write(text);
    else writeFileSync(options.out, text);
    const { cells, listed } = result.unusable;
    for (const { text: said } of listed.slice(0, MOST_SAID)) say(words.commands.REPLAY.unusable(said));
    if (cells > MOST_SAID) say(words.commands.REPLAY.moreUnusable(cells - MOST_SAID));
    return 0;
  } catch (cause) {
    if (cause instanceof InputFault) return say(cause.text(words));
    const { syscall, code, path } = cause as NodeJS.ErrnoException;
    if (syscall === undefined) throw cause;
    return say(words.commands.FAULT.unwritable(`--out ${path ?? ''}`, String(code)));
  }
}

process.exitCode = main(process.argv.slice(2), await readersWords());
