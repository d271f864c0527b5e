import process from 'node:process';
import { loadCatalogue } from '../words/catalogue.ts';
import { command } from './command.ts';
import { readersWords } from './reader.ts';
import { runVerify } from './verify-run.ts';

// Exit codes: 0 valid, 1 changed, 2 refused or wrong usage, 3 unknown signer, 4 incomplete, 70 a fault of the program.
const { stderr } = process;
const words = await readersWords();

/** Twelve hours take half a minute: whoever sits before the terminal sees that it goes on. */
let shown = false;
function progress(share: number): void {
  if (!stderr.isTTY) return;
  shown = true;
  stderr.write(`\rverify: ${words.commands.VERIFY.progress(share)}`);
}
function clear(): void {
  if (shown) stderr.write('\r\u001b[K');
}

const terminal = {
  error(line: string): void {
    clear();
    stderr.write(`${line}\n`);
  },
};
process.exitCode = await command('verify', words, terminal, async () => {
  const { exitCode, text } = await runVerify(process.argv.slice(2), words, loadCatalogue, progress);
  clear();
  process.stdout.write(text);
  return exitCode;
});
