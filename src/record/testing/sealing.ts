/** A run, a key and a sense for tests of the sealed record. */

import type { Setup } from '../../job/setup.ts';
import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import type { ChannelFrame } from '../../link/frames.ts';
import { ENGINE } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { bytesSource } from '../byte-source.ts';
import { joinBytes } from '../bytes.ts';
import type { CheckWordsOf } from '../check-text.ts';
import { toHex } from '../hex.ts';
import { buildJobFile, type ExtraFiles } from '../job-file.ts';
import type { Judge } from '../judgement.ts';
import type { LogEntry, LogHead } from '../log.ts';
import { readRun } from '../reader.ts';
import { type Sealed, seal } from '../seal.ts';
import { createRecordCrypto, fingerprintOf, type Signer, signerOf } from '../signing.ts';
import type { SenseRun } from '../trace-rows.ts';
import { createPageWriter } from '../writer.ts';
import { HEAD, plainSamples, SETUP } from './arbitrary.ts';

export const subtle = globalThis.crypto.subtle;
export const recordCrypto = createRecordCrypto(subtle);

export async function newSigner(): Promise<Signer> {
  const pair = (await subtle.generateKey('Ed25519', false, ['sign', 'verify'])) as CryptoKeyPair;
  const publicKey = new Uint8Array(await subtle.exportKey('raw', pair.publicKey));
  const fingerprint = await fingerprintOf(recordCrypto, publicKey);
  return signerOf(subtle, pair.privateKey, { publicKey, fingerprint, sinceUtcMs: 1, previous: null });
}

/** A plain two-point scale: 1 000 000 counts a bar, 10 000 counts a °C, so that the outcome is told by hand. */
export const twoPoint: SenseRun = () => (entry) => {
  if (entry.l !== 'frame' || entry.frame.t !== 'S') return null;
  const [bar = null, c = null] = entry.frame.counts;
  return {
    tUs: entry.tUs,
    tS: entry.tUs / 1e6,
    seq: entry.frame.seq,
    bar: bar === null ? null : bar / 1e6,
    uBar: 0.01,
    flags: 0,
    stepBar: 1e-6,
    temps: [{ channel: 1, place: 'sleeve', c: c === null ? null : c / 1e4, uC: 1, flags: 0 }],
    status: entry.frame.status,
  };
};

export const RUN_SETUP: Setup = {
  ...SETUP,
  channels: [
    {
      index: 1,
      role: 'temperature',
      place: 'sleeve',
      signal: 'digital',
      thermocouple: null,
      thermocoupleClass: null,
      gaugeKind: null,
      partner: null,
      bits: 16,
      rawLo: 0,
      rawHi: 1,
      elLo: 0,
      elHi: 1,
      spanElLo: 0,
      spanElHi: 1,
      rangeLo: 0,
      rangeHi: 100,
      calibration: null,
      uSensor: 1,
    },
  ],
};

/** What the device says of the channel of RUN_SETUP. */
export const RUN_LINE: ChannelFrame = {
  t: 'C',
  index: 1,
  quantity: 'temp',
  place: 'sleeve',
  signal: 'digital',
  partner: null,
  bits: 16,
  rawLo: 0,
  rawHi: 1,
  elLo: 0,
  elHi: 1,
  rangeLo: 0,
  rangeHi: 100_000,
  rateMilliHz: 1000,
};

export interface RunOptions {
  readonly head?: Partial<LogHead>;
  readonly seconds?: number;
  readonly setup?: Setup;
  readonly end?: 'ended' | 'interrupted' | null;
  /** What the device says of its channels before the Setup. */
  readonly lines?: readonly ChannelFrame[];
  readonly extra?: readonly LogEntry[];
  /** Exchanges a sample for another. */
  readonly change?: (entry: LogEntry, i: number) => LogEntry;
}

/** Of an engine whose judgements no other one makes again: the events of these runs are invented. */
export const OTHER_ENGINE = { head: { engine: ENGINE + 1 } } as const;

