import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import fc from 'fast-check';
import { beforeEach, expect, it } from 'vitest';
import { bits32 } from '../src/estimate/testing/random.ts';
import { crc32c } from '../src/link/crc32c.ts';
import { createDecoder } from '../src/link/decode.ts';
import { encodeFrame } from '../src/link/encode.ts';
import type { Frame } from '../src/link/frames.ts';
import { anyDeviceFrame, anyHostFrame, ascii, asText, join } from '../src/link/testing/arbitraries.ts';
import { notRun } from '../tests/unit/not-run.ts';
import { buildTest, compiler, NO_COMPILER } from './build.mjs';
import { runC } from './run-c.mjs';
import { frameAsText } from './vectors/to-text.mjs';

beforeEach((context) => {
  if (compiler() === null) notRun(context, NO_COMPILER);
});

it('the C reference passes the same vectors, and its own tests of guard and device', () => {
  const { passed, failed, output } = runC();
  expect(failed, output).toBe(0);
  expect(passed).toBeGreaterThan(250);
});

it('the C reference says the conversation of SPEC.md, byte by byte', () => {
  const spec = readFileSync(path.join(import.meta.dirname, 'SPEC.md'), 'utf8');
  const { stdout } = spawnSync(buildTest('conversation'), { encoding: 'utf8' });
  expect(stdout.split('\n').length).toBeGreaterThan(20);
  expect(spec).toContain(stdout.replace(/^(?=.)/gm, '    '));
});

const hex = (bytes: Uint8Array) => Buffer.from(bytes).toString('hex');

/** A vector in the plain form, with what the TypeScript decoder makes of the bytes. */
function vector(direction: 'device' | 'host', note: string, bytes: Uint8Array): string {
  const out = [`v ${direction} ${note}`, `x ${hex(bytes) || '-'}`];
  const sink = {
    frame: (frame: Frame) => void out.push(`f ${frameAsText(frame)}`),
    stray: (reason: string, stray: Uint8Array) => void out.push(`s ${reason} ${hex(stray)}`),
  };
  const decoder = createDecoder(direction);
  decoder.push(bytes, sink);
  decoder.end(sink);
  return out.join('\n');
}

it('C and TypeScript agree on 4000 mutated commands (seed 99) and 2000 device frames', () => {
  const random = bits32(99);
  const below = (n: number) => random() % n;
  const commands = fc.sample(anyHostFrame, { numRuns: 400, seed: 99 }).map(encodeFrame);
  const piece = (): Uint8Array => {
    const line = commands[below(commands.length)]!.slice();
    const kind = below(6);
    if (kind < 2) return line;
    if (kind === 2) line[below(line.length)] = below(256);
    if (kind === 3) return line.subarray(0, below(line.length));
    if (kind === 4) {
      // Changed and closed again: only the form can tell.
      const body = line.slice(0, line.length - 9);
      body[2 + below(body.length - 2)] = 0x2c + below(14);
      return ascii(`${asText(body)}${crc32c(body).toString(16).padStart(8, '0')}\n`);
    }
    if (kind === 5 && below(20) === 0) return new Uint8Array(140).fill(0x4b);
    return line;
  };
  const lines: string[] = [];
  for (let n = 0; n < 4000; n++)
    lines.push(vector('host', `mutated ${n}`, join([piece(), piece(), piece()].slice(0, 1 + below(3)))));
  fc.sample(anyDeviceFrame, { numRuns: 2000, seed: 99 }).forEach((frame, n) => {
    lines.push(vector('device', `frame ${n}`, encodeFrame(frame)));
  });
  const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-vectors-'));
  try {
    const file = path.join(folder, 'mutated.txt');
    writeFileSync(file, `${lines.join('\n')}\n`);
    const run = spawnSync(buildTest('vectors'), [file], { encoding: 'utf8' });
    expect(run.stdout).toBe('6000 passed, 0 failed\n');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
