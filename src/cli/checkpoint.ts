import process from 'node:process';
import { runCheckpoint } from './checkpoint-run.ts';
import { command } from './command.ts';
import { readersWords } from './reader.ts';

// Exit codes: 0 one history, 1 another one or not signed, 2 no checkpoint or wrong usage, 3 not told, 70 a fault of the program.
const words = await readersWords();
const terminal = { error: (line: string) => void process.stderr.write(`${line}\n`) };
process.exitCode = await command('checkpoint', words, terminal, async () => {
  const { exitCode, text } = await runCheckpoint(process.argv.slice(2), words);
  process.stdout.write(text);
  return exitCode;
});
