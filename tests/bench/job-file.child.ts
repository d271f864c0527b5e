/**
 * One job's file built, or one verified, in a process of its own, so that its CPU time and its peak of memory are of
 * this alone. Arguments: `build SEALED FILE` or `verify FILE`. Prints what it cost as JSON.
 */
import { closeSync, openSync, readFileSync, readSync, rmSync, writeSync } from 'node:fs';
import { openSource } from '../../src/cli/file-source.ts';
import { nodeCrypto } from '../../src/cli/node-crypto.ts';
import { deriving } from '../../src/evidence/deriving.ts';
import { PLAIN_WORDING } from '../../src/job/testing/wording.ts';
import { fromHex } from '../../src/record/hex.ts';
import { buildJobFile } from '../../src/record/job-file.ts';
import { fingerprintOf, signerOf } from '../../src/record/signing.ts';
import { verifyJobFile } from '../../src/record/verify.ts';
import { loadCatalogue } from '../../src/words/catalogue.ts';
import { cpuMs, now } from './measure.ts';

/** A sealed run and its key, as the bench hands them on: bytes as hex. */
export interface SealedRun {
  readonly pages: string;
  readonly manifest: string;
  readonly signature: string;
  readonly publicKey: string;
  /** PKCS #8; made for the bench and gone with it. */
  readonly privateKey: string;
}

export interface Cost {
  readonly cpuS: number;
  readonly wallS: number;
  /** Resident set at its largest, and before the work began: the runtime and the program's own code. */
  readonly peakMb: number;
  readonly bareMb: number;
  readonly verdict?: string;
}

const bytes = (hex: string): Uint8Array<ArrayBuffer> => new Uint8Array(fromHex(hex)!);

/** Pieces rest in a file until they are put together, as a browser keeps its Blobs. */
async function build(sealedName: string, to: string): Promise<void> {
  const given = JSON.parse(readFileSync(sealedName, 'utf8')) as SealedRun;
  const crypto = nodeCrypto();
  const publicKey = bytes(given.publicKey);
  const { subtle } = globalThis.crypto;
  const key = await subtle.importKey('pkcs8', bytes(given.privateKey), 'Ed25519', false, ['sign']);
  const fingerprint = await fingerprintOf(crypto, publicKey);
  const signer = signerOf(subtle, key, { publicKey, fingerprint, sinceUtcMs: 1, previous: null });
  const sealed = {
    manifest: bytes(given.manifest),
    signature: bytes(given.signature),
    additions: [],
    proof: [],
  };
  const pages = openSource(given.pages);
  const scratch = openSync(`${to}.part`, 'w+');
  let end = 0;
  const keep = (piece: Uint8Array): { at: number; length: number } => {
    const at = end;
    end += writeSync(scratch, piece);
    return { at, length: piece.length };
  };
  const { sense, words, extras } = deriving(loadCatalogue);
  const pieces = await buildJobFile({ pages, sealed, sense, words, extras, signer }, crypto, keep);
  const out = openSync(to, 'w');
  let room = new Uint8Array(1 << 20);
  for (const { at, length } of pieces) {
    if (room.length < length) room = new Uint8Array(length);
    readSync(scratch, room, 0, length, at);
    writeSync(out, room, 0, length);
  }
  closeSync(out);
  closeSync(scratch);
  rmSync(`${to}.part`);
  pages.close();
}

async function verify(name: string): Promise<string> {
  const file = openSource(name);
  const trusted = new Map<string, string>();
  const { verdict } = await verifyJobFile(file, {
    crypto: nodeCrypto(),
    trusted,
    ...deriving(loadCatalogue),
  });
  file.close();
  return verdict;
}

// The words are code like the rest: loaded before the work begins, as the page and the commands have them.
await loadCatalogue(PLAIN_WORDING);
const [what, first, second] = process.argv.slice(2);
const bareMb = process.memoryUsage().rss / 1e6;
const [cpu, wall] = [cpuMs(), now()];
const verdict = what === 'build' ? void (await build(first!, second!)) : await verify(first!);
const cost: Cost = {
  cpuS: (cpuMs() - cpu) / 1000,
  wallS: (now() - wall) / 1000,
  peakMb: process.resourceUsage().maxRSS / 1000,
  bareMb,
  ...(verdict === undefined ? {} : { verdict }),
};
console.log(JSON.stringify(cost));
