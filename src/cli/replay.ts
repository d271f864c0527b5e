import { writeFileSync } from 'node:fs';
import process from 'node:process';
import type { Catalogue } from '../words/catalogue.ts';
import { command } from './command.ts';
import { fault } from './fault.ts';
import { readFileNamed } from './files.ts';
import { parseOptions } from './options.ts';
import { readersWords } from './reader.ts';
import { replay } from './run.ts';

/** More than this is no trace of a pipe repair: 12 h at 1 kHz take 2 GB as CSV, 50 Hz 90 MB. */
const MOST_BYTES = 1 << 30;

/** Cells that cannot be used are named one by one up to so many, then counted. */
const MOST_SAID = 10;

const error = (line: string): void => void process.stderr.write(`${line}\n`);

/** @throws InputFault */
function main(args: readonly string[], words: Catalogue): number {
  const say = (text: string): void => error(`replay: ${text}`);
  const options = parseOptions(args);
  const read = (name: string, option: string) => readFileNamed(name, `${option} ${name}`, MOST_BYTES);
  const trace = read(options.trace, '--trace');
  const job = options.job === null ? null : new TextDecoder().decode(read(options.job, '--job'));
  const result = replay(options, trace, job, words);
  const text = `${JSON.stringify(result, null, 2)}\n`;
  if (options.out === null) process.stdout.write(text);
  else writeOut(options.out, text);
  const { cells, listed } = result.unusable;
  for (const { text: said } of listed.slice(0, MOST_SAID)) say(words.commands.REPLAY.unusable(said));
  if (cells > MOST_SAID) say(words.commands.REPLAY.moreUnusable(cells - MOST_SAID));
  return 0;
}

/** @throws InputFault where it can't be written */
function writeOut(name: string, text: string): void {
  try {
    writeFileSync(name, text);
  } catch (cause) {
    const { code, path } = cause as NodeJS.ErrnoException;
    throw fault((f) => f.unwritable(`--out ${path ?? ''}`, String(code)));
  }
}

const words = await readersWords();
process.exitCode = await command('replay', words, { error }, () => main(process.argv.slice(2), words));
