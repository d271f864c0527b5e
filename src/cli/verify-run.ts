import { readFileSync, statSync } from 'node:fs';
import { deriving } from '../evidence/deriving.ts';
import type { Progress } from '../record/derived-files.ts';
import { EXIT_CODE } from '../record/findings.ts';
import { fingerprintOf, keyOfPem, parseFingerprint, type RecordCrypto } from '../record/signing.ts';
import { type Verification, verifyBySums, verifyJobFile } from '../record/verify.ts';
import { fault, shown } from './fault.ts';
import { openSource } from './file-source.ts';
import { nodeCrypto } from './node-crypto.ts';
import { verifyText } from './verify-text.ts';

export const USAGE =
  'usage: verify FILE [--key FINGERPRINT|KEY.pem[=NAME]]… [--keys LIST] [--quick] [--json]';

/** A record has no more bytes than a zip of its form can have. */
const MOST_BYTES = 0xffff_ffff;

export interface VerifyOutcome {
  readonly exitCode: number;
  readonly text: string;
}

interface Options {
  readonly file: string;
  readonly keys: readonly string[];
  readonly lists: readonly string[];
  readonly quick: boolean;
  readonly json: boolean;
}

function parseArguments(args: readonly string[]): Options {
  const files: string[] = [];
  const keys: string[] = [];
  const lists: string[] = [];
  let quick = false;
  let json = false;
  for (let i = 0; i < args.length; i++) {
    const arg = args[i]!;
    if (arg === '--quick') quick = true;
    else if (arg === '--json') json = true;
    else if (arg === '--key' || arg === '--keys') {
      const value = args[++i];
      if (value === undefined || value === '') throw fault(`${arg} needs a value; ${USAGE}`);
      (arg === '--key' ? keys : lists).push(value);
    } else if (arg.startsWith('--')) throw fault(`unknown option ${shown(arg)}; ${USAGE}`);
    else files.push(arg);
  }
  const [file] = files;
  if (file === undefined || files.length > 1) throw fault(`one FILE, please; ${USAGE}`);
  return { file, keys, lists, quick, json };
}

function reading<T>(name: string, most: number, read: () => T): T {
  try {
    const stat = statSync(name);
    if (!stat.isFile()) throw fault(`${name}: not a file`);
    if (stat.size > most) throw fault(`${name}: ${stat.size} bytes are more than ${most}`);
    return read();
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException;
    if (code === undefined) throw cause;
    throw fault(`${name}: ${code === 'ENOENT' ? 'no such file' : `cannot be read (${code})`}`);
  }
}

const readText = (name: string): string => reading(name, 1 << 20, () => readFileSync(name, 'utf8'));

/** The fingerprint that --key names: itself, or that of a PEM file. */
async function keyNamed(crypto: RecordCrypto, text: string): Promise<[string, string]> {
  const cut = text.lastIndexOf('=');
  const [what, name] = cut > 0 ? [text.slice(0, cut), text.slice(cut + 1)] : [text, 'given key'];
  const typed = parseFingerprint(what);
  if (typed !== null) return [typed, name];
  const key = keyOfPem(readText(what));
  if (key === null)
    throw fault(`--key ${shown(what)}: neither a fingerprint nor a file with an Ed25519 public key`);
  return [await fingerprintOf(crypto, key), name];
}

/** Lines of a list: a fingerprint, then whose it is. Lines that are empty or begin with # are left out. */
function keysListed(list: string): [string, string][] {
  return readText(list)
    .split(/\r?\n/)
    .flatMap((line, i): [string, string][] => {
      if (/^\s*(#|$)/.test(line)) return [];
      const m = /^\s*((?:[0-9A-Fa-f]{4}[\s:-]?){16})\s*(.*)$/.exec(line);
      const fingerprint = m === null ? null : parseFingerprint(m[1]!);
      if (fingerprint === null) throw fault(`--keys ${list} row ${i + 1}: no fingerprint`);
      return [[fingerprint, m![2]!.trim() || 'listed key']];
    });
}

/** What --json prints: everything but the bytes. */
const plain = (v: Verification): unknown => ({
  schema: 'steadybar-verification/1',
  verdict: v.verdict,
  findings: v.findings,
  remarks: v.remarks,
  fingerprint: v.fingerprint,
  signer: v.signer,
  additions: v.additions,
  manifest: v.manifest,
});

/**
 * Runs the command.
 * @param progress told the share done, 0…1, while files are made again
 * @throws InputFault on options and files that can't be used
 */
export async function runVerify(args: readonly string[], progress?: Progress): Promise<VerifyOutcome> {
  const options = parseArguments(args);
  const crypto = nodeCrypto();
  const trusted = new Map<string, string>();
  for (const list of options.lists) for (const [f, name] of keysListed(list)) trusted.set(f, name);
  for (const key of options.keys) trusted.set(...(await keyNamed(crypto, key)));
  const file = reading(options.file, MOST_BYTES, () => openSource(options.file));
  try {
    const how = { crypto, trusted, ...(progress === undefined ? {} : { progress }) };
    const v = options.quick
      ? await verifyBySums(file, how, deriving)
      : await verifyJobFile(file, { ...how, ...deriving() });
    const text = options.json ? `${JSON.stringify(plain(v), null, 2)}\n` : verifyText(v);
    return { exitCode: EXIT_CODE[v.verdict], text };
  } finally {
    file.close();
  }
}
