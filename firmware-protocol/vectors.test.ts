import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { type SampleCounters, sampleStep } from '../src/link/clock.ts';
import { createDecoder } from '../src/link/decode.ts';
import { encodeFrame } from '../src/link/encode.ts';
import type { Frame } from '../src/link/frames.ts';
import { vectorsAsText } from './vectors/to-text.mjs';

// The TypeScript runner over the language-neutral vectors; c/test/vectors.c is the C one.

type Expected = { frame: Frame } | { stray: string; hex: string };
interface Vector {
  readonly note: string;
  readonly direction: 'device' | 'host';
  readonly hex: string;
  readonly expect: readonly Expected[];
  /** Unwrapped seq and tick of each sample. */
  readonly unwrapped?: readonly (readonly [number, number])[];
}

const folder = path.join(import.meta.dirname, 'vectors');
const read = (file: string) => readFileSync(path.join(folder, file), 'utf8');
const files = readdirSync(folder).filter((f) => f.endsWith('.json'));

function decode(vector: Vector, chunk: number): Expected[] {
  const got: Expected[] = [];
  const sink = {
    frame: (frame: Frame) => void got.push({ frame }),
    stray: (stray: string, bytes: Uint8Array) =>
      void got.push({ stray, hex: Buffer.from(bytes).toString('hex') }),
  };
  const bytes = new Uint8Array(Buffer.from(vector.hex, 'hex'));
  const decoder = createDecoder(vector.direction);
  for (let at = 0; at < bytes.length; at += chunk) decoder.push(bytes.subarray(at, at + chunk), sink);
  decoder.end(sink);
  return got;
}

const hexOf = (e: Expected) => ('frame' in e ? Buffer.from(encodeFrame(e.frame)).toString('hex') : e.hex);

it('there is a file for every kind of input', () => {
  expect(files).toEqual([
    'commands.json',
    'extremes.json',
    'invalid.json',
    'overlong.json',
    'resync.json',
    'truncated.json',
    'valid.json',
    'wrap.json',
  ]);
});

it('vectors.txt says the same as the JSON files (node vectors/to-text.mjs)', () => {
  expect(read('vectors.txt')).toBe(vectorsAsText());
});

describe.each(files)('%s', (file) => {
  const { vectors } = JSON.parse(read(file)) as { vectors: Vector[] };
  it.each(vectors)('$direction: $note', (vector) => {
    for (const chunk of [4096, 1, 7]) expect(decode(vector, chunk)).toEqual(vector.expect);
    expect(vector.expect.map(hexOf).join('')).toBe(vector.hex);
    if (vector.unwrapped === undefined) return;
    let last: SampleCounters | null = null;
    const steps = vector.expect.map((e) => {
      if (!('frame' in e) || e.frame.t !== 'S') throw new Error('no sample');
      const step = sampleStep(last, e.frame);
      if (step.order !== 'repeat' && step.order !== 'back') last = step;
      return [step.seq, step.tick];
    });
    expect(steps).toEqual(vector.unwrapped);
  });
});
