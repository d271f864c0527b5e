import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type DuckDBConnection, DuckDBInstance } from '@duckdb/node-api';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runExtract } from '../../src/cli/extract-run.ts';
import { faultIn } from '../../src/cli/testing/fault-of.ts';
import { senseRun } from '../../src/engine/testing/readings-alone.ts';
import { createOffice } from '../../src/evidence/testing/office.ts';
import { PLAIN_WORDING } from '../../src/job/testing/wording.ts';
import { scanRun } from '../../src/record/reader.ts';
import type { WatchEvent } from '../../src/watch/events.ts';
import { loadCatalogue } from '../../src/words/catalogue.ts';
import { DEMO } from '../../src/words/testing/demo.ts';
import { english } from '../../src/words/testing/english.ts';

// A handful of sealed jobs from the simulated site. Every text of docs/fleet.md is asked of DuckDB as it stands,
// and each answer is held against what the runs themselves say, counted here by other code.

type Hold = Extract<WatchEvent, { e: 'hold' }>;
interface Sample {
  readonly tUs: number;
  readonly bar: number | null;
}
interface Made {
  readonly run: string;
  readonly crew: string;
  readonly packer: string;
  readonly begunMs: number;
  readonly events: readonly WatchEvent[];
  readonly samples: readonly Sample[];
}

const DAY_MS = 86_400_000;
const JOBS = [
  { crew: 'North', packer: 'Packer A', hold: 20, record: {} },
  { crew: 'North', packer: 'Packer B', hold: 30, record: {} },
  { crew: '', packer: 'Packer A', hold: 40, record: {} },
  { crew: '=HYPERLINK("x")', packer: 'Packer A', hold: 25, record: {} },
] as const;

const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-fleet-'));
const [sealed, fleet] = [path.join(folder, 'sealed'), path.join(folder, 'fleet')];
const made: Made[] = [];
let fingerprint = '';
let db: DuckDBConnection;

beforeAll(async () => {
  mkdirSync(sealed);
  const office = createOffice();
  for (const [i, job] of JOBS.entries()) {
    const begunMs = office.bench.wall.ms + (i === 0 ? 0 : DAY_MS);
    office.bench.wall.ms = begunMs;
    for (const kind of ['job', 'packer', 'resin', 'sensor'] as const)
      for (const d of await office.documents.list(kind)) await office.documents.remove(kind, d.id);
    await office.keepJob({ crew: job.crew, title: `Repair ${i}` });
    const packer = (await office.documents.get('packer', DEMO.packer!.id))!;
    await office.documents.put({ ...packer, body: { ...(packer.body as object), name: job.packer } });
    const run = await office.record({
      holdS: job.hold,
      // One crew's cable: a silent device is an alarm whatever the estimators make of a hold.
      during: async (bench, site) => {
        if (i !== 1) return;
        site.fault({ fault: 'silence', seconds: 7 });
        await bench.run(9000);
      },
    });
    fingerprint = (await office.ask({ q: 'seal', runId: run, wording: PLAIN_WORDING })).fingerprint;
    const { name, file } = await office.ask({ q: 'job-file', ref: { kind: 'run', runId: run } });
    writeFileSync(path.join(sealed, name), new Uint8Array(await file.arrayBuffer()));
    const events: WatchEvent[] = [];
    const samples: Sample[] = [];
    const pages = await office.files.readAll(`${run}.run`);
    const { head } = scanRun(pages, { event: (e) => events.push(e) });
    const sense = senseRun(head!, events);
    scanRun(pages, {
      entry(e) {
        const reading = sense(e);
        if (e.l === 'frame' && e.frame.t === 'S') samples.push({ tUs: e.tUs, bar: reading?.bar ?? null });
      },
    });
    made.push({ run, crew: job.crew, packer: job.packer, begunMs: head!.utcMs!, events, samples });
  }
  db = await (await DuckDBInstance.create(':memory:')).connect();
}, 120_000);

afterAll(() => {
  db?.closeSync();
  rmSync(folder, { recursive: true, force: true });
});

const guide = readFileSync(new URL('../../docs/fleet.md', import.meta.url), 'utf8');
const texts = new Map([...guide.matchAll(/```sql\n-- (.+)\n([\s\S]*?)```/g)].map((m) => [m[1]!, m[2]!]));

async function ask(name: string): Promise<Record<string, unknown>[]> {
  await db.run(`SET file_search_path = '${fleet}'`);
  const rows = (await db.runAndReadAll(texts.get(name)!)).getRowObjectsJson();
  return rows as Record<string, unknown>[];
}

const holdsOf = (m: Made): Hold[] => m.events.filter((e): e is Hold => e.e === 'hold');
const alarmsOf = (m: Made, priority?: string): number =>
  m.events.filter(
    (e) =>
      e.e === 'alarm' &&
      e.why === 'condition' &&
      e.to === 'unacknowledged' &&
      (priority === undefined || e.priority === priority),
  ).length;

