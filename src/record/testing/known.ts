/**
 * What the derived files of runPages() hash to. One constant, asserted in Node and in Chromium: the same bytes
 * wherever they are made, as a verifier in another browser needs it.
 */

import { logFiles, traceFiles } from '../trace-files.ts';
import { join } from './join.ts';
import { runPages, sha256Hex, twoPoint } from './sealing.ts';

export const KNOWN_DERIVED = {
  pages: '7fc98c0e19702a226838efad1442e9341ea7ba96f34626b9eaae17e8e0d5cd18',
  csv: 'cdbb4748d8958a392c05b8add4ea38293ecc2ee30a7ebd0188868f63caa343a2',
  parquet: '03449b4576a8cf84390a7480fa6698c5aedc42f5f5905bac0bcccd8099976eca',
  log: 'e025060d9fcf107abaf00a4ae3cd8516fc181fbf9b2847a19445e306296fa8f2',
  events: 'fed1abd5f5e17b216afde62b0628a992913cdbe6c4edc0c7ce4d8d5a1072ad37',
};

/** Both files of a trace, whole. */
export function traceOf(pages: Uint8Array): { readonly csv: Uint8Array; readonly parquet: Uint8Array } {
  const csv: Uint8Array[] = [];
  const parquet: Uint8Array[] = [];
  const sink = { csv: (p: Uint8Array) => void csv.push(p), parquet: (p: Uint8Array) => void parquet.push(p) };
  const work = traceFiles(pages, twoPoint, { 'steadybar.run': 'run-0001' }, sink);
  while (!work.next().done);
  return { csv: join(csv), parquet: join(parquet) };
}

export async function derivedHashes(): Promise<typeof KNOWN_DERIVED> {
  const pages = runPages();
  const { csv, parquet } = traceOf(pages);
  const { log, events } = logFiles(pages);
  return {
    pages: await sha256Hex(pages),
    csv: await sha256Hex(csv),
    parquet: await sha256Hex(parquet),
    log: await sha256Hex(log),
    events: await sha256Hex(events),
  };
}