/** A run's file: 50 Hz, a page each half second, an event a second, a few entries of other kinds. */
export function runPages(options: RunOptions = {}): Uint8Array {
  const writer = createPageWriter({ ...HEAD, ...options.head });
  const chunks: Uint8Array[] = [];
  for (const frame of options.lines ?? [RUN_LINE]) writer.addEntry({ l: 'frame', tUs: 0, frame });
  writer.addEntry({ l: 'setup', tUs: 0, setup: options.setup ?? RUN_SETUP });
  plainSamples((options.seconds ?? 20) * 50, 50).forEach((plain, i) => {
    const entry = options.change?.(plain, i) ?? plain;
    writer.addEntry(entry);
    if (i % 50 === 10) {
      writer.addEvent({ tUs: entry.tUs, e: 'note', text: `second ${(i / 50) | 0}, "ä" = 1` });
      writer.addEntry({ l: 'command', tUs: entry.tUs, command: { c: 'note', text: '=1+1' } });
      writer.addEntry({ l: 'stray', tUs: entry.tUs, reason: 'garbage', bytes: Uint8Array.of(1, 2, i & 255) });
    }
    if (i % 25 === 24) chunks.push(writer.cut(HEAD.utcMs! + entry.tUs / 1000)!);
  });
  for (const entry of options.extra ?? []) writer.addEntry(entry);
  const end = options.end === undefined ? 'ended' : options.end;
  const last = end === null ? writer.cut(null) : writer.finish(HEAD.utcMs! + 60_000, end);
  if (last !== null) chunks.push(last);
  return joinBytes(chunks);
}

export const JOB = { schema: 'steadybar-job/1', jobId: 'job-7', job: { name: 'Repair "A", =1', rated: 1.5 } };

export async function sealRun(pages: Uint8Array, signer: Signer): Promise<Sealed> {
  const input = { pages, job: JOB, log: null, sealedUtcMs: 2e12, software: 'test 2', wording: PLAIN_WORDING };
  const result = await seal(input, signer, recordCrypto);
  if (!result.ok) throw new Error(result.refusal);
  return result.sealed;
}

/** Texts of no language: the record's part of CHECK.txt is its commands. */
export const checkWords: CheckWordsOf = async () => ({
  title: 'CHECK',
  intro: (runId) => `Run ${runId}.`,
  practice: 'A practice record.',
  manifest: 'Manifest',
  key: 'Key',
  names: 'Named',
  pages: 'Pages',
  files: 'Files',
  others: 'Others',
  additions: 'Additions',
  additionNames: 'Named',
  witness: 'Witness',
  witnessKeys: 'Keys of witnesses',
  shows: 'Shown',
});

/** A stand-in for files that other rooms derive: its bytes follow from the record alone. */
export const paper: ExtraFiles = async ({ manifest, manifestSha256 }) => [
  { name: 'paper.html', bytes: new TextEncoder().encode(`<p>${manifest.runId} ${manifestSha256}</p>`) },
];

/** A stand-in for the engine: it judges as the pages say that one did. */
export const asRecorded: Judge = {
  engine: HEAD.engine,
  async run(source) {
    const events: WatchEvent[] = [];
    await readRun(source, { event: (event) => void events.push(event) });
    return { events, apart: [] };
  },
};

/** Keeps the pieces of a job's file. */
export const inMemory = (piece: Uint8Array): Uint8Array => piece.slice();

export async function jobFile(
  pages: Uint8Array,
  sealed: Sealed,
  signer: Signer | null,
  extras?: ExtraFiles,
): Promise<Uint8Array> {
  const input = {
    pages: bytesSource(pages),
    sealed,
    sense: twoPoint,
    words: checkWords,
    signer,
    ...(extras === undefined ? {} : { extras }),
  };
  return joinBytes(await buildJobFile(input, recordCrypto, inMemory));
}

export const sha256Hex = async (bytes: Uint8Array): Promise<string> =>
  toHex(await recordCrypto.sha256(bytes));
