import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { encodeFrame } from '../link/encode.ts';
import { resultSchema } from './result.ts';

// The command as a user runs it: a process, its exit code, what it prints. One line and exit 2 for each bad input.

const root = path.resolve(import.meta.dirname, '../..');
let dir = '';
beforeAll(() => {
  dir = mkdtempSync(path.join(tmpdir(), 'steadybar-replay-'));
});
afterAll(() => {
  rmSync(dir, { recursive: true, force: true });
});

function run(...args: string[]) {
  const done = spawnSync(process.execPath, ['--import', 'tsx', 'src/cli/replay.ts', ...args], {
    cwd: root,
    encoding: 'utf8',
  });
  return { status: done.status, out: done.stdout, err: done.stderr };
}

describe('npm run replay', () => {
  it('prints the result of the example of docs/replay.md', () => {
    const { status, out, err } = run('--trace', 'fixtures/traces/fill-and-hold.csv', '--rated', '1.8');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    const result = resultSchema.parse(JSON.parse(out));
    expect(result.stages.map((s) => s.stage)).toContain('hold');
  });

  it('writes it to --out and prints nothing', () => {
    const file = path.join(dir, 'result.json');
    const { status, out, err } = run('--trace', 'fixtures/traces/fill-and-hold.csv', '--out', file);
    expect({ status, out, err }).toEqual({ status: 0, out: '', err: '' });
    expect(resultSchema.parse(JSON.parse(readFileSync(file, 'utf8'))).limits).toBeNull();
  });

  it.each([
    [[], /^replay: --trace is missing; usage: /],
    [['--trace', 'no/such.csv'], /^replay: --trace no\/such\.csv: no such file\n$/],
    [['--trace', 'src'], /^replay: --trace src: not a file\n$/],
    [
      ['--trace', 'fixtures/traces/fill-and-hold.csv', '--out', 'no/such/dir/x.json'],
      /^replay: --out no\/such\/dir\/x\.json: cannot be written \(ENOENT\)\n$/,
    ],
    [
      ['--trace', 'fixtures/traces/fill-and-hold.csv', '--job', 'package.json'],
      /^replay: --job package\.json: schema: .+\n$/,
    ],
    [['--trace', 'package.json'], /^replay: --trace package\.json: neither an input log, nor a CSV .+\n$/],
  ] as const)('%j ends with exit code 2 and one line', (args, message) => {
    const { status, out, err } = run(...args);
    expect(status).toBe(2);
    expect(out).toBe('');
    expect(err).toMatch(message);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });

  it('takes a bare capture, and names the row of a bad CSV', () => {
    const capture = path.join(dir, 'bare.bin');
    writeFileSync(capture, encodeFrame({ t: 'S', seq: 1, tick: 1, counts: [5], status: 0 }));
    expect(run('--trace', capture).err).toMatch(/the capture holds no complete hello.+give --job\n$/);
    const csv = path.join(dir, 'bad.csv');
    writeFileSync(csv, 'time_s,pressure_bar\n0,0.1\n0.1,oops\n');
    expect(run('--trace', csv)).toEqual({
      status: 2,
      out: '',
      err: `replay: --trace ${csv}: row 3: pressure_bar "oops" is not a number\n`,
    });
    const impossible = Array.from({ length: 12 }, (_, i) => `${i + 1},-9`);
    writeFileSync(csv, `time_s,pressure_bar\n0,0.1\n${impossible.join('\n')}\n`);
    const { status, out, err } = run('--trace', csv);
    expect(status).toBe(0);
    expect(resultSchema.parse(JSON.parse(out)).unusable.cells).toBe(12);
    const lines = err.trimEnd().split('\n');
    expect(lines).toHaveLength(11);
    expect(lines[0]).toBe(
      'replay: row 3: pressure_bar "-9" is outside -1.05 to 100; judged as a reading that cannot be used',
    );
    expect(lines[10]).toBe('replay: 2 more cells cannot be used');
  });
});
