/**
 * What the derived files of runPages() hash to. One constant, asserted in Node and in Chromium: the same bytes
 * wherever they are made, as a verifier in another browser needs it.
 */
import { bytesSource } from '../byte-source.ts';
import { joinBytes } from '../bytes.ts';
import { deriveTrace, Inventory } from '../derived-files.ts';
import { FILE } from '../members.ts';
import { readRun } from '../reader.ts';
import type { SenseRun } from '../trace-rows.ts';
import { runPages, sha256Hex, twoPoint } from './sealing.ts';

export const KNOWN_DERIVED = {
  pages: 'c21b0c332692b28cd2362c498b1d653b875a2b420b040c31e6fa67ff6e9a90da',
  csv: 'cdbb4748d8958a392c05b8add4ea38293ecc2ee30a7ebd0188868f63caa343a2',
  parquet: '17f67e7921ca7cf70f24f562b42499d8ccaa33894a24709ddad463dba1e51b30',
  log: '8fb53992e29fc92ef894e7339e3ab2d5ca8009bab458588d59e6eaab2a2fd7a0',
  events: 'fed1abd5f5e17b216afde62b0628a992913cdbe6c4edc0c7ce4d8d5a1072ad37',
};

/** Both files of a trace, whole. @param sound the pages are taken as checked */
export async function traceOf(
  pages: Uint8Array,
  sound = false,
  sense: SenseRun = twoPoint,
): Promise<{ readonly csv: Uint8Array; readonly parquet: Uint8Array }> {
  const pieces: Record<string, Uint8Array[]> = { [FILE.csv]: [], [FILE.parquet]: [] };
  const source = bytesSource(pages);
  const inventory = await inventoryOf(pages);
  inventory.sound = sound;
  await deriveTrace(source, inventory, sense, { 'steadybar.run': 'run-0001' }, (file, piece) => {
    pieces[file]!.push(piece.slice());
  });
  return { csv: joinBytes(pieces[FILE.csv]!), parquet: joinBytes(pieces[FILE.parquet]!) };
}

export async function inventoryOf(pages: Uint8Array): Promise<Inventory> {
  const inventory = new Inventory();
  await readRun(bytesSource(pages), inventory, { chain: false });
  return inventory;
}

export async function derivedHashes(): Promise<typeof KNOWN_DERIVED> {
  const pages = runPages();
  const { csv, parquet } = await traceOf(pages);
  const inventory = await inventoryOf(pages);
  return {
    pages: await sha256Hex(pages),
    csv: await sha256Hex(csv),
    parquet: await sha256Hex(parquet),
    log: await sha256Hex(inventory.logFile()),
    events: await sha256Hex(inventory.eventsFile()),
  };
}
