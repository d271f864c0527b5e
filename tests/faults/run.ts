/**
 * npm run faults [-- NAME|kills …] [--stages prepare,hold] [--sites N] [--kills N] [--seed N] [--no-build]
 *
 * Makes the faults named (all, and 100 kills of the browser, without a name) on the real stack and writes docs/faults.md
 * with its figures; what is not named keeps its figures of before. Fails where an expectation is not met.
 */
import { cpus } from 'node:os';
import { parseArgs } from 'node:util';
import { buildApp, needRealStack } from './app-folder.ts';
import type { Cell } from './cell.ts';
import { runTasks } from './pool.ts';
import { keepCells, keepKill, readResults, writePage } from './results.ts';
import { FAULTS, faultOf } from './table.ts';
import type { Answer, Task } from './tasks.ts';
import { WALK, type WalkStage } from './walk.ts';

const KILLS = 'kills';

function stop(text: string): never {
  console.error(`faults: ${text}`);
  process.exit(2);
}

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    stages: { type: 'string' },
    sites: { type: 'string', default: String(Math.max(2, cpus().length)) },
    kills: { type: 'string', default: '100' },
    seed: { type: 'string', default: String(Date.now() % 1_000_000_000) },
    'no-build': { type: 'boolean', default: false },
  },
});
const sites = Number(values.sites);
const kills = Number(values.kills);
if (!(Number.isInteger(sites) && sites >= 1 && sites <= 16)) stop('--sites takes 1 to 16');
if (!(Number.isInteger(kills) && kills >= 0 && kills <= 10_000)) stop('--kills takes 0 to 10000');
const seed = Number(values.seed);
if (!Number.isSafeInteger(seed) || seed < 0)
  stop('--seed takes a whole number: the first kill’s, the others count on');
const stages = (values.stages?.split(',') ?? WALK) as readonly WalkStage[];
for (const s of stages) if (!WALK.includes(s)) stop(`no stage named ${s}; there are ${WALK.join(', ')}`);
const names = positionals.filter((n) => n !== KILLS);
for (const n of names)
  if (!FAULTS.some((f) => f.name === n))
    stop(`no fault named ${n}; there are ${[...FAULTS.map((f) => f.name), KILLS].join(', ')}`);
needRealStack('faults');
const folder = buildApp('faults', values['no-build']);

const all = positionals.length === 0;
const chosen = all ? FAULTS : names.map(faultOf);
const tasks: Task[] = chosen
  .map((f): Task => ({ t: 'fault', name: f.name, stages }))
  .filter((t) => t.t === 'fault' && (faultOf(t.name).stages ?? WALK).some((s) => stages.includes(s)));
if (all || positionals.includes(KILLS))
  for (let i = 0; i < kills; i++) tasks.push({ t: 'kill', seed: seed + i });

let killed = 0;
let failures = 0;
const started = Date.now();
const since = () => `${Math.round((Date.now() - started) / 1000)} s`;

function tell(answer: Answer): void {
  const { task } = answer;
  const name = task.t === 'fault' ? task.name : task.t === 'kill' ? `kill ${task.seed}` : task.t;
  if ('error' in answer) {
    console.log(`${since()} ${name}: FAILED ${answer.error}`);
    failures++;
  } else if ('kill' in answer) {
    const { stage, outcome, lostS, detail } = answer.kill;
    const lost = lostS === null ? '' : `, ${lostS.toFixed(2)} s lost`;
    console.log(
      `${since()} ${name}: ${stage ?? 'start'}, ${outcome}${lost}${detail === '' ? '' : ` (${detail})`}`,
    );
  } else if ('cells' in answer) {
    const bad = answer.cells.filter((c) => c.complaints.length > 0);
    console.log(`${since()} ${name}: ${answer.cells.length - bad.length} of ${answer.cells.length} met`);
    for (const c of bad) console.log(`     ${c.stage}: ${c.complaints.join('; ')} (load ${c.load})`);
  }
  if ('cells' in answer) keepCells(answer.cells);
  if ('kill' in answer) keepKill(answer.kill, killed++ === 0);
  writePage();
}

const answers = await runTasks(tasks, sites, folder, tell);

// What was not met gets a second look, alone: a busy machine is told from a fault of the app. Both are kept.
const again = answers
  .flatMap((a) => ('cells' in a ? a.cells : []))
  .filter((c) => c.complaints.length > 0)
  .reduce((by, c) => by.set(c.fault, [...(by.get(c.fault) ?? []), c]), new Map<string, Cell[]>());
if (again.size > 0 && sites > 1) {
  console.log(`${since()} a second look, one site alone: ${[...again.keys()].join(' ')}`);
  const second = [...again].map(
    ([name, cells]): Task => ({ t: 'fault', name, stages: cells.map((c) => c.stage) }),
  );
  const firstLook = new Map([...again.values()].flat().map((c) => [`${c.fault} ${c.stage}`, c]));
  await runTasks(second, 1, folder, (answer) => {
    if (!('cells' in answer)) return tell(answer);
    const cells = answer.cells.map((c) => {
      const first = firstLook.get(`${c.fault} ${c.stage}`);
      return first === undefined ? c : { ...c, first: { complaints: first.complaints, load: first.load } };
    });
    tell({ ...answer, cells });
  });
}

const results = readResults();
const open = results.cells.filter((c) => c.complaints.length > 0);
const lost = results.kills.filter((k) => k.outcome === 'LOST' || k.outcome === 'failed');
console.log(
  `${since()} docs/faults.md: ${results.cells.length} cells, ${open.length} not met; ${results.kills.length} kills, ${lost.length} lost`,
);
process.exit(open.length + lost.length + failures === 0 ? 0 : 1);
