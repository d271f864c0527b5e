import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { parse } from 'csv-parse/sync';
import { parquetReadObjects } from 'hyparquet';
import { afterAll, describe, expect, it } from 'vitest';
import { csvRow, csvText } from './csv.ts';
import { frameOfLine, parseEntryLine, parseEventLine } from './entry-text.ts';
import type { LogEntry } from './log.ts';
import { scanRun } from './reader.ts';
import { derivedHashes, inventoryOf, KNOWN_DERIVED, traceOf } from './testing/known.ts';
import { RUN_SETUP, runPages, twoPoint } from './testing/sealing.ts';
import { columnNames } from './trace-csv.ts';
import type { SenseRun } from './trace-rows.ts';

const pages = runPages({ seconds: 30 });
const samples: Extract<LogEntry, { l: 'frame' }>[] = [];
const others: LogEntry[] = [];
scanRun(pages, {
  entry: (e) => (e.l === 'frame' && e.frame.t === 'S' ? samples.push(e) : others.push(e)),
});

/** What a row must hold, from the raw counts through the two-point scale of the test: 1e6 counts a bar. */
const wanted = samples.map(({ tUs, frame }) => {
  if (frame.t !== 'S') throw new Error('no sample');
  const [bar = null, c = null] = frame.counts;
  return {
    time_s: tUs / 1e6,
    pressure_bar: bar === null ? null : bar / 1e6,
    temperature_c_sleeve: c === null ? null : c / 1e4,
    arrival_us: tUs,
    seq: frame.seq,
    tick: frame.tick,
    status: frame.status,
    raw_0: bar,
    raw_1: c,
  };
});

