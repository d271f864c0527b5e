import path from 'node:path';
import { type Deriving, deriving } from '../evidence/deriving.ts';
import { inPieces } from '../evidence/pieces/in-pieces.ts';
import { type ByteSource, partOf } from '../record/byte-source.ts';
import type { Progress } from '../record/derived-files.ts';
import { EXIT_CODE } from '../record/findings.ts';
import { parseFingerprint } from '../record/fingerprints.ts';
import { ALWAYS, type KeyTerm, keyTermIn } from '../record/key-terms.ts';
import { recordInPacket } from '../record/packet-in.ts';
import { reservationsOf } from '../record/reservations.ts';
import { fingerprintOf, keyOfPem, type RecordCrypto } from '../record/signing.ts';
import { type Verification, type VerifyOptions, verifyBySums, verifyJobFile } from '../record/verify.ts';
import type { Catalogue, CatalogueOf } from '../words/catalogue.ts';
import { readArguments } from './arguments.ts';
import { fault, shown } from './fault.ts';
import { openSource } from './file-source.ts';
import { readFileNamed, usedFile } from './files.ts';
import { nodeCrypto } from './node-crypto.ts';
import { openPiecePool } from './piece-pool.ts';
import { verifyText } from './verify-text.ts';

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

const OPTIONS = { key: 'values', keys: 'values', quick: 'flag', json: 'flag' } as const;

function parseArguments(args: readonly string[]): Options {
  const given = readArguments(args, OPTIONS, 'verify');
  const [file] = given.rest;
  if (file === undefined || given.rest.length > 1) throw fault((f, w) => f.oneFile(w.commands.USAGE.verify));
  return {
    file,
    keys: given.values('key'),
    lists: given.values('keys'),
    quick: given.flag('quick'),
    json: given.flag('json'),
  };
}

const readText = (name: string): string => new TextDecoder().decode(readFileNamed(name, name, 1 << 20));

/** The fingerprint that --key names: itself, or that of a PEM file. */
async function keyNamed(crypto: RecordCrypto, text: string, unnamed: string): Promise<[string, string]> {
  const cut = text.lastIndexOf('=');
  const [what, name] = cut > 0 ? [text.slice(0, cut), text.slice(cut + 1)] : [text, unnamed];
  const typed = parseFingerprint(what);
  if (typed !== null) return [typed, name];
  const key = keyOfPem(readText(what));
  if (key === null) throw fault((f) => f.noKey(shown(what)));
  return [await fingerprintOf(crypto, key), name];
}

interface ListedKey {
  readonly fingerprint: string;
  readonly name: string;
  readonly term: KeyTerm;
}

const TERMS = { from: 'fromUtcMs', until: 'untilUtcMs', revoked: 'revokedUtcMs' } as const;

/** `from=2026-01-01 until=… revoked=… NAME`: the times, and what is left; null for a time that is none. */
function termOf(text: string): { readonly term: KeyTerm; readonly name: string } | null {
  const given: Partial<Record<keyof KeyTerm, number>> = {};
  let rest = text;
  for (;;) {
    const m = /^(from|until|revoked)=(\S*)\s*/.exec(rest);
    if (m === null) break;
    given[TERMS[m[1] as keyof typeof TERMS]] = Date.parse(m[2]!);
    rest = rest.slice(m[0].length);
  }
  const term = keyTermIn({ ...ALWAYS, ...given });
  return term === null ? null : { term, name: rest.trim() };
}

/**
 * Lines of a list: a fingerprint, for which times it counts where that is not all, then whose it is. Lines that are
 * empty or begin with # are left out.
 */
function keysListed(list: string, unnamed: string): ListedKey[] {
  return readText(list)
    .split(/\r?\n/)
    .flatMap((line, i): ListedKey[] => {
      if (/^\s*(#|$)/.test(line)) return [];
      const m = /^\s*((?:[0-9A-Fa-f]{4}[\s:-]?){16})\s*(.*)$/.exec(line);
      const fingerprint = m === null ? null : parseFingerprint(m[1]!);
      if (fingerprint === null) throw fault((f) => f.noFingerprintInRow(list, i + 1));
      const read = termOf(m![2]!);
      if (read === null) throw fault((f) => f.noTermInRow(list, i + 1));
      return [{ fingerprint, name: read.name || unnamed, term: read.term }];
    });
}

/** What --json prints: everything but the bytes. */
const plain = (v: Verification) => ({
  schema: 'steadybar-verification/1',
  verdict: v.verdict,
  reserved: reservationsOf(v.verdict, v.remarks),
  findings: v.findings,
  remarks: v.remarks,
  fingerprint: v.fingerprint,
  signer: v.signer,
  additions: v.additions,
  manifest: v.manifest,
});

/** Everything made again and judged again, by as many threads as there are cores where the run is long enough for pieces. */
async function wholeInPieces(
  name: string,
  file: ByteSource,
  made: Deriving,
  how: Omit<VerifyOptions, 'sense' | 'judge'>,
): Promise<Verification> {
  const pool = openPiecePool();
  const there = inPieces({
    file: name,
    source: file,
    pool,
    least: 2,
    ...made.elsewhere,
    progress: (share) => void how.progress?.(share),
  });
  try {
    return await verifyJobFile(file, { ...how, ...made, judge: { ...made.judge, elsewhere: () => there } });
  } finally {
    pool.stop();
  }
}

/**
 * Runs the command.
 * @param words what the answer is told in
 * @param catalogueOf words in the language of a record
 * @param progress told the share done, 0…1, while files are made again
 * @throws InputFault on options and files that can't be used
 */
export async function runVerify(
  args: readonly string[],
  words: Catalogue,
  catalogueOf: CatalogueOf,
  progress?: Progress,
): Promise<VerifyOutcome> {
  const options = parseArguments(args);
  const crypto = nodeCrypto();
  const { KEYS } = words.commands;
  const trusted = new Map<string, string>();
  const terms = new Map<string, KeyTerm>();
  for (const list of options.lists)
    for (const { fingerprint, name, term } of keysListed(list, KEYS.listed)) {
      trusted.set(fingerprint, name);
      terms.set(fingerprint, term);
    }
  for (const key of options.keys) trusted.set(...(await keyNamed(crypto, key, KEYS.given)));
  const file = usedFile(options.file, options.file, MOST_BYTES, openSource);
  try {
    const how = { crypto, trusted, terms, ...(progress === undefined ? {} : { progress }) };
    const inner = await recordInPacket(file);
    const record = inner === null ? file : partOf(file, inner.start, inner.size);
    const v = options.quick
      ? await verifyBySums(record, how, () => deriving(catalogueOf))
      : inner === null
        ? await wholeInPieces(options.file, file, deriving(catalogueOf), how)
        : // Threads read a file from its beginning: what lies within another is gone through in one.
          await verifyJobFile(record, { ...how, ...deriving(catalogueOf) });
    const inPacket = inner?.name ?? null;
    const packet =
      inPacket && words.evidence.EVIDENCE.inPacket(shown(path.basename(options.file)), shown(inPacket));
    const text = options.json
      ? `${JSON.stringify({ ...plain(v), inPacket }, null, 2)}\n`
      : `${verifyText(v, words)}${packet === null ? '' : `${packet}\n`}`;
    return { exitCode: EXIT_CODE[v.verdict], text };
  } finally {
    file.close();
  }
}
