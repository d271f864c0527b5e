import { type ChildProcessWithoutNullStreams, spawn, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { crc32c } from '../../src/link/crc32c.ts';
import { createDecoder } from '../../src/link/decode.ts';
import type { Frame, ReplyFrame } from '../../src/link/frames.ts';
import type { Port, PortEvents } from '../../src/link/ports/port.ts';
import { createSession } from '../../src/link/session.ts';
import { ascii } from '../../src/link/testing/arbitraries.ts';
import { compiler, notRun } from '../../tests/unit/not-run.ts';
import { buildLeast, NO_COMPILER } from '../build.mjs';
import { frameAsText } from '../vectors/to-text.mjs';

const vectorsText = path.join(import.meta.dirname, '..', 'vectors', 'vectors.txt');
const python = (...args: string[]) => [path.join(import.meta.dirname, 'by-the-page.py'), ...args];

/** What the bytes of a device or a host are, in the words of vectors.txt. */
function described(bytes: Uint8Array, sender: 'device' | 'host'): { lines: string[]; frames: Frame[] } {
  const lines: string[] = [];
  const frames: Frame[] = [];
  const sink = {
    frame(frame: Frame) {
      frames.push(frame);
      lines.push(`f ${frameAsText(frame)}`);
    },
    stray: (reason: string, stray: Uint8Array) =>
      void lines.push(`s ${reason} ${Buffer.from(stray).toString('hex')}`),
  };
  const decoder = createDecoder(sender);
  decoder.push(bytes, sink);
  decoder.end(sink);
  return { lines, frames };
}

describe('a reader and writer in another language, written from SPEC.md alone', () => {
  beforeEach((context) => {
    if (spawnSync('python3', ['--version']).status !== 0) notRun(context, 'no python3');
  });

  it('agrees on every vector, and writes every frame of them byte by byte', () => {
    const run = spawnSync('python3', python('vectors', vectorsText), { encoding: 'utf8' });
    expect(run.stderr).toBe('');
    expect(run.stdout).toMatch(/^\d{3,} passed, 0 failed\n$/);
  });

  it('reads the least device as the page does, and closes a line as it does', (context) => {
    if (compiler() === null) notRun(context, NO_COMPILER);
    const say = (text: string) => spawnSync('python3', python('close', text), { encoding: 'utf8' }).stdout;
    const input = say('K,1,hello,') + say('K,2,start,900,') + say('K,3,read,');
    const bytes = spawnSync(buildLeast(), { input }).stdout;
    const theirs = spawnSync('python3', python('device'), { input: bytes, encoding: 'utf8' }).stdout;
    const { lines } = described(bytes, 'device');
    expect(theirs.trimEnd().split('\n')).toEqual(lines);
    expect(lines[0]).toBe('s partial 0a');
    expect(lines.filter((l) => l.startsWith('f R'))).toEqual([
      'f R 1 ok ~',
      'f R 2 clamped 100',
      'f R 3 unknown ~',
    ]);
  });
});

describe('the least device', () => {
  let child: ChildProcessWithoutNullStreams | null = null;
  beforeEach((context) => {
    if (compiler() === null) notRun(context, NO_COMPILER);
  });
  afterEach(() => {
    child?.kill();
    child = null;
  });

  it('stays as small as it is said to be', () => {
    const code = readFileSync(path.join(import.meta.dirname, 'least.c'), 'utf8')
      .split('\n')
      .filter((line) => line.trim() !== '' && !/^\s*\/\*.*\*\/$/.test(line));
    expect(code.length).toBeLessThanOrEqual(60);
  });

  it('answers each whole command of the vectors in order, and nothing else', () => {
    const known = ['hello', 'start', 'stop', 'beat'];
    const input: Uint8Array[] = [];
    const expected: (readonly [number, string, number | null])[] = [];
    for (const [, hex] of readFileSync(vectorsText, 'latin1').matchAll(/^v host .*\nx ([0-9a-f]+)$/gm)) {
      const bytes = new Uint8Array(Buffer.from(hex!, 'hex'));
      const { lines, frames } = described(bytes, 'host');
      // How a line of the wrong form is answered is looked at below.
      if (lines.some((l) => l.startsWith('s form'))) continue;
      input.push(bytes, ascii('\n'));
      for (const frame of frames) {
        if (frame.t !== 'K') throw new Error('no command');
        const c = frame.command;
        const kept = c.verb === 'start' ? Math.min(100, c.rateHz) : null;
        const result = c.verb === 'start' && c.rateHz > 100 ? 'clamped' : 'ok';
        expected.push([frame.number, known.includes(c.verb) ? result : 'unknown', kept]);
      }
    }
    expect(expected.length).toBeGreaterThan(30);
    const out = spawnSync(buildLeast(), { input: Buffer.concat(input) }).stdout;
    const { lines, frames } = described(out, 'device');
    expect(lines.filter((l) => l.startsWith('s'))).toEqual(['s partial 0a']);
    const replies = frames.filter((f): f is ReplyFrame => f.t === 'R');
    expect(replies.map((r) => [r.command, r.result, r.value])).toEqual(expected);
  });

  it('says what is wrong with a command whose check is right', () => {
    // A number in another form than its one, or beyond a u16, and bytes that are no text, have no answer.
    const none = ['K,014,hello,', 'K,65536,beat,', 'K,,beat,', 'K,5,be\u0007t,'];
    const bad = [
      'K,7,fly,',
      'K,8,start,0,',
      'K,9,start,1001,',
      'K,10,start,',
      'K,11,stop,1,',
      'K,12,',
      'K,13,start,010,',
    ];
    const input = [...none, ...bad]
      .map((body) => `${body}${crc32c(ascii(body)).toString(16).padStart(8, '0')}\n`)
      .join('');
    const { frames } = described(spawnSync(buildLeast(), { input }).stdout, 'device');
    expect(frames.map((f) => (f.t === 'R' ? [f.command, f.result] : f))).toEqual([
      [7, 'unknown'],
      [8, 'range'],
      [9, 'range'],
      [10, 'range'],
      [11, 'range'],
      [12, 'unknown'],
      [13, 'range'],
    ]);
  });

  it('is greeted, streams at the rate that was asked, keeps no limit and says so', async () => {
    const device = spawn(buildLeast());
    child = device;
    let events: PortEvents | null = null;
    device.stdout.on('data', (bytes: Buffer) => events?.bytes(new Uint8Array(bytes)));
    const port: Port = {
      identity: { kind: 'serial' },
      async open(to) {
        events = to;
      },
      async write(bytes) {
        device.stdin.write(bytes);
      },
      async close() {
        events = null;
      },
    };
    const timers = {
      nowUs: () => performance.now() * 1000,
      after(ms: number, call: () => void) {
        const timer = setTimeout(call, ms);
        return () => clearTimeout(timer);
      },
    };
    const samples: { seq: number; tick: number; counts: readonly (number | null)[] }[] = [];
    const session = createSession(
      port,
      timers,
      { frame: (f) => void (f.t === 'S' && samples.push(f)), stray() {}, state() {}, error() {} },
      { rateHz: 100, expected: null, firstCommand: 9 },
    );
    await session.connect();
    expect(session.state).toBe('streaming');
    expect(session.greeting?.hello).toMatchObject({ deviceId: 'my-first-1', channels: 1, maxRateHz: 100 });
    expect(session.rateHz).toBe(100);
    expect(await session.limit(0, 12_000, 1500)).toEqual({ kept: false, counts: null, mbar: null });
    expect(session.guard).toBeNull();
    await session.close();
    // A limit is waited for over a second: some 150 samples, each a hundredth later, none lost.
    expect(samples.length).toBeGreaterThan(50);
    samples.forEach((s, i) => {
      if (i > 0) expect(s.seq).toBeGreaterThan(samples[i - 1]!.seq);
    });
    const [first, end] = [samples[0]!, samples.at(-1)!];
    expect((end.tick - first.tick) / (end.seq - first.seq)).toBeCloseTo(100, -1);
    // 4 mA over 100 ohms of 2.048 V in 32 768 counts, and up from there.
    expect(first.counts[0]).toBeGreaterThanOrEqual(6400);
  });
});