/** Least squares by the normal equations, another way than the database's. */
function slope(points: readonly (readonly [number, number])[]): number {
  const n = points.length;
  const mx = points.reduce((s, [x]) => s + x, 0) / n;
  const my = points.reduce((s, [, y]) => s + y, 0) / n;
  const top = points.reduce((s, [x, y]) => s + (x - mx) * (y - my), 0);
  return top / points.reduce((s, [x]) => s + (x - mx) ** 2, 0);
}

async function extract(args: readonly string[]) {
  const said: string[] = [];
  const { exitCode } = await runExtract(args, english, loadCatalogue, (line) => said.push(line));
  return { exitCode, text: said.join('\n') };
}

describe('extract', () => {
  it('takes every sealed job, and names what it refuses', async () => {
    const first = await extract(['--to', fleet, '--key', `${fingerprint}=Tablet 1`, sealed]);
    expect(first.exitCode, first.text).toBe(0);
    expect(first.text).toContain(`${JOBS.length} jobs in`);
    const bad = path.join(folder, 'bad.steadybar.zip');
    const [name] = first.text.match(/\S+\.steadybar\.zip/)!;
    const bytes = readFileSync(name);
    bytes[bytes.length >> 1]! ^= 4;
    writeFileSync(bad, bytes);
    const elsewhere = path.join(folder, 'other');
    const second = await extract(['--to', elsewhere, bad, name, name]);
    expect(second.exitCode).toBe(1);
    expect(second.text).toMatch(/refused {2}.*bad\.steadybar\.zip: changed/);
    expect(second.text).toMatch(/unknown signer/);
    expect(second.text).toMatch(/again {4}/);
    await expect(faultIn(extract([]))).resolves.toMatch(/usage/);
    await expect(faultIn(extract(['--to', elsewhere, path.join(folder, 'no')]))).resolves.toMatch(/no such/);
    await expect(faultIn(extract(['--to', elsewhere, '--key', 'xyz', bad]))).resolves.toMatch(/fingerprint/);
  });
});

describe('docs/fleet.md, asked as it stands', () => {
  it('has these questions', () => {
    expect([...texts.keys()]).toEqual([
      'jobs by packer',
      'leak by packer',
      'fall by packer',
      'alarms by crew',
      'jobs to look at',
      'highest of each trace of a month',
    ]);
  });

  it('jobs by packer', async () => {
    const rows = await ask('jobs by packer');
    expect(rows.map((r) => [r.packer, Number(r.jobs)])).toEqual([
      ['Packer A', 3],
      ['Packer B', 1],
    ]);
    for (const row of rows) {
      const mine = made.filter((m) => m.packer === row.packer);
      const minutes = mine.flatMap(holdsOf).reduce((s, h) => s + (h.tUs - h.fromUs) / 60e6, 0);
      expect(Number(row.hold_minutes)).toBeCloseTo(minutes, 1);
      expect(minutes).toBeGreaterThan(0.3);
      expect(Number(row.cure_not_met)).toBe(
        mine.filter((m) => !m.events.some((e) => e.e === 'cure-met')).length,
      );
      const last = new Date(Math.max(...mine.map((m) => m.begunMs))).toISOString();
      expect(String(row.last_used).slice(0, 19)).toBe(last.slice(0, 19).replace('T', ' '));
    }
  });

  it('leak by packer', async () => {
    const rows = await ask('leak by packer');
    const months = new Map<string, Hold[]>();
    for (const m of made) {
      const key = `${m.packer} ${new Date(m.begunMs).toISOString().slice(0, 7)}`;
      months.set(key, [...(months.get(key) ?? []), ...holdsOf(m)]);
    }
    expect(rows.map((r) => `${r.packer} ${r.month}`)).toEqual([...months.keys()].sort());
    for (const row of rows) {
      const leaks = months.get(`${row.packer} ${row.month}`)!.map((h) => h.leak);
      const told = leaks.flatMap((l) => (l.mbarPerMin === null ? [] : [l.mbarPerMin])).sort((a, b) => a - b);
      const middle = [told[Math.ceil(told.length / 2) - 1], told[Math.floor(told.length / 2)]];
      expect([row.holds, row.leaking, row.not_told].map(Number)).toEqual([
        leaks.length,
        leaks.filter((l) => l.low !== null && l.low > 0).length,
        leaks.filter((l) => l.verdict === 'cannot-tell' || l.verdict === 'cannot-be-seen').length,
      ]);
      if (told.length === 0) expect(row.median_mbar_per_min).toBeNull();
      else expect(Number(row.median_mbar_per_min)).toBeCloseTo((middle[0]! + middle[1]!) / 2, 9);
    }
  });

  it('fall by packer, from every sample of the holds', async () => {
    const rows = await ask('fall by packer');
    expect(rows.map((r) => r.packer)).toEqual(['Packer A', 'Packer B']);
    for (const row of rows) {
      const slopes = made
        .filter((m) => m.packer === row.packer)
        .flatMap((m) =>
          holdsOf(m).map((h) => {
            const inside = m.samples.filter((s) => s.bar !== null && s.tUs >= h.fromUs && s.tUs <= h.tUs);
            const points = inside.map((s) => [s.tUs / 1e6, s.bar!] as const);
            return { day: m.begunMs / DAY_MS, n: points.length, leak: -slope(points) * 60e3 };
          }),
        );
      expect(Number(row.holds)).toBe(slopes.length);
      expect(Number(row.samples)).toBe(slopes.reduce((s, x) => s + x.n, 0));
      const mean = slopes.reduce((s, x) => s + x.leak, 0) / slopes.length;
      expect(Number(row.mean_mbar_per_min)).toBeCloseTo(mean, 2);
      if (slopes.length > 1)
        expect(Number(row.change_per_day)).toBeCloseTo(slope(slopes.map((s) => [s.day, s.leak] as const)), 2);
      else expect(row.change_per_day).toBeNull();
    }
  });

  it('alarms by crew; a crew named like a formula is a text', async () => {
    const rows = await ask('alarms by crew');
    expect(made.reduce((s, m) => s + alarmsOf(m), 0)).toBeGreaterThan(0);
    const crews = [...new Set(made.map((m) => m.crew))];
    expect(rows).toHaveLength(crews.length);
    for (const crew of crews) {
      const row = rows.find((r) => r.crew === (crew === '' ? '(none)' : crew));
      const mine = made.filter((m) => m.crew === crew);
      const sum = (p?: string) => mine.reduce((s, m) => s + alarmsOf(m, p), 0);
      expect(row, crew).toMatchObject({ alarms_per_job: Math.round((sum() / mine.length) * 100) / 100 });
      expect([row?.jobs, row?.urgent, row?.high, row?.low].map(Number)).toEqual([
        mine.length,
        sum('urgent'),
        sum('high'),
        sum('low'),
      ]);
    }
  });

  it('jobs to look at', async () => {
    const rows = await ask('jobs to look at');
    const wanted = made.filter(
      (m) => !m.events.some((e) => e.e === 'cure-met') || m.events.some((e) => e.e === 'override'),
    );
    const newest = [...wanted].sort((a, b) => b.begunMs - a.begunMs);
    expect(rows.map((r) => r.run).sort()).toEqual(wanted.map((m) => m.run).sort());
    expect(rows.at(-1)!.run).toBe(newest.at(-1)!.run);
    for (const row of rows) expect(row.signer).toBe('Tablet 1');
  });
});

