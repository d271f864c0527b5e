import { describe, expect, it } from 'vitest';
import { EXIT_CODE } from '../record/findings.ts';
import { english } from '../words/testing/english.ts';
import { BAD_INPUT, command, INTERNAL } from './command.ts';
import { fault } from './fault.ts';

async function run(work: () => number | Promise<number>): Promise<[number, string[]]> {
  const lines: string[] = [];
  const code = await command('verify', english, { error: (line) => void lines.push(line) }, work);
  return [code, lines];
}

describe('a command', () => {
  it('gives what its work gives', async () => {
    expect(await run(() => 3)).toEqual([3, []]);
  });

  it('says bad input in one line', async () => {
    const [code, lines] = await run(() => {
      throw fault((f) => f.twice('--key'));
    });
    expect([code, lines]).toEqual([BAD_INPUT, ['verify: --key is given twice']]);
  });

  it('never gives a fault of its own the code of a verdict', async () => {
    const [code, lines] = await run(() => Promise.reject(new TypeError('x is not a function')));
    expect(code).toBe(INTERNAL);
    expect(Object.values(EXIT_CODE)).not.toContain(code);
    expect(lines[0]).toBe(`verify: ${english.commands.FAULT.internal}`);
    expect(lines[1]).toContain('x is not a function');
  });
});
