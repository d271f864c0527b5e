import process from 'node:process';
import { InputFault } from './fault.ts';
import { runVerify } from './verifyRun.ts';

// Exit codes: 0 valid, 1 changed, 2 refused or wrong usage, 3 unknown signer, 4 incomplete.
try {
  const { exitCode, text } = await runVerify(process.argv.slice(2));
  process.stdout.write(text);
  process.exitCode = exitCode;
} catch (cause) {
  if (!(cause instanceof InputFault)) throw cause;
  process.stderr.write(`verify: ${cause.message}\n`);
  process.exitCode = 2;
}
