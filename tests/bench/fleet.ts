import { readFileSync } from 'node:fs';
import path from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import type { AlarmRow, HoldRow, JobRow } from '../../src/cli/fleet.ts';
import { createFleetFolder, type FleetRows } from '../../src/cli/fleet-layout.ts';
import { type Row, random } from './measure.ts';

const JOBS = 100_000;
const YEARS = 4;
const CREWS = 24;
const PACKERS = 60;
/** All questions of a supervisor together. */
const GOAL_S = 2;
/** The questions of tables; that of the traces is another. */
const QUESTIONS = ['jobs by packer', 'leak by packer', 'fall by packer', 'alarms by crew', 'jobs to look at'];
const BEGIN_MS = Date.UTC(2023, 0, 1);

/**
 * A simulated job's rows, invented: as many and as various as sealed ones have.
 * @param noise uniform in [0, 1)
 */
function rowsOf(n: number, noise: () => number): FleetRows {
  const pick = (of: number) => Math.floor(noise() * of);
  const run = `run-${n.toString().padStart(8, '0')}`;
  const begun = BEGIN_MS + Math.round((n / JOBS) * YEARS * 365.25 * 86_400_000);
  const holds = 1 + pick(2);
  const alarms = pick(6);
  const packer = pick(PACKERS);
  const crew = `Crew ${pick(CREWS)}`;
  const whose = { run, begun, crew, packer: `Packer ${packer}` };
  const job: JobRow = {
    run,
    job: `job-${n}`,
    title: `Repair ${n}`,
    site: `Shaft ${pick(5000)}`,
    client: `Client ${pick(300)}`,
    crew,
    packer: whose.packer,
    packer_serial: `S-${packer}`,
    resin: `Resin ${pick(8)}`,
    resin_batch: `B${pick(2000)}`,
    cures_by: 'time',
    heated_by: 'none',
    water_in_line: 'dry',
    packers_on_line: 1,
    begun,
    ended: begun + 7_200_000,
    seconds: 7200 + 600 * noise(),
    samples: 360_000,
    finish: pick(100) === 0 ? 'interrupted' : 'ended',
    resumed: 0,
    rated_bar: 1.8 + pick(10) / 10,
    working_bar: 1.5,
    hold_minutes: 90 + 20 * noise(),
    minutes_in_band: 88 + 20 * noise(),
    lowest_hold_bar: 1.2 + 0.1 * noise(),
    cure_met: pick(50) !== 0,
    gaps: pick(3),
    alarms,
    alarms_urgent: Math.floor(alarms / 3),
    alarms_high: Math.floor((alarms + 1) / 3),
    alarms_low: Math.floor((alarms + 2) / 3),
    overrides: pick(20) === 0 ? 1 : 0,
    additions: pick(3),
    fingerprint: `key-${pick(CREWS)}`.padEnd(64, '0'),
    signer: pick(200) === 0 ? null : `Device ${pick(CREWS)}`,
    file: `${run}.steadybar.zip`,
  };
  const leak = (): Pick<HoldRow, 'leak' | 'leak_mbar_per_min' | 'leak_low' | 'leak_high' | 'leak_reason'> => {
    const value = noise();
    return {
      leak: value > 0.9 ? 'leaking' : value > 0.7 ? 'cannot-tell' : 'tight',
      leak_mbar_per_min: value,
      leak_low: value - 0.8,
      leak_high: value + 0.8,
      leak_reason: null,
    };
  };
  return {
    job,
    holds: Array.from(
      { length: holds },
      (_, i): HoldRow => ({
        ...whose,
        hold: i + 1,
        from_s: 600 + 3000 * i,
        to_s: 3000 + 3000 * i,
        minutes_in_band: 40 + noise(),
        lowest_bar: 1.4 + 0.1 * noise(),
        highest_bar: 1.6 + 0.1 * noise(),
        ...leak(),
        fall_mbar_per_min: noise(),
        samples: 120_000,
      }),
    ),
    alarms: Array.from(
      { length: alarms },
      (_, i): AlarmRow => ({
        ...whose,
        alarm: ['rising', 'leaking', 'lift', 'pressure-lost'][pick(4)]!,
        priority: ['urgent', 'high', 'low'][pick(3)]!,
        occurrence: i + 1,
        at_s: 600 * i,
        bar: 1.5 + 0.3 * noise(),
      }),
    ),
  };
}

/**
 * The questions of docs/fleet.md, asked of DuckDB over the tables of 100,000 simulated jobs in the folders that `extract` makes.
 * @param folder where the tables may be made
 */
export async function benchFleet(folder: string): Promise<Row[]> {
  const to = path.join(folder, 'fleet');
  const noise = random(11);
  createFleetFolder(to).finish(Array.from({ length: JOBS }, (_, n) => rowsOf(n, noise)));
  const guide = readFileSync('docs/fleet.md', 'utf8');
  const db = await (await DuckDBInstance.create(':memory:')).connect();
  try {
    await db.run(`SET file_search_path = '${to}'`);
    await db.run('SET parquet_metadata_cache = true');
    const rows: Row[] = [];
    let wholeMs = 0;
    for (const name of QUESTIONS) {
      const text = new RegExp(`\`\`\`sql\n-- ${name}\n([\\s\\S]*?)\`\`\``).exec(guide)?.[1];
      if (text === undefined) throw new Error(`docs/fleet.md does not ask '${name}'`);
      const from = performance.now();
      const found = (await db.runAndReadAll(text)).getRowObjectsJson();
      const ms = performance.now() - from;
      wholeMs += ms;
      rows.push({ what: name, value: `${ms.toFixed(0)} ms`, beside: `${found.length} rows`, met: null });
    }
    rows.push({
      what: 'all five',
      value: `${(wholeMs / 1000).toFixed(2)} s`,
      beside: `goal ≤ ${GOAL_S} s; ${YEARS} years, ${CREWS} crews, ${PACKERS} packers`,
      met: wholeMs <= 1000 * GOAL_S,
    });
    return rows;
  } finally {
    db.closeSync();
  }
}
