import process from 'node:process';
import { command } from './command.ts';
import { readersWords } from './reader.ts';
import { runStamp } from './stamp-run.ts';

// Exit codes: 0 done, 1 the answer is for something else or grants nothing, 2 wrong usage or no answer, 70 a fault of the program.
const words = await readersWords();
const terminal = { error: (line: string) => void process.stderr.write(`${line}\n`) };
process.exitCode = await command('stamp', words, terminal, () => {
  const { exitCode, text } = runStamp(process.argv.slice(2), words);
  process.stdout.write(text);
  return exitCode;
});
