import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import fc from 'fast-check';
import { parquetReadObjects } from 'hyparquet';
import { afterAll, expect, it } from 'vitest';
import { joinBytes } from './bytes.ts';
import { columnNames } from './trace-csv.ts';
import { TraceParquet } from './trace-parquet.ts';
import { BATCH_ROWS, type RowBatch, type RowShape } from './trace-rows.ts';

// Two readers by other hands, and batches such as no run gives: every row comes back as it was.

const SHAPE: RowShape = {
  channels: 2,
  seconds: [],
  temperatures: [{ channel: 1, name: 'temperature_c_pipe' }],
  firstSampleUs: 0,
  samples: 0,
};
const NAMES = columnNames(SHAPE);

type Row = readonly (number | null)[];

/** Rows in the order of the columns, measured values as whole numbers of their last decimal. */
function batchOf(rows: readonly Row[]): RowBatch {
  const column = (c: number): number[] => rows.map((r) => r[c] ?? Number.NaN);
  return {
    n: rows.length,
    sinceUs: Float64Array.from(column(0)),
    bar: Float64Array.from(column(1)),
    seconds: [],
    temperatures: [Float64Array.from(column(2))],
    uBar: Float64Array.from(column(3)),
    flags: Int32Array.from(rows, (r) => r[4] ?? -1),
    arrivalUs: Float64Array.from(column(5)),
    seq: Uint32Array.from(column(6)),
    tick: Uint32Array.from(column(7)),
    status: Int32Array.from(column(8)),
    raw: [Int32Array.from(rows, (r) => r[9] ?? 0), Int32Array.from(rows, (r) => r[10] ?? 0)],
    missing: Uint8Array.from(rows, (r) => (r[9] === null ? 1 : 0) | (r[10] === null ? 2 : 0)),
  };
}

const UNITS: readonly (number | null)[] = [1e6, 1e6, 1e4, 1e6, null, null, null, null, null, null, null];
const wanted = (rows: readonly Row[]): Row[] =>
  rows.map((r) => r.map((v, c) => (v === null || UNITS[c] == null ? v : v / UNITS[c]! + 0)));

function written(batches: readonly (readonly Row[])[]): Uint8Array {
  const parquet = new TraceParquet(SHAPE, { 'steadybar.run': 'r' });
  return joinBytes([...batches.map((rows) => parquet.rows(batchOf(rows)).slice()), parquet.finish().slice()]);
}

const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-parquet-'));
afterAll(() => rmSync(folder, { recursive: true }));
const duck = DuckDBInstance.create(':memory:').then((db) => db.connect());

async function byDuckDb(file: Uint8Array): Promise<Row[]> {
  const at = path.join(folder, 'a.parquet');
  writeFileSync(at, file);
  const rows = (await (await duck).runAndReadAll(`select * from '${at}'`)).getRowObjects();
  return rows.map((r) => NAMES.map((name) => (r[name] === null ? null : Number(r[name]))));
}

async function byLibrary(file: Uint8Array): Promise<Row[]> {
  const rows = await parquetReadObjects({ file: file.slice().buffer });
  return rows.map((r) => NAMES.map((name) => (r[name] == null ? null : Number(r[name]))));
}

async function comesBack(batches: readonly (readonly Row[])[]): Promise<void> {
  const file = written(batches);
  const rows = wanted(batches.flat());
  expect(await byDuckDb(file)).toEqual(rows);
  expect(await byLibrary(file)).toEqual(rows);
}

/** A column that stands, climbs, or leaps about, with holes or none. */
const walk = (least: number, most: number, holes: boolean): fc.Arbitrary<(number | null)[]> =>
  fc
    .record({
      start: fc.integer({ min: least, max: most }),
      steps: fc.array(
        fc.oneof(
          { weight: 3, arbitrary: fc.constant(0) },
          { weight: 2, arbitrary: fc.integer({ min: -9, max: 9 }) },
          { weight: 1, arbitrary: fc.integer({ min: least, max: most }) },
        ),
        { minLength: 1, maxLength: 12 },
      ),
      repeat: fc.integer({ min: 1, max: 40 }),
      hole: holes ? fc.option(fc.integer({ min: 1, max: 9 })) : fc.constant(null),
    })
    .map(({ start, steps, repeat, hole }) => {
      let v = start;
      return Array.from({ length: steps.length * repeat }, (_, i) => {
        v = Math.max(least, Math.min(most, v + steps[Math.floor(i / repeat)]!));
        return hole !== null && i % hole === 0 ? null : v;
      });
    });

const U32 = 2 ** 32 - 1;
const I32 = 2 ** 31 - 1;
const COLUMNS = [
  walk(0, 2 ** 42, false),
  walk(-1e9, 1e12, true),
  walk(-1e8, 1e8, true),
  walk(0, 1e7, true),
  walk(0, 0xffff, true),
  walk(0, 2 ** 51, false),
  walk(0, U32, false),
  walk(0, U32, false),
  walk(0, 0xffff, false),
  walk(-I32 - 1, I32, true),
  walk(-I32 - 1, I32, true),
] as const;

it('any batches come back (property)', async () => {
  const batch = fc
    .tuple(...COLUMNS)
    .map((columns) =>
      Array.from({ length: Math.max(...columns.map((c) => c.length)) }, (_, i) =>
        columns.map((c) => c[i % c.length]!),
      ),
    );
  await fc.assert(fc.asyncProperty(fc.array(batch, { minLength: 1, maxLength: 3 }), comesBack), {
    seed: 1986,
    numRuns: 60,
  });
});

it('whole batches come back, with few values, with many, and with none at all', async () => {
  const rows = (value: (i: number) => number | null): Row[] =>
    Array.from({ length: BATCH_ROWS }, (_, i) => [
      i * 20_000,
      value(i),
      value(i >> 5),
      value(i >> 9),
      i % 3 === 0 ? null : 0,
      3e9 + i * 20_000,
      i,
      U32 - i,
      0,
      value(i),
      i % 7 === 0 ? i : null,
    ]);
  await comesBack([rows((i) => i), rows(() => null), rows((i) => (i * 7919) % 977)]);
});

it('bounds let a reader leave out the batches of other times', async () => {
  const at = path.join(folder, 'bounds.parquet');
  const batch = (from: number): Row[] =>
    [0, 1, 2].map((i) => [(from + i) * 1e6, 1, 1, 1, 0, i, i, i, 0, 1, 1]);
  writeFileSync(at, written([batch(0), batch(10)]));
  const found = (
    await (
      await duck
    ).runAndReadAll(
      `select stats_min_value lo, stats_max_value hi from parquet_metadata('${at}') where path_in_schema = 'time_s'`,
    )
  ).getRowObjects();
  expect(found.map((f) => [Number(f.lo), Number(f.hi)])).toEqual([
    [-0, 2],
    [10, 12],
  ]);
});
