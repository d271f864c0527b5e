import process from 'node:process';
import { loadCatalogue } from '../words/catalogue.ts';
import { runExtract } from './extract-run.ts';
import { InputFault } from './fault.ts';
import { readersWords } from './reader.ts';

// Exit codes: 0 every file taken, 1 some refused, 2 wrong usage.
const words = await readersWords();
try {
  const { exitCode, text } = await runExtract(process.argv.slice(2), words, loadCatalogue);
  process.stdout.write(text);
  process.exitCode = exitCode;
} catch (cause) {
  if (!(cause instanceof InputFault)) throw cause;
  process.stderr.write(`extract: ${cause.text(words)}\n`);
  process.exitCode = 2;
}