it('highest of each trace of a month, asked as it stands', async () => {
  const rows = await ask('highest of each trace of a month');
  const month = made.filter((m) => new Date(m.begunMs).toISOString().startsWith('2026-04'));
  expect(month.length).toBeGreaterThan(0);
  expect(rows.map((r) => r.run)).toEqual(month.map((m) => m.run).sort());
  for (const row of rows) {
    const { samples } = made.find((m) => m.run === row.run)!;
    expect(Number(row.samples)).toBe(samples.length);
    expect(Number(row.highest_bar)).toBeCloseTo(Math.max(...samples.map((s) => s.bar ?? 0)), 5);
  }
});

describe('the folders', () => {
  it('are partitions that an engine names by itself, a job without a crew under null', async () => {
    const rows = (
      await db.runAndReadAll(
        `SELECT DISTINCT by_crew, crew FROM read_parquet('${fleet}/jobs/**/*.parquet', hive_partitioning = true) ORDER BY crew`,
      )
    ).getRowObjects();
    expect(rows.map((r) => [r.by_crew, r.crew])).toEqual([
      ['=hyperlink("x")', '=HYPERLINK("x")'],
      ['north', 'North'],
      [null, null],
    ]);
  });

  it('made again of fewer files hold those alone, and nothing half made', async () => {
    const [one] = readdirSync(sealed);
    const again = path.join(folder, 'again');
    await extract(['--to', again, sealed]);
    await extract(['--to', again, path.join(sealed, one!)]);
    const [count] = (
      await db.runAndReadAll(`SELECT count(*) AS n FROM '${again}/jobs/**/*.parquet'`)
    ).getRowObjectsJson();
    expect(Number(count!.n)).toBe(1);
    expect(readdirSync(again).sort()).toEqual(['alarms', 'holds', 'jobs', 'traces']);
    const traces = readdirSync(path.join(again, 'traces'), { recursive: true }).map(String);
    expect(traces.filter((n) => n.endsWith('.parquet'))).toHaveLength(1);
  });
});

it('the traces taken out are the samples through the calibration', async () => {
  for (const m of made) {
    const at = path.join(fleet, 'traces', '**', `${m.run}.parquet`);
    const rows = (await db.runAndReadAll(`SELECT arrival_us, pressure_bar FROM '${at}'`)).getRowObjects();
    expect(rows).toHaveLength(m.samples.length);
    rows.forEach((row, i) => {
      expect(Number(row.arrival_us)).toBe(m.samples[i]!.tUs);
      const { bar } = m.samples[i]!;
      if (bar === null) expect(row.pressure_bar).toBeNull();
      else expect(Number(row.pressure_bar)).toBeCloseTo(bar, 5);
    });
  }
});
