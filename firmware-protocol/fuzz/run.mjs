// The campaign: `node firmware-protocol/fuzz/run.mjs [--seconds 200] [--target parser,device]` runs the fuzzer of clang on each
// target for so long. What it finds worth keeping stays in .cache/fuzz, so that one run goes on where the last one ended, and the
// executions of all runs of these sources are added up. An input that breaks something is left there and named.

import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { buildFuzzer } from '../build.mjs';
import { seeds, TARGETS } from './seeds.mjs';

/** Bytes of an input: a piece too long and the next line; each frame of the encoder whole; a conversation. */
const LONGEST = { parser: 160, encoder: 64, device: 256 };

const { values } = parseArgs({ options: { seconds: { type: 'string' }, target: { type: 'string' } } });
const seconds = Number(values.seconds ?? 200);
const targets = values.target?.split(',') ?? TARGETS;

function read(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return {};
  }
}

let status = 0;
for (const target of targets) {
  if (!TARGETS.includes(target)) throw new Error(`targets are ${TARGETS.join(', ')}`);
  const program = buildFuzzer(target);
  const folder = path.join(import.meta.dirname, '..', '..', '.cache', 'fuzz');
  const corpus = path.join(folder, target);
  mkdirSync(corpus, { recursive: true });
  seeds(target).forEach((bytes, n) => {
    writeFileSync(path.join(corpus, `seed-${n}`), bytes);
  });
  const run = spawnSync(
    program,
    [
      `-max_total_time=${seconds}`,
      `-max_len=${LONGEST[target]}`,
      '-print_final_stats=1',
      `-artifact_prefix=${corpus}-`,
      corpus,
    ],
    { encoding: 'utf8' },
  );
  const done = Number(/stat::number_of_executed_units:\s+(\d+)/.exec(run.stderr)?.[1] ?? 0);
  const tally = path.join(folder, 'executions.json');
  const all = read(tally);
  const key = path.basename(program);
  all[key] = (all[key] ?? 0) + done;
  writeFileSync(tally, `${JSON.stringify(all, null, 2)}\n`);
  if (run.status !== 0) {
    status = 1;
    console.log(run.stderr.split('\n').slice(-60).join('\n'));
  }
  console.log(
    `${target}: ${done.toExponential(2)} executions in ${seconds} s, ${all[key].toExponential(2)} in all, ${run.status === 0 ? 'nothing broken' : 'BROKEN'}`,
  );
}
process.exit(status);
