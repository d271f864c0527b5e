import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ReplayResult } from '../../src/cli/result.ts';
import { compiler, notRun } from '../unit/not-run.ts';

// The replay command on traces that the rig did not make: an independent generator in C says itself what must
// be alarmed and when (its own numerics and closed forms), and the command has to agree within half a second.

const cc = compiler();
const root = path.resolve(import.meta.dirname, '../..');
let dir = '';

beforeAll(() => {
  if (cc === null) return;
  dir = mkdtempSync(path.join(tmpdir(), 'steadybar-traces-'));
  const built = spawnSync(
    cc,
    [
      '-std=c99',
      '-Wall',
      '-Wextra',
      '-Werror',
      '-O2',
      '-o',
      `${dir}/traces`,
      path.join(import.meta.dirname, 'traces.c'),
      '-lm',
    ],
    {
      encoding: 'utf8',
    },
  );
  expect(built.stderr).toBe('');
});
afterAll(() => {
  if (dir) rmSync(dir, { recursive: true, force: true });
});

function replay(name: string, extra: readonly string[] = []): ReplayResult {
  expect(spawnSync(`${dir}/traces`, [name, `${dir}/${name}.csv`, `${dir}/${name}.expect`]).status).toBe(0);
  const out = `${dir}/${name}.json`;
  const args = [
    '--import',
    'tsx',
    'src/cli/replay.ts',
    '--trace',
    `${dir}/${name}.csv`,
    '--rated',
    '2.0',
    ...extra,
    '--out',
    out,
  ];
  const run = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
  expect(run.stderr).toBe('');
  expect(run.status).toBe(0);
  return JSON.parse(readFileSync(out, 'utf8')) as ReplayResult;
}

describe('replay of traces from an independent generator', () => {
  it.for([
    ['plain', []],
    ['high', []],
    ['creep', []],
    ['spikes', []],
    ['silence', []],
    ['leak', ['--line', 'closed']],
  ] as const)('%s', ([name, extra], context) => {
    if (cc === null) notRun(context, 'no C compiler');
    const result = replay(name, extra);
    expect(result.limits?.ceilingBar).toBeCloseTo(1.985, 6);
    for (const line of readFileSync(`${dir}/${name}.expect`, 'utf8').trim().split('\n')) {
      const [kind, what, ...numbers] = line.split(' ');
      const [a = Number.NaN, b = Number.NaN] = numbers.map(Number);
      const urgent = result.alarms.filter((x) => x.priority === 'urgent');
      if (kind === 'alarm') {
        const raised = result.alarms.filter((x) => x.alarm === what).map((x) => x.raisedS);
        expect(
          raised.some((s) => Math.abs(s - a) <= b),
          `${line}: raised at ${raised.join(', ')}`,
        ).toBe(true);
      } else if (kind === 'by') {
        expect(
          urgent.some((x) => x.raisedS <= a),
          line,
        ).toBe(true);
      } else if (kind === 'no') {
        expect(urgent, line).toEqual([]);
      } else if (kind === 'gap') {
        expect(
          result.gaps.some(
            (g) => g.reason === what && Math.abs(g.fromS - a) <= 0.5 && Math.abs(g.toS - b) <= 0.5,
          ),
          `${line}: ${JSON.stringify(result.gaps)}`,
        ).toBe(true);
      } else if (kind === 'leak') {
        const leak = result.holds.at(-1)?.leak;
        expect(leak?.verdict, line).toBe(what);
        expect(leak!.low!).toBeLessThanOrEqual(a);
        expect(leak!.high!).toBeGreaterThanOrEqual(a);
      } else throw new Error(`unknown expectation: ${line}`);
    }
  });
});
