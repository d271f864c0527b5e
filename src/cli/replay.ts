import { readFileSync, statSync, writeFileSync } from 'node:fs';
import process from 'node:process';
import { fault, InputFault } from './fault.ts';
import { parseOptions, type ReplayOptions } from './options.ts';
import { replay } from './run.ts';

/** More than this is no trace of a pipe repair: 12 h at 1 kHz take 2 GB as CSV, 50 Hz 90 MB. */
const MOST_BYTES = 1 << 30;

function readFile(name: string, option: string): Uint8Array {
  try {
    const { size } = statSync(name);
    if (size > MOST_BYTES) throw fault(`${option} ${name}: ${size} bytes are more than ${MOST_BYTES}`);
    return readFileSync(name);
  } catch (cause) {
    if (cause instanceof InputFault) throw cause;
    const { code } = cause as NodeJS.ErrnoException;
    throw fault(`${option} ${name}: ${code === 'ENOENT' ? 'no such file' : `cannot be read (${code})`}`);
  }
}

function main(args: readonly string[]): number {
  let options: ReplayOptions;
  try {
    options = parseOptions(args);
    const trace = readFile(options.trace, '--trace');
    const job = options.job === null ? null : new TextDecoder().decode(readFile(options.job, '--job'));
    const text = `${JSON.stringify(replay(options, trace, job), null, 2)}\n`;
    if (options.out === null) process.stdout.write(text);
    else writeFileSync(options.out, text);
    return 0;
  } catch (cause) {
    if (cause instanceof InputFault) {
      process.stderr.write(`replay: ${cause.message}\n`);
      return 2;
    }
    if ((cause as NodeJS.ErrnoException).syscall !== undefined) {
      const { code, path } = cause as NodeJS.ErrnoException;
      process.stderr.write(`replay: --out ${path ?? ''}: cannot be written (${code})\n`);
      return 2;
    }
    throw cause;
  }
}

process.exitCode = main(process.argv.slice(2));
