import process from 'node:process';
import { loadCatalogue } from '../words/catalogue.ts';
import { command } from './command.ts';
import { runExtract } from './extract-run.ts';
import { readersWords } from './reader.ts';

// Exit codes: 0 every file taken, 1 some refused, 2 wrong usage, 70 a fault of the program.
const words = await readersWords();
const terminal = { error: (line: string) => void process.stderr.write(`${line}\n`) };
process.exitCode = await command('extract', words, terminal, async () => {
  const say = (line: string) => void process.stdout.write(`${line}\n`);
  const { exitCode } = await runExtract(process.argv.slice(2), words, loadCatalogue, say);
  return exitCode;
});
