import { mkdirSync, readdirSync, renameSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { deriving } from '../evidence/deriving.ts';
import { ID } from '../job/id.ts';
import { readAll } from '../record/byte-source.ts';
import type { Manifest } from '../record/manifest.ts';
import { FILE } from '../record/members.ts';
import { parseFingerprint, type RecordCrypto } from '../record/signing.ts';
import { type Verification, verifyBySums } from '../record/verify.ts';
import type { Catalogue, CatalogueOf } from '../words/catalogue.ts';
import { readArguments } from './arguments.ts';
import { fault, shown } from './fault.ts';
import { openSource } from './file-source.ts';
import {
  ALARM_COLUMNS,
  alarmRows,
  type Columns,
  HOLD_COLUMNS,
  holdRows,
  JOB_COLUMNS,
  jobRow,
  type Row,
  tableBytes,
} from './fleet.ts';
import { nodeCrypto } from './node-crypto.ts';

const MOST_BYTES = 1 << 30;

export interface ExtractOutcome {
  /** 0: every file was taken; 1: some were refused, and named. */
  readonly exitCode: number;
  readonly text: string;
}

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

/** Whole or not there: a table that is being asked for meanwhile is the old one or the new one. */
function writeWhole(name: string, bytes: Uint8Array): void {
  writeFileSync(`${name}.part`, bytes);
  renameSync(`${name}.part`, name);
}

interface Taken {
  readonly row: Row;
  readonly holds: readonly Row[];
  readonly alarms: readonly Row[];
  readonly trace: Uint8Array;
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
    const whole = v.verdict === 'valid' || v.verdict === 'unknown-signer';
    const there = whole ? v.files.get(FILE.parquet) : undefined;
    return { v, trace: there === undefined ? null : await readAll(there) };
  } finally {
    source.close();
  }
}

/** null: what another hand signed may hold members that no table has a place for. */
function rowsOf(
  v: Verification,
  manifest: Manifest,
  file: string,
): Pick<Taken, 'row' | 'holds' | 'alarms'> | null {
  try {
    return { row: jobRow(v, manifest, file), holds: holdRows(manifest), alarms: alarmRows(manifest) };
  } catch {
    return null;
  }
}

/**
 * Takes the traces and tables out of sealed jobs' files. A file whose bytes are not as they were signed gives
 * nothing; one by a key that was not named is taken, its column `signer` empty.
 * @throws InputFault on options and files that can't be used
 */
export async function runExtract(
  args: readonly string[],
  words: Catalogue,
  catalogueOf: CatalogueOf,
): Promise<ExtractOutcome> {
  const { EXTRACT, KEYS } = words.commands;
  const { to, keys, from } = parseArguments(args, KEYS.given);
  const crypto = nodeCrypto();
  const taken = new Map<string, Taken>();
  const lines: string[] = [];
  let refused = 0;
  const refuse = (file: string, why: string): void => {
    refused++;
    lines.push(EXTRACT.refused(file, why));
  };
  for (const file of from.flatMap(filesOf)) {
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
    if (before !== undefined && before.row.fingerprint !== v.fingerprint) {
      refuse(file, EXTRACT.otherKey);
      continue;
    }
    // Of two files of one record the one with more signed additions is the later.
    if (before !== undefined && before.additions >= v.additions.length) {
      lines.push(EXTRACT.again(file, manifest.runId));
      continue;
    }
    const rows = rowsOf(v, manifest, path.basename(file));
    if (rows === null) {
      refuse(file, EXTRACT.cannotBeRead);
      continue;
    }
    taken.set(manifest.runId, { ...rows, trace, additions: v.additions.length });
    const told = v.signer === null ? EXTRACT.takenUnknown : EXTRACT.taken;
    lines.push(told(file, manifest.runId));
  }
  mkdirSync(path.join(to, 'traces'), { recursive: true });
  const all = [...taken.values()];
  for (const [run, { trace }] of taken) writeWhole(path.join(to, 'traces', `${run}.parquet`), trace);
  const table = (name: string, columns: Columns, rows: readonly Row[]): void =>
    writeWhole(path.join(to, `${name}.parquet`), tableBytes(columns, rows));
  table(
    'jobs',
    JOB_COLUMNS,
    all.map((t) => t.row),
  );
  table(
    'holds',
    HOLD_COLUMNS,
    all.flatMap((t) => t.holds),
  );
  table(
    'alarms',
    ALARM_COLUMNS,
    all.flatMap((t) => t.alarms),
  );
  lines.push(refused === 0 ? EXTRACT.jobs(taken.size, to) : EXTRACT.jobsRefused(taken.size, to, refused));
  return { exitCode: refused === 0 ? 0 : 1, text: `${lines.join('\n')}\n` };
}
