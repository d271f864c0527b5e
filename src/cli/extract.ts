import process from 'node:process';
import { runExtract } from './extract-run.ts';
import { InputFault } from './fault.ts';

// Exit codes: 0 every file taken, 1 some refused, 2 wrong usage.
try {
  const { exitCode, text } = await runExtract(process.argv.slice(2));
  process.stdout.write(text);
  process.exitCode = exitCode;
} catch (cause) {
  if (!(cause instanceof InputFault)) throw cause;
  process.stderr.write(`extract: ${cause.message}\n`);
  process.exitCode = 2;
}
