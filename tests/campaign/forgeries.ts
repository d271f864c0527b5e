/**
 * Forged records through the verifier: files that an accident, somebody without a key, or somebody with one could make.
 * What is asked of each: no fault thrown, no valid verdict for what the key did not sign, and an end in time.
 */
import { deriving } from '../../src/evidence/deriving.ts';
import { bytesSource } from '../../src/record/byte-source.ts';
import { joinBytes } from '../../src/record/bytes.ts';
import { type Json, parseCanonical } from '../../src/record/canonical.ts';
import { crc32 } from '../../src/record/crc.ts';
import { VERDICTS, type Verdict } from '../../src/record/findings.ts';
import { toHex } from '../../src/record/hex.ts';
import { pemOf, type Signer } from '../../src/record/signing.ts';
import { SMALL_ORDER_HEX } from '../../src/record/small-order.ts';
import { unzip, type ZipMember } from '../../src/record/testing/zips.ts';
import { verifyBySums, verifyJobFile } from '../../src/record/verify.ts';
import { centralHeader, endRecord, LOCAL_BYTES, localHeader } from '../../src/record/zip-form.ts';
import { readZip } from '../../src/record/zip-reader.ts';
import { loadCatalogue } from '../../src/words/catalogue.ts';
import { type Base, type Forging, fileOf, sealedBy } from './forgeries-bases.ts';
import { changeBytes, changeField, createDraw, type Draw } from './forgeries-draw.ts';
import { changeJson, jsonBytes } from './forgeries-json.ts';
import { changePages, mendPages } from './forgeries-pages.ts';

export const KINDS = [
  'bytes', // an accident, anywhere in the file
  'headers', // fields of the container
  'members', // taken out, put in, exchanged, renamed; the container sound
  'content', // bytes of a member; the container sound
  'json', // manifest or additions; the container sound
  'pages', // the run's file, CRCs and chain made anew; the container sound
  'signatures', // exchanged, blanked, of other keys
  'stranger', // manifest or pages changed and signed by a key that is not known
  'known', // manifest changed and signed by the key that is known
  'sealed', // pages changed and sealed anew by the key that is known
  'events', // judgements changed and sealed anew by the key that is known
] as const;
export type Kind = (typeof KINDS)[number];

/** Somebody with the key may sign other words for the same readings; a verifier can't know. */
const MAY_BE_VALID: ReadonlySet<Kind> = new Set(['known', 'sealed']);
/** Of these the first look sees all that was changed. */
const SEEN_FIRST: ReadonlySet<Kind> = new Set(['json', 'pages', 'stranger']);
export const MOST_MS = 10_000;

export interface Fault {
  readonly seed: number;
  readonly kind: Kind;
  readonly base: string;
  readonly what: string;
}

export interface Tally {
  readonly made: Record<Kind, number>;
  readonly verdicts: Record<Verdict, number>;
  /** Mutants that came out as the file they were made of. */
  same: number;
  /** Time of a processor, ms. */
  longestMs: number;
  longestSeed: number;
  readonly faults: Fault[];
}

export const emptyTally = (): Tally => ({
  made: Object.fromEntries(KINDS.map((k) => [k, 0])) as Tally['made'],
  verdicts: Object.fromEntries(VERDICTS.map((v) => [v, 0])) as Tally['verdicts'],
  same: 0,
  longestMs: 0,
  longestSeed: 0,
  faults: [],
});

type Members = Map<string, Uint8Array>;

/** A zip of our form by somebody who keeps none of its rules: names twice, or of other letters. */
function zipBytes(members: readonly ZipMember[]): Uint8Array {
  const ascii = new TextEncoder();
  const local: Uint8Array[] = [];
  const central: Uint8Array[] = [];
  let at = 0;
  for (const { name, bytes } of members) {
    const crc = crc32(bytes);
    central.push(centralHeader(ascii.encode(name), crc, bytes.length, at));
    local.push(localHeader(ascii.encode(name), crc, bytes.length), bytes);
    at += LOCAL_BYTES + name.length + bytes.length;
  }
  const size = central.reduce((sum, c) => sum + c.length, 0);
  return joinBytes([...local, ...central, endRecord(members.length, size, at)]);
}

const pack = (members: Members): Uint8Array =>
  zipBytes([...members].map(([name, bytes]): ZipMember => ({ name, bytes })));

