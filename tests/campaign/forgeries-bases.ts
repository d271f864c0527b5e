/** The sealed records that forgers start from, and who signed them. */
import { readFileSync } from 'node:fs';
import { nodeCrypto } from '../../src/cli/node-crypto.ts';
import { deriving } from '../../src/evidence/deriving.ts';
import { judge } from '../../src/evidence/judge.ts';
import { PLAIN_WORDING } from '../../src/job/testing/wording.ts';
import { bytesSource } from '../../src/record/byte-source.ts';
import { joinBytes } from '../../src/record/bytes.ts';
import { buildJobFile } from '../../src/record/job-file.ts';
import { addToSealed, type Sealed, seal } from '../../src/record/seal.ts';
import { fingerprintOf, type RecordCrypto, type Signer, signerOf } from '../../src/record/signing.ts';
import { HEAD, plainSamples } from '../../src/record/testing/arbitrary.ts';
import { inMemory, RUN_LINE, RUN_SETUP } from '../../src/record/testing/sealing.ts';
import { createPageWriter } from '../../src/record/writer.ts';
import { ENGINE } from '../../src/watch/codes.ts';
import type { WatchEvent } from '../../src/watch/events.ts';
import { loadCatalogue } from '../../src/words/catalogue.ts';

export interface Base {
  readonly name: string;
  readonly file: Uint8Array;
  /** Keys that are known to whoever verifies. */
  readonly trusted: ReadonlyMap<string, string>;
}

export interface Forging {
  readonly crypto: RecordCrypto;
  /** The key that the verifier knows: a forger who has it is found by what does not follow. */
  readonly known: Signer;
  /** A key of the forger's own. */
  readonly stranger: Signer;
  readonly small: Base;
  /** The sealed job of fixtures/records. */
  readonly whole: Base;
}

/** Ed25519 from a seed of 32 equal bytes (RFC 8410): the same in every process, so that a mutant is found again by its seed. */
async function fixedSigner(crypto: RecordCrypto, byte: number): Promise<Signer> {
  const { subtle } = globalThis.crypto;
  const prefix = [
    0x30, 0x2e, 0x02, 0x01, 0x00, 0x30, 0x05, 0x06, 0x03, 0x2b, 0x65, 0x70, 0x04, 0x22, 0x04, 0x20,
  ];
  const pkcs8 = Uint8Array.from([...prefix, ...new Array<number>(32).fill(byte)]);
  const key = await subtle.importKey('pkcs8', pkcs8, 'Ed25519', true, ['sign']);
  const { x } = (await subtle.exportKey('jwk', key)) as { x: string };
  const publicKey = new Uint8Array(Buffer.from(x, 'base64url'));
  const fingerprint = await fingerprintOf(crypto, publicKey);
  return signerOf(subtle, key, { publicKey, fingerprint, sinceUtcMs: 1, previous: null });
}

/** A run of two seconds with the events that the engine makes of it, judged as any record is. */
async function judgedPages(): Promise<Uint8Array> {
  const write = (events: readonly WatchEvent[]): Uint8Array => {
    const writer = createPageWriter({ ...HEAD, engine: ENGINE, practice: false });
    const chunks: Uint8Array[] = [];
    writer.addEntry({ l: 'frame', tUs: 0, frame: RUN_LINE });
    writer.addEntry({ l: 'setup', tUs: 0, setup: RUN_SETUP });
    plainSamples(100, 50).forEach((entry, i) => {
      writer.addEntry(entry);
      if (i === 40) writer.addEntry({ l: 'command', tUs: entry.tUs, command: { c: 'note', text: 'a note' } });
      if (i === 60)
        writer.addEntry({ l: 'stray', tUs: entry.tUs, reason: 'garbage', bytes: Uint8Array.of(1, 2) });
      if (i % 25 === 24) chunks.push(writer.cut(HEAD.utcMs! + entry.tUs / 1000)!);
    });
    for (const event of events) writer.addEvent(event);
    chunks.push(writer.finish(HEAD.utcMs! + 3000, 'ended'));
    return joinBytes(chunks);
  };
  return write((await judge.run(bytesSource(write([])), () => undefined)).events);
}

/** The file of a sealed record, with sums of the key that is given. */
export async function fileOf(crypto: RecordCrypto, pages: Uint8Array, sealed: Sealed, signer: Signer) {
  const { sense, words, extras } = deriving(loadCatalogue);
  const input = { pages: bytesSource(pages), sealed, sense, words, extras, signer };
  return joinBytes(await buildJobFile(input, crypto, inMemory));
}

export async function sealedBy(
  crypto: RecordCrypto,
  pages: Uint8Array,
  signer: Signer,
  job: unknown = null,
): Promise<Sealed | null> {
  const facts = {
    pages,
    job,
    log: null,
    sealedUtcMs: HEAD.utcMs! + 9000,
    software: 'test',
    wording: PLAIN_WORDING,
  };
  const result = await seal(facts, signer, crypto);
  return result.ok ? result.sealed : null;
}

const listed = (text: string): Map<string, string> =>
  new Map(
    text
      .split('\n')
      .filter((l) => /^[0-9a-f]{64} /.test(l))
      .map((l) => [l.slice(0, 64), l.slice(65)]),
  );

export async function prepare(): Promise<Forging> {
  const crypto = nodeCrypto();
  const [known, stranger] = [await fixedSigner(crypto, 7), await fixedSigner(crypto, 9)];
  const pages = await judgedPages();
  let sealed = await sealedBy(crypto, pages, known, { title: 'A repair' });
  if (sealed === null) throw new Error('the base can’t be sealed');
  const utcMs = HEAD.utcMs! + 20_000;
  for (const text of ['first', 'second'])
    sealed = await addToSealed(sealed, { kind: 'note', body: { text, by: 'x' }, utcMs }, known, crypto);
  return {
    crypto,
    known,
    stranger,
    small: {
      name: 'small',
      file: await fileOf(crypto, pages, sealed, known),
      trusted: new Map([[known.fingerprint, 'known']]),
    },
    whole: {
      name: 'whole',
      file: new Uint8Array(readFileSync('fixtures/records/sealed.steadybar.zip')),
      trusted: listed(readFileSync('fixtures/records/keys.txt', 'utf8')),
    },
  };
}