describe('trace as CSV', () => {
  it('read by another library equals the raw counts through the calibration', async () => {
    const { csv } = await traceOf(pages);
    const text = new TextDecoder().decode(csv);
    const rows = parse(text, { columns: true, record_delimiter: '\r\n' }) as Record<string, string>[];
    expect(rows).toHaveLength(samples.length);
    rows.forEach((row, i) => {
      for (const [name, value] of Object.entries(wanted[i]!))
        if (value === null) expect(row[name], `${name} ${i}`).toBe('');
        else expect(Number(row[name]), `${name} ${i}`).toBeCloseTo(value, 9);
    });
    expect(text.startsWith('time_s,pressure_bar,temperature_c_sleeve,')).toBe(true);
    expect(text.split('\r\n').length).toBe(samples.length + 2);
    expect(text.replace(/\r\n/g, '')).not.toContain('\n');
  });

  it('quotes as RFC 4180 does, and lets no text be a formula', () => {
    expect(csvText('a"b')).toBe('"a""b"');
    expect(csvText('a,b\r\nc')).toBe('"a,b\r\nc"');
    for (const bad of ['=1+1', '+1', '-1', '@x', '\tx', '\rx'])
      expect(csvText(bad).replace(/^"/, '')[0]).toBe("'");
    expect(csvRow(['a', 1.5, null, -2])).toBe('a,1.5,,-2\r\n');
    expect(parse(csvRow(['x"y', 'a,b', 'plain\nline']))).toEqual([['x"y', 'a,b', 'plain\nline']]);
  });
});

describe('trace as Parquet', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-parquet-'));
  afterAll(() => rmSync(folder, { recursive: true }));

  it('read by DuckDB equals the raw counts through the calibration', async () => {
    const at = path.join(folder, 'trace.parquet');
    writeFileSync(at, (await traceOf(pages)).parquet);
    const db = await (await DuckDBInstance.create(':memory:')).connect();
    const rows = (await db.runAndReadAll(`select * from '${at}' order by arrival_us`)).getRowObjects();
    expect(rows).toHaveLength(samples.length);
    rows.forEach((row, i) => {
      for (const [name, value] of Object.entries(wanted[i]!))
        if (value === null) expect(row[name], `${name} ${i}`).toBeNull();
        else expect(Number(row[name]), `${name} ${i}`).toBeCloseTo(value, 9);
    });
    const types = (await db.runAndReadAll(`describe select * from '${at}'`)).getRowObjects();
    expect(Object.fromEntries(types.map((t) => [t.column_name, t.column_type]))).toMatchObject({
      time_s: 'DOUBLE',
      pressure_bar: 'DOUBLE',
      flags: 'INTEGER',
      seq: 'BIGINT',
      raw_0: 'INTEGER',
    });
    const facts = (
      await db.runAndReadAll(`select decode(key) k, decode(value) v from parquet_kv_metadata('${at}')`)
    ).getRowObjects();
    expect(facts).toContainEqual({ k: 'steadybar.run', v: 'run-0001' });
    db.closeSync();
  });
});

describe('the log beside the trace', () => {
  it('holds the head, every other entry in order, and every event', async () => {
    const inventory = await inventoryOf(pages);
    const lines = new TextDecoder().decode(inventory.logFile()).trimEnd().split('\n');
    expect(JSON.parse(lines[0]!)).toMatchObject({ format: 1, runId: 'run-0001' });
    const read = lines.slice(1).map((l) => parseEntryLine(l)!);
    expect(read.map((p) => p.entry)).toEqual(others);
    // The number of samples before each puts the log together again.
    const again: LogEntry[] = [];
    let n = 0;
    for (const { samplesBefore, entry } of read) {
      while (n < samplesBefore) again.push(samples[n++]!);
      if (entry.l !== 'raw') again.push(entry);
    }
    again.push(...samples.slice(n));
    const all: LogEntry[] = [];
    scanRun(pages, { entry: (e) => all.push(e) });
    expect(again).toEqual(all);
    const events = new TextDecoder().decode(inventory.eventsFile());
    expect(events.trimEnd().split('\n').map(parseEventLine)).toEqual(inventory.events);
    expect(inventory.events).toHaveLength(30);
  });

  it('refuses lines that are no entries', () => {
    for (const bad of [
      '',
      '[]',
      '{}',
      '[0,1,"frame","S,1"]',
      '[0,-1,"notice",{"n":"end"}]',
      '[0,1,"notice",{}]',
      '[0,1,"stray","odd","00"]',
      '[0,1,"stray","crc","0"]',
      '[0,1,"setup",{"number":1}]',
      '[0,1,"other",1]',
      '[0,1,"notice",{"n":"end"},1]',
    ])
      expect(parseEntryLine(bad), bad).toBeNull();
    expect(frameOfLine('R,1,ok,,00000000')).toBeNull();
    expect(parseEventLine('{"e":"note"}')).toBeNull();
  });
});

it('the trace of pages that were found sound is the same', async () => {
  expect(await traceOf(pages, true)).toEqual(await traceOf(pages));
});

it('the derived files are the known bytes (asserted in Chromium too)', async () => {
  expect(await derivedHashes()).toEqual(KNOWN_DERIVED);
});

describe('columns', () => {
  it('come from setups and frames: a place names its column once, others go by channel', async () => {
    expect((await inventoryOf(pages)).shape()).toEqual({
      channels: 2,
      samples: 1500,
      firstSampleUs: 0,
      seconds: [],
      temperatures: [{ channel: 1, name: 'temperature_c_sleeve' }],
    });
    expect((await inventoryOf(new Uint8Array(5))).shape()).toEqual({
      channels: 0,
      seconds: [],
      temperatures: [],
      firstSampleUs: null,
      samples: 0,
    });
  });

  it('a second pressure has its own, beside the pressure and its uncertainty, whichever channel reads it', async () => {
    const outlet = { ...RUN_SETUP.channels[0]!, role: 'outlet-pressure' as const, place: null };
    const two = runPages({ seconds: 2, setup: { ...RUN_SETUP, channels: [outlet] } });
    const shape = (await inventoryOf(two)).shape();
    expect(shape.seconds).toEqual(['outlet-pressure']);
    expect(columnNames(shape).slice(0, 5)).toEqual([
      'time_s',
      'pressure_bar',
      'pressure_outlet_bar',
      'pressure_u_bar',
      'pressure_outlet_u_bar',
    ]);
    const sense: SenseRun = (head, events) => {
      const plain = twoPoint(head, events);
      return (entry) => {
        const reading = plain(entry);
        const bar = entry.l === 'frame' && entry.frame.t === 'S' && entry.frame.seq % 2 === 0 ? 1.75 : null;
        const second = {
          channel: 1,
          role: 'outlet-pressure',
          bar,
          uBar: 0.02,
          flags: 0,
          stepBar: 0.001,
        } as const;
        return reading === null ? null : { ...reading, second };
      };
    };
    const { csv, parquet } = await traceOf(two, false, sense);
    const rows = parse(new TextDecoder().decode(csv), { columns: true }) as Record<string, string>[];
    expect(rows.length).toBe(100);
    for (const row of rows) {
      const even = Number(row.seq) % 2 === 0;
      expect([row.pressure_outlet_bar, row.pressure_outlet_u_bar]).toEqual(
        even ? ['1.75', '0.02'] : ['', ''],
      );
    }
    const same = await parquetReadObjects({ file: parquet.slice().buffer });
    expect(same.map((r) => [r.pressure_outlet_bar ?? null, r.pressure_outlet_u_bar ?? null])).toEqual(
      rows.map((r) => (Number(r.seq) % 2 === 0 ? [1.75, 0.02] : [null, null])),
    );
  });
});
