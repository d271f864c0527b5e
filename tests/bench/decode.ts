import { createDecoder } from '../../src/link/decode.ts';
import { encodeFrame } from '../../src/link/encode.ts';
import type { Frame } from '../../src/link/frames.ts';
import { best, type Row, random } from './measure.ts';

/** Decode speed beside what one would write in a hurry: text, split, Number, and no check of the CRC at all. */
export function benchDecode(): Row[] {
  const r = random(7);
  const lines: Uint8Array[] = [];
  for (let i = 0; i < 100_000; i++) {
    const counts = [Math.round(20_000 + 500 * r()), 31_200, i % 5 === 0 ? Math.round(9000 * r()) : null];
    lines.push(encodeFrame({ t: 'S', seq: i, tick: 200 * i, counts, status: 4 }));
  }
  const bytes = Buffer.concat(lines);
  const chunks: Uint8Array[] = [];
  for (let at = 0; at < bytes.length; at += 4096) chunks.push(new Uint8Array(bytes.subarray(at, at + 4096)));

  let frames = 0;
  const sink = {
    frame: (_: Frame) => {
      frames++;
    },
    stray: () => {
      throw new Error('a good line was not decoded');
    },
  };
  const ours = best(5, () => {
    const decoder = createDecoder('device');
    for (const chunk of chunks) decoder.push(chunk, sink);
  });
  if (frames !== 500_000) throw new Error(`decoded ${frames} of 500000 frames`);

  let sum = 0;
  const split = best(5, () => {
    let rest = '';
    const text = new TextDecoder();
    for (const chunk of chunks) {
      const parts = (rest + text.decode(chunk, { stream: true })).split('\n');
      rest = parts.pop() ?? '';
      for (const line of parts) {
        const fields = line.split(',');
        const frame = {
          seq: Number(fields[1]),
          tick: Number(fields[2]),
          counts: fields.slice(3, -2).map(Number),
        };
        sum += frame.seq;
      }
    }
  });
  if (sum === 0) throw new Error('the baseline did nothing');
  const rate = (ms: number) => bytes.length / 1e6 / (ms / 1000);
  return [
    {
      what: 'decode, CRC checked, canonical form checked',
      value: `${rate(ours).toFixed(0)} MB/s`,
      beside: `split and Number, nothing checked: ${rate(split).toFixed(0)} MB/s; ratio ${(split / ours).toFixed(1)}`,
      met: rate(ours) > rate(split),
    },
  ];
}
