import { readdirSync, statSync } from 'node:fs';
import path from 'node:path';
import { deriving } from '../evidence/deriving.ts';
import { ID } from '../job/id.ts';
import { readAll } from '../record/byte-source.ts';
import { isWhole } from '../record/findings.ts';
import { parseFingerprint } from '../record/fingerprints.ts';
import type { Manifest } from '../record/manifest.ts';
import { FILE } from '../record/members.ts';
import type { RecordCrypto } from '../record/signing.ts';
import { type Verification, verifyBySums } from '../record/verify.ts';
import type { Catalogue, CatalogueOf } from '../words/catalogue.ts';
import { readArguments } from './arguments.ts';
import { fault, shown } from './fault.ts';
import { openSource } from './file-source.ts';
import { alarmRows, holdRows, jobRow } from './fleet.ts';
import { createFleetFolder, type FleetFolder, type FleetRows } from './fleet-layout.ts';
import { pressureOf } from './hold-falls.ts';
import { nodeCrypto } from './node-crypto.ts';

const MOST_BYTES = 1 << 30;

interface Options {
  readonly to: string;
  readonly keys: ReadonlyMap<string, string>;
  readonly from: readonly string[];
}

const OPTIONS = { to: 'value', key: 'values' } as const;

function parseArguments(args: readonly string[], unnamed: string): Options {
  const given = readArguments(args, OPTIONS, 'extract');
  const to = given.value('to');
  if (to === null || given.rest.length === 0) throw fault((_, w) => w.commands.USAGE.extract);
  const keys = new Map<string, string>();
  for (const key of given.values('key')) {
    const [typed = '', name = unnamed] = key.split('=');
    const fingerprint = parseFingerprint(typed);
    if (fingerprint === null) throw fault((f) => f.noFingerprint(shown(typed)));
    keys.set(fingerprint, name);
  }
  return { to, keys, from: given.rest };
}

function filesOf(name: string): readonly string[] {
  try {
    if (!statSync(name).isDirectory()) return [name];
    return readdirSync(name)
      .filter((n) => n.endsWith('.steadybar.zip'))
      .sort()
      .map((n) => path.join(name, n));
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException;
    throw fault((f) => (code === 'ENOENT' ? f.noSuchFileOrFolder(name) : f.unreadable(name, String(code))));
  }
}

interface Taken extends FleetRows {
  readonly additions: number;
}

/** Verifies a file; its trace is given where every byte is as it was signed. */
async function look(
  file: string,
  crypto: RecordCrypto,
  trusted: ReadonlyMap<string, string>,
  catalogueOf: CatalogueOf,
): Promise<{ readonly v: Verification; readonly trace: Uint8Array | null }> {
  const source = openSource(file);
  try {
    const v = await verifyBySums(source, { crypto, trusted }, () => deriving(catalogueOf));
    const there = isWhole(v.verdict) ? v.files.get(FILE.parquet) : undefined;
    return { v, trace: there === undefined ? null : await readAll(there) };
  } finally {
    source.close();
  }
}

/** null: what another hand signed may hold members that no table has a place for. */
async function rowsOf(
  v: Verification,
  manifest: Manifest,
  trace: Uint8Array,
  file: string,
): Promise<FleetRows | null> {
  try {
    const job = jobRow(v, manifest, file);
    return {
      job,
      holds: holdRows(job, manifest, await pressureOf(trace)),
      alarms: alarmRows(job, manifest),
    };
  } catch {
    return null;
  }
}

export interface ExtractOutcome {
  /** 0: every file was taken; 1: some were refused, and named. */
  readonly exitCode: number;
}

/**
 * Takes the traces and tables out of sealed jobs' files. A file whose bytes are not as they were signed gives
 * nothing; one by a key that was not named is taken, its column `signer` empty.
 * @param say each file as it is looked at, a line each, and at last how many there are: a folder of years takes hours
 * @throws InputFault on options and files that can't be used
 */
export async function runExtract(
  args: readonly string[],
  words: Catalogue,
  catalogueOf: CatalogueOf,
  say: (line: string) => void,
): Promise<ExtractOutcome> {
  const { EXTRACT, KEYS } = words.commands;
  const { to, keys, from } = parseArguments(args, KEYS.given);
  const files = from.flatMap(filesOf);
  const folder = createFleetFolder(to);
  try {
    const { taken, refused } = await takeAll(files, keys, words, catalogueOf, folder, say);
    folder.finish(taken);
    say(refused === 0 ? EXTRACT.jobs(taken.length, to) : EXTRACT.jobsRefused(taken.length, to, refused));
    return { exitCode: refused === 0 ? 0 : 1 };
  } finally {
    folder.discard();
  }
}

/** Looks at each file in turn; a trace goes to its place at once, for those of years do not fit into memory. */
async function takeAll(
  files: readonly string[],
  keys: ReadonlyMap<string, string>,
  words: Catalogue,
  catalogueOf: CatalogueOf,
  folder: FleetFolder,
  say: (line: string) => void,
): Promise<{ readonly taken: readonly FleetRows[]; readonly refused: number }> {
  const { EXTRACT } = words.commands;
  const crypto = nodeCrypto();
  const taken = new Map<string, Taken>();
  let refused = 0;
  const refuse = (file: string, why: string): void => {
    refused++;
    say(EXTRACT.refused(file, why));
  };
  for (const file of files) {
    if (statSync(file).size > MOST_BYTES) {
      refuse(file, EXTRACT.tooLarge);
      continue;
    }
    const { v, trace } = await look(file, crypto, keys, catalogueOf);
    const { manifest } = v;
    if (manifest === null || trace === null) {
      refuse(file, v.verdict);
      continue;
    }
    if (!ID.test(manifest.runId)) {
      refuse(file, EXTRACT.badRun);
      continue;
    }
    const before = taken.get(manifest.runId);
    if (before !== undefined && before.job.fingerprint !== v.fingerprint) {
      refuse(file, EXTRACT.otherKey);
      continue;
    }
    // Of two files of one record the one with more signed additions is the later.
    if (before !== undefined && before.additions >= v.additions.length) {
      say(EXTRACT.again(file, manifest.runId));
      continue;
    }
    const rows = await rowsOf(v, manifest, trace, path.basename(file));
    if (rows === null) {
      refuse(file, EXTRACT.cannotBeRead);
      continue;
    }
    folder.trace(rows.job, trace);
    taken.set(manifest.runId, { ...rows, additions: v.additions.length });
    const told = v.signer === null ? EXTRACT.takenUnknown : EXTRACT.taken;
    say(told(file, manifest.runId));
  }
  return { taken: [...taken.values()], refused };
}