async function changeHeaders(d: Draw, file: Uint8Array): Promise<Uint8Array> {
  const out = file.slice();
  const { entries } = await readZip(bytesSource(file));
  const last = entries.at(-1)!;
  const places = [...entries.map((e) => e.offset), last.start + last.size + d.below(200)];
  const at = d.pick(places);
  for (let n = d.below(3); n >= 0; n--) {
    const offset = at + d.below(LOCAL_BYTES + 12);
    if (offset + 8 <= out.length) changeField(d, new DataView(out.buffer), offset, d.pick([1, 2, 4]));
  }
  return out;
}

function changeMembers(d: Draw, members: Members): Uint8Array {
  const list: ZipMember[] = [...members].map(([name, bytes]) => ({ name, bytes }));
  const at = d.below(list.length);
  const { name, bytes } = list[at]!;
  switch (d.below(5)) {
    case 0:
      list.splice(at, 1);
      break;
    case 1:
      list.splice(d.below(list.length), 0, {
        name: d.pick(['x.txt', 'additions/0003.json', 'a/b.c', 'certificate-2.html']),
        bytes,
      });
      break;
    case 2:
      list[at] = { name: d.pick(['other.txt', 'MANIFEST.JSON', 'pages.BIN', 'additions/0009.sig']), bytes };
      break;
    case 3: {
      const other = d.below(list.length);
      list[at] = { name, bytes: list[other]!.bytes };
      break;
    }
    default: {
      const [taken] = list.splice(at, 1);
      list.splice(d.below(list.length + 1), 0, taken!);
    }
  }
  return zipBytes(list);
}

/** The manifest, or an addition. */
function changeText(d: Draw, members: Members): void {
  const name = d.pick(['manifest.json', 'manifest.json', 'additions/0001.json', 'additions/0002.json']);
  const value = parseCanonical(members.get(name) ?? new Uint8Array(0)) ?? {};
  members.set(name, jsonBytes(d, changeJson(d, value as Json)));
}

async function signedManifest(d: Draw, members: Members, signer: Signer): Promise<void> {
  const value = (parseCanonical(members.get('manifest.json')!) ?? {}) as Record<string, Json>;
  const changed = changeJson(d, value) as Record<string, Json> | null;
  const mine = { algorithm: 'Ed25519', publicKey: toHex(signer.publicKey), fingerprint: signer.fingerprint };
  if (typeof changed === 'object' && changed !== null && !Array.isArray(changed) && d.below(4) > 0)
    changed.signer = { ...(value.signer as object), ...mine };
  const manifest = jsonBytes(d, changed);
  members.set('manifest.json', manifest);
  members.set('manifest.sig', await signer.sign(manifest));
  members.set('signer.pem', new TextEncoder().encode(pemOf(signer.publicKey)));
  for (const name of [...members.keys()])
    if (name.startsWith('additions/') || (d.below(2) === 0 && name.startsWith('SHA256SUMS')))
      members.delete(name);
}

function changeSignatures(d: Draw, members: Members): void {
  const names = [...members.keys()].filter((n) => n.endsWith('.sig') || n.endsWith('.pem'));
  const name = d.pick(names);
  const other = members.get(d.pick(names))!;
  switch (d.below(4)) {
    case 0:
      members.set(name, other);
      break;
    case 1:
      members.set(name, new Uint8Array(d.pick([0, 1, 63, 64, 65])));
      break;
    case 2: {
      const low = Uint8Array.from(d.pick(SMALL_ORDER_HEX).match(/../g)!, (pair) => Number.parseInt(pair, 16));
      const value = parseCanonical(members.get('manifest.json')!) as { signer: Record<string, Json> };
      const text = JSON.stringify(value).replaceAll(value.signer.publicKey as string, toHex(low));
      members.set('manifest.json', new TextEncoder().encode(text));
      members.set('manifest.sig', Uint8Array.from([...low, ...new Uint8Array(32)]));
      members.set('signer.pem', new TextEncoder().encode(pemOf(low)));
      break;
    }
    default:
      members.set(name, changeBytes(d, members.get(name)!));
  }
}

