import { sha256 } from '@noble/hashes/sha2.js';
import { PLAIN_WORDING } from '../../src/job/testing/wording.ts';
import { contentOf } from '../../src/record/manifest.ts';
import { scanRun } from '../../src/record/reader.ts';
import { seal } from '../../src/record/seal.ts';
import type { RecordCrypto } from '../../src/record/signing.ts';
import type { FileStore } from '../../src/record/stores/store.ts';
import { HEAD } from '../../src/record/testing/arbitrary.ts';
import { newSigner, RUN_LINE, RUN_SETUP, recordCrypto } from '../../src/record/testing/sealing.ts';
import { openTraceCache, type TraceCache } from '../../src/record/trace-cache.ts';
import type { SeriesKey } from '../../src/record/types.ts';
import { createPageWriter } from '../../src/record/writer.ts';

// Runs in Node and in a worker of Chromium alike: only the store differs.

export interface RecordTimes {
  readonly pagesMb: number;
  /** One page cut, appended and flushed, ms: p50 and p99. */
  readonly page50Hz: readonly [number, number];
  readonly page1kHz: readonly [number, number];
  readonly readMs: number;
  readonly scanMs: number;
  readonly openMs: number;
  readonly zoomMs: readonly [number, number];
  readonly sealMs: number;
  readonly chainMs: number;
  /** Plain SHA-256 over the same bytes, by the same code as the chain, and by the platform. */
  readonly shaMs: number;
  readonly platformShaMs: number;
}

const KEYS: readonly SeriesKey[] = [
  { name: 'bar', place: null, channel: -1 },
  { name: 'temperature', place: 'sleeve', channel: 1 },
  { name: 'temperature', place: 'air', channel: 2 },
];
const HOURS = 12;
const RATE = 50;

const quantiles = (values: number[]): [number, number] => {
  values.sort((a, b) => a - b);
  return [values[Math.floor(values.length / 2)]!, values[Math.floor(values.length * 0.99)]!];
};

async function best(rounds: number, work: () => unknown): Promise<number> {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < rounds; i++) {
    const t = performance.now();
    await work();
    least = Math.min(least, performance.now() - t);
  }
  return least;
}

const sample = (i: number, tUs: number) =>
  ({
    l: 'frame',
    tUs,
    frame: {
      t: 'S',
      seq: i,
      tick: Math.round(tUs / 100) >>> 0,
      counts: [1_000_000 + ((i * 7919) % 977), i % 5 ? null : 300_000 + (i % 100), 200_000],
      status: 4,
    },
  }) as const;

/** Twelve hours at 50 Hz into the store, with side files. */
async function record(store: FileStore): Promise<void> {
  const trace = await store.open('bench.run');
  const files = { buckets: await store.open('bench.pyr'), rows: await store.open('bench.val') };
  const cache = openTraceCache(KEYS, files);
  const writer = createPageWriter(HEAD);
  writer.addEntry({ l: 'frame', tUs: 0, frame: RUN_LINE });
  writer.addEntry({ l: 'setup', tUs: 0, setup: RUN_SETUP });
  const n = HOURS * 3600 * RATE;
  for (let i = 0; i < n; i++) {
    const tUs = Math.round((i * 1e6) / RATE);
    writer.addEntry(sample(i, tUs));
    cache.append(tUs, [1 + Math.sin(i / 9000) / 2, 20 + (i % 700) / 100, 19]);
    if (i % 25 === 24) trace.append(writer.cut(i)!);
    if (i % 2500 === 2499) cache.flush();
  }
  trace.append(writer.finish(0, 'ended'));
  cache.finish();
  for (const file of [trace, files.buckets, files.rows]) {
    file.flush();
    file.close();
  }
}

async function pageCost(store: FileStore, rateHz: number): Promise<[number, number]> {
  const file = await store.open('bench.cost');
  const writer = createPageWriter(HEAD);
  const times: number[] = [];
  let i = 0;
  for (let page = 0; page < 200; page++) {
    for (let k = 0; k < rateHz / 2; k++, i++) writer.addEntry(sample(i, Math.round((i * 1e6) / rateHz)));
    const t = performance.now();
    file.append(writer.cut(page)!);
    file.flush();
    times.push(performance.now() - t);
  }
  file.close();
  await store.remove('bench.cost');
  return quantiles(times);
}

function zooms(cache: TraceCache): [number, number] {
  const span = cache.lastUs! - cache.firstUs!;
  const times: number[] = [];
  for (let k = 0; k < 120; k++) {
    const width = span / 1.08 ** k;
    const from = cache.firstUs! + (span - width) * (((k * 37) % 100) / 100);
    const t = performance.now();
    cache.picture(from, from + width, 1000);
    times.push(performance.now() - t);
  }
  return quantiles(times);
}

export async function measureRecord(
  store: FileStore,
  crypto: RecordCrypto = recordCrypto,
): Promise<RecordTimes> {
  for (const { name } of await store.list()) if (name.startsWith('bench.')) await store.remove(name);
  const page50Hz = await pageCost(store, 50);
  const page1kHz = await pageCost(store, 1000);
  await record(store);
  const buckets = await store.open('bench.pyr');
  const rows = await store.open('bench.val');
  const span = HOURS * 3600e6;
  const openMs = await best(3, () => openTraceCache(KEYS, { buckets, rows }).picture(0, span, 1000));
  const zoomMs = zooms(openTraceCache(KEYS, { buckets, rows }));
  buckets.close();
  rows.close();
  const readMs = await best(3, () => store.readAll('bench.run'));
  const pages = await store.readAll('bench.run');
  const signer = await newSigner();
  const input = { pages, job: null, log: null, sealedUtcMs: 1, software: 'bench', wording: PLAIN_WORDING };
  const times = {
    pagesMb: pages.length / 1e6,
    page50Hz,
    page1kHz,
    readMs,
    scanMs: await best(3, () => scanRun(pages, {}, { chain: false })),
    openMs,
    zoomMs,
    sealMs: await best(3, () => seal(input, signer, crypto)),
    chainMs: await best(3, () => contentOf(pages, crypto.hashing)),
    shaMs: await best(3, () => sha256(pages)),
    platformShaMs: await best(3, () => crypto.sha256(pages)),
  };
  for (const { name } of await store.list()) if (name.startsWith('bench.')) await store.remove(name);
  return times;
}
