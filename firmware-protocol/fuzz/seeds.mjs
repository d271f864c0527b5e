// Where the fuzzers begin: every command of the vectors, and a few days in the life of a device.

import { readFileSync } from 'node:fs';
import path from 'node:path';

/** @typedef {'parser' | 'encoder' | 'device'} Target */
/** @type {readonly Target[]} */
export const TARGETS = ['parser', 'encoder', 'device'];

const here = import.meta.dirname;

/** What hosts sent, of vectors.txt. */
function commands() {
  const text = readFileSync(path.join(here, '..', 'vectors', 'vectors.txt'), 'latin1');
  return [...text.matchAll(/^v host .*\nx ([0-9a-f]+)$/gm)].map((m) => Buffer.from(m[1], 'hex'));
}

/** Lines without their check: the harness closes them. */
const open = (bytes) =>
  Buffer.from(
    bytes
      .toString('latin1')
      .split('\n')
      .map((line) => line.replace(/,[0-9a-f]{8}$/, ','))
      .join('\n'),
    'latin1',
  );

const op = (code, value) => Buffer.from([code, value >> 8, value & 255]);
const say = (body) => Buffer.concat([op(5, 0x100 | body.length), Buffer.from(body, 'latin1')]);
const poll = op(11, 3);
const counts = (value) => op(0, value);
const wait = (ticks) => op(3, ticks);

/** Hello, stream, arm, fill past the limit, acknowledge, fall, disarm, reset, store that fails, days without a conversion. */
const LIVES = [
  [counts(4000), say('K,1,hello,'), poll, say('K,2,start,200,'), op(2, 4000), poll, say('K,3,stop,'), poll],
  [counts(4000), say('K,1,limit,0,12000,1500,'), poll, counts(12000), poll, say('K,2,silence,'), poll],
  [counts(12000), say('K,1,limit,0,11000,1300,'), counts(11500), op(7, 1), wait(20000), counts(4000)],
  [say('K,1,limit,0,12000,1500,'), counts(9000), say('K,2,limit,0,13000,1600,'), say('K,3,disarm,'), poll],
  [say('K,1,limit,0,12000,1500,'), op(10, 0x100), counts(4000), say('K,9,read,'), poll, say('K,9,disarm,')],
  [op(8, 1), say('K,1,limit,0,12000,1500,'), poll, op(8, 0), op(9, 3), op(10, 1), say('K,2,beat,'), poll],
  [counts(3000), say('K,1,limit,0,12000,1500,'), wait(40000), poll, say('K,2,disarm,'), poll],
  [counts(4000), say('K,1,limit,0,12000,1500,'), poll, op(4, 0xf903), say('K,2,disarm,'), poll],
];

/** @param {Target} target */
export function seeds(target) {
  if (target === 'device') return LIVES.map((life) => Buffer.concat(life));
  if (target === 'encoder')
    return [0, 1, 2, 3, 4].map((frame) => Buffer.alloc(60, Buffer.from([frame, 255, 0, 128, 7])));
  return commands()
    .filter((bytes) => bytes.length < 500)
    .flatMap((bytes) => [
      Buffer.concat([Buffer.from([0]), bytes]),
      Buffer.concat([Buffer.from([1]), open(bytes)]),
    ]);
}
