// The campaign: `node firmware-protocol/fuzz/run.mjs [--seconds 200] [--target parser,device] [--until 1e8]` runs the fuzzer of
// clang on each target for so long, and in rounds until so many executions are reached. What it finds worth keeping stays in
// .cache/fuzz, so that one run goes on where the last one ended, and the executions and processor minutes of all runs of these
// sources are added up. An input that breaks something is left there and named.

import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { buildFuzzer } from '../build.mjs';
import { seeds, TARGETS } from './seeds.mjs';

/** Bytes of an input: a piece too long and the next line; each frame of the encoder whole; a conversation. */
const LONGEST = { parser: 160, encoder: 64, device: 256 };

const { values } = parseArgs({
  options: { seconds: { type: 'string' }, target: { type: 'string' }, until: { type: 'string' } },
});
const seconds = Number(values.seconds ?? 200);
const targets = values.target?.split(',') ?? TARGETS;
const until = Number(values.until ?? 0);
for (const target of targets)
  if (!TARGETS.includes(target)) throw new Error(`targets are ${TARGETS.join(', ')}`);

function read(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return {};
  }
}

/** Processor time of all that this program started and that has ended, s; Linux alone tells it. */
function processorSeconds() {
  try {
    const fields = readFileSync('/proc/self/stat', 'latin1').split(') ')[1].split(' ');
    return (Number(fields[13]) + Number(fields[14])) / 100;
  } catch {
    return 0;
  }
}

const folder = path.join(import.meta.dirname, '..', '..', '.cache', 'fuzz');
const tally = path.join(folder, 'executions.json');

/** One target for `seconds`: what it has in all by then, and whether nothing broke. */
function round(target) {
  const program = buildFuzzer(target);
  const corpus = path.join(folder, target);
  mkdirSync(corpus, { recursive: true });
  seeds(target).forEach((bytes, n) => {
    writeFileSync(path.join(corpus, `seed-${n}`), bytes);
  });
  const from = processorSeconds();
  const run = spawnSync(
    program,
    [
      `-max_total_time=${seconds}`,
      `-max_len=${LONGEST[target]}`,
      '-print_final_stats=1',
      `-artifact_prefix=${corpus}-`,
      corpus,
    ],
    { encoding: 'utf8', maxBuffer: 1 << 28 },
  );
  const done = Number(/stat::number_of_executed_units:\s+(\d+)/.exec(run.stderr)?.[1] ?? 0);
  const all = read(tally);
  const key = path.basename(program);
  const before = all[key] ?? { executions: 0, processorMinutes: 0 };
  const sum = {
    executions: before.executions + done,
    processorMinutes: before.processorMinutes + (processorSeconds() - from) / 60,
  };
  writeFileSync(tally, `${JSON.stringify({ ...all, [key]: sum }, null, 2)}\n`);
  if (run.status !== 0) console.log(run.stderr.split('\n').slice(-60).join('\n'));
  console.log(
    `${target}: ${done.toExponential(2)} executions in ${seconds} s; in all ${sum.executions.toExponential(3)} in ${sum.processorMinutes.toFixed(1)} processor minutes, ${run.status === 0 ? 'nothing broken' : 'BROKEN'}`,
  );
  return { executions: sum.executions, sound: run.status === 0 };
}

let executions = 0;
let sound = true;
do {
  const rounds = targets.map(round);
  executions = rounds.reduce((sum, r) => sum + r.executions, 0);
  sound = rounds.every((r) => r.sound);
} while (sound && executions < until);
process.exit(sound ? 0 : 1);