/** One event's number or text made another; null where there is none to change. */
function changeEvent(d: Draw, pages: Uint8Array): Uint8Array | null {
  const text = Buffer.from(pages).toString('latin1');
  const places = [...text.matchAll(/\{"tUs":\d+,"e":"[^\n]*/g)].flatMap((m) =>
    [...m[0].matchAll(/\d/g)].map((digit) => m.index + digit.index),
  );
  if (places.length === 0) return null;
  const out = pages.slice();
  const at = d.pick(places);
  out[at] = 0x30 + ((out[at]! - 0x30 + 1 + d.below(8)) % 10);
  return out;
}

async function sealedAnew(
  f: Forging,
  pages: Uint8Array,
  signer: Signer,
  members: Members,
): Promise<Uint8Array> {
  const sealed = await sealedBy(f.crypto, pages, signer).catch(() => null);
  if (sealed !== null) {
    const built = await fileOf(f.crypto, pages, sealed, signer).catch(() => null);
    if (built !== null) return built;
    members.set('manifest.json', sealed.manifest).set('manifest.sig', sealed.signature);
  }
  return pack(members.set('pages.bin', pages));
}

async function forge(f: Forging, base: Base, kind: Kind, d: Draw): Promise<Uint8Array | null> {
  const { file } = base;
  const members: Members = new Map((await unzip(file)).members.map((m) => [m.name, m.bytes.slice()]));
  const pages = members.get('pages.bin')!;
  switch (kind) {
    case 'bytes': {
      let out = changeBytes(d, file);
      for (let n = d.below(3); n > 0; n--) if (out.length > 0) out = changeBytes(d, out);
      return out;
    }
    case 'headers':
      return changeHeaders(d, file);
    case 'members':
      return changeMembers(d, members);
    case 'content': {
      const name = d.pick([...members.keys()]);
      return pack(members.set(name, changeBytes(d, members.get(name)!)));
    }
    case 'json':
      changeText(d, members);
      return pack(members);
    case 'pages':
      return pack(members.set('pages.bin', changePages(d, pages, d.below(2) === 0)));
    case 'signatures':
      changeSignatures(d, members);
      return pack(members);
    case 'stranger':
      if (d.below(2) === 0) return sealedAnew(f, changePages(d, pages, true), f.stranger, members);
      await signedManifest(d, members, f.stranger);
      return pack(members);
    case 'known':
      await signedManifest(d, members, f.known);
      return pack(members);
    case 'sealed':
      return sealedAnew(f, changePages(d, pages, true), f.known, members);
    case 'events': {
      const changed = changeEvent(d, pages);
      return changed === null ? null : sealedAnew(f, mendPages(changed), f.known, members);
    }
    default:
      return kind satisfies never;
  }
}

const same = (a: Uint8Array, b: Uint8Array): boolean => a.length === b.length && Buffer.compare(a, b) === 0;

/** Makes the mutant of one seed and verifies it. */
export async function workForgery(f: Forging, seed: number, tally: Tally, wholeToo: boolean): Promise<void> {
  const d = createDraw(seed);
  const base = wholeToo && d.below(50) === 0 ? f.whole : f.small;
  const kind = d.pick(KINDS);
  const fault = (what: string): void => void tally.faults.push({ seed, kind, base: base.name, what });
  const file = await forge(f, base, kind, d);
  if (file === null || same(file, base.file)) {
    tally.same++;
    return;
  }
  tally.made[kind]++;
  const trusted = new Map([...base.trusted, [f.known.fingerprint, 'known']]);
  const options = { crypto: f.crypto, trusted };
  const source = bytesSource(file);
  // Of this process: what else the machine does is no fault of a file.
  const began = process.cpuUsage();
  try {
    const v =
      // Most by the signed sums, as an archive is checked: what is derived again is the same work each time.
      d.below(4) > 0 && kind !== 'events'
        ? await verifyBySums(source, options, () => deriving(loadCatalogue))
        : await verifyJobFile(source, { ...options, ...deriving(loadCatalogue) });
    tally.verdicts[v.verdict]++;
    // Who has the key can damage a page before he seals it: nothing is derived again then, which is the verdict.
    const isTaken = v.verdict === 'valid' || (v.verdict === 'not-derived' && kind !== 'events');
    if (isTaken && !MAY_BE_VALID.has(kind)) fault(`a verdict that is ${v.verdict}`);
    const first = await verifyJobFile(source, { ...options, sense: null, judge: null, firstOnly: true });
    if (first.verdict === 'valid' && SEEN_FIRST.has(kind)) fault('valid at the first look');
  } catch (cause) {
    fault(`thrown: ${String(cause)}`);
  }
  const { user, system } = process.cpuUsage(began);
  const ms = (user + system) / 1000;
  if (ms > tally.longestMs) {
    tally.longestMs = ms;
    tally.longestSeed = seed;
  }
  if (ms > MOST_MS) fault(`${Math.round(ms)} ms of a processor`);
}
