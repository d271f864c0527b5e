/** A job's file of twelve hours: built, and verified to the last byte. */
import { execFileSync } from 'node:child_process';
import { readFileSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { nodeCrypto } from '../../src/cli/node-crypto.ts';
import { PLAIN_WORDING } from '../../src/job/testing/wording.ts';
import { toHex } from '../../src/record/hex.ts';
import { runFileNames } from '../../src/record/recovery.ts';
import { seal } from '../../src/record/seal.ts';
import { fingerprintOf, signerOf } from '../../src/record/signing.ts';
import { JOB } from '../../src/record/testing/sealing.ts';
import type { Cost, SealedRun } from './job-file.child.ts';
import type { Row } from './measure.ts';

const GOAL_CPU_S = 8;
const GOAL_MB = 250;

/** Seals a run that lies in the folder. @returns the name of the file that says so */
async function sealIn(folder: string, runId: string): Promise<string> {
  const crypto = nodeCrypto();
  const { subtle } = globalThis.crypto;
  const pair = (await subtle.generateKey('Ed25519', true, ['sign', 'verify'])) as CryptoKeyPair;
  const publicKey = new Uint8Array(await subtle.exportKey('raw', pair.publicKey));
  const fingerprint = await fingerprintOf(crypto, publicKey);
  const signer = signerOf(subtle, pair.privateKey, { publicKey, fingerprint, sinceUtcMs: 1, previous: null });
  const pages = path.join(folder, runFileNames(runId).pages);
  const result = await seal(
    {
      pages: readFileSync(pages),
      job: JOB,
      log: null,
      sealedUtcMs: 1_760_050_000_000,
      software: 'bench',
      wording: PLAIN_WORDING,
    },
    signer,
    crypto,
  );
  if (!result.ok) throw new Error(`not sealed: ${result.refusal}`);
  const { manifest, signature } = result.sealed;
  const sealed: SealedRun = {
    pages,
    manifest: toHex(manifest),
    signature: toHex(signature),
    publicKey: toHex(publicKey),
    privateKey: toHex(new Uint8Array(await subtle.exportKey('pkcs8', pair.privateKey))),
  };
  const name = path.join(folder, `${runId}.sealed.json`);
  writeFileSync(name, JSON.stringify(sealed));
  return name;
}

function child(...args: string[]): Cost {
  const script = path.join(import.meta.dirname, 'job-file.child.ts');
  const out = execFileSync(process.execPath, ['--import', 'tsx', script, ...args], { encoding: 'utf8' });
  return JSON.parse(out) as Cost;
}

/** Where the file stands afterwards. */
export const jobFileIn = (folder: string): string => path.join(folder, 'bench.steadybar.zip');

/** @param runId of a run that lies in the folder and is no practice run */
export async function benchJobFile(folder: string, runId: string): Promise<Row[]> {
  const sealed = await sealIn(folder, runId);
  const file = jobFileIn(folder);
  const built = child('build', sealed, file);
  const verified = child('verify', file);
  if (verified.verdict !== 'unknown-signer') throw new Error(`the file is ${verified.verdict}`);
  const fileMb = (statSync(file).size / 1e6).toFixed(0);
  const row = (what: string, { cpuS, wallS, peakMb, bareMb }: Cost): Row => ({
    what: `job file of 12 h at 50 Hz ${what}`,
    value: `${cpuS.toFixed(1)} s CPU, ${peakMb.toFixed(0)} MB`,
    beside: `goal ${GOAL_CPU_S} s, ${GOAL_MB} MB; ${fileMb} MB file, ${wallS.toFixed(1)} s by the clock, ${bareMb.toFixed(0)} MB before the work`,
    met: cpuS <= GOAL_CPU_S && peakMb <= GOAL_MB,
  });
  return [row('built', built), row('verified', verified)];
}
