/**
 * The manifest: what is signed. Everything in it but the job's papers, the dates and the signer follows from the
 * pages, so that a verifier can make it again and compare.
 */

import { parseReadingMap } from '../job/documents.ts';
import { type Enclosed, enclosedIn } from '../job/enclosed.ts';
import type { ReadingMap } from '../job/reading-map.ts';
import type { Setup } from '../job/setup.ts';
import type { Wording } from '../job/wording.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { ByteSource } from './byte-source.ts';
import { canonicalText, type Json, parseCanonical, toJson } from './canonical.ts';
import { isEngine } from './entry-text.ts';
import type { Sha256 } from './hashing.ts';
import { toHex } from './hex.ts';
import type { LogHead } from './log.ts';
import type { Page } from './page.ts';
import { type RunScan, type RunVisitor, readRun, scanRun } from './reader.ts';
import { ALGORITHM, type PreviousKey, type Signer } from './signing.ts';
import type { PageDamage, RunEnd } from './types.ts';
import { isUtcMs } from './utc.ts';

export const RECORD_SCHEMA = 'steadybar-record/2';
/** Of a run on the practice rig: the same form under another name, so that whoever asks for a job's record refuses it. */
export const PRACTICE_SCHEMA = 'steadybar-practice/1';
/** A day of alarms and checkpoints has a hundredth of it; what claims more is not read into memory. */
export const MAX_MANIFEST_BYTES = 16 << 20;
/** A page hash is noted every so many pages, so that pages made anew can be narrowed down to a span. */
export const CHECKPOINT_PAGES = 600;

export interface Checkpoint {
  readonly page: number;
  readonly tUs: number;
  /** SHA-256 of that page, hex: it stands for all pages up to it. */
  readonly sha256: string;
}

/** The part of the manifest that follows from the pages. */
export interface Content {
  readonly runId: string;
  readonly jobId: string | null;
  readonly practice: boolean;
  /** Whether the crew ended the run, or it was found open and closed. */
  readonly end: RunEnd | null;
  /** Times at which the run was taken up again, µs on the run clock. */
  readonly resumedUs: readonly number[];
  readonly openedUtcMs: number | null;
  readonly endedUtcMs: number | null;
  readonly engine: number;
  /** The program that recorded the run. */
  readonly software: string;
  /** SHA-256 of the last checkpoint that a witness had signed when it was opened, as its first page has it; null: none. */
  readonly seen: string | null;
  readonly pages: {
    readonly count: number;
    readonly bytes: number;
    readonly samples: number;
    readonly firstUs: number | null;
    readonly firstSampleUs: number | null;
    readonly lastUs: number;
    /** SHA-256 of the last page: the head of the chain, hex. */
    readonly chainHead: string;
    readonly checkpoints: readonly Checkpoint[];
    readonly damage: readonly PageDamage[];
  };
  readonly setups: readonly { readonly tUs: number; readonly setup: Setup }[];
  readonly events: readonly WatchEvent[];
  /** Maps by which a source that does not speak the protocol was read; left out: none was. */
  readonly maps?: readonly ReadingMap[];
  /** Second adapters that the temperatures came from, beside the pressure; left out: there was none. */
  readonly beside?: readonly SecondSource[];
}

export interface SecondSource {
  readonly deviceId: string;
  /** By which it was read; null: it speaks the protocol. */
  readonly map: ReadingMap | null;
}

export interface LogName {
  readonly origin: string;
  readonly publicKey: string;
}

export interface Manifest extends Content {
  readonly schema: typeof RECORD_SCHEMA | typeof PRACTICE_SCHEMA;
  /** SHA-256 of all page bytes, hex: what sha256sum says of pages.bin. */
  readonly pagesSha256: string;
  readonly sealedUtcMs: number;
  /** The program that sealed the record. */
  readonly sealedBy: string;
  /** The job with its packer, resin, sensors and calibrations as they were when it was sealed; null: no job. */
  readonly job: Json;
  /** Photographs, by the hashes of their files, and signatures by hand that were there when it was sealed; left out: none were. */
  readonly enclosed?: Enclosed;
  /** The witness log in which it is noted, by its name and its key (32 bytes, hex); null: in none. */
  readonly log: LogName | null;
  /** Where the app was served that sealed it, for whoever wants to verify it there; null: not told. */
  readonly page: string | null;
  /** In which certificate and CHECK.txt are written, so that whoever verifies the record makes the same. */
  readonly wording: Wording;
  readonly signer: {
    readonly algorithm: typeof ALGORITHM;
    /** 32 bytes, hex. */
    readonly publicKey: string;
    readonly fingerprint: string;
    readonly sinceUtcMs: number;
    readonly previous: PreviousKey | null;
  };
}

export interface ReadContent {
  readonly content: Content;
  readonly scan: RunScan;
  readonly head: LogHead;
}

/** What a scan has to gather for the content. */
class Gathered implements RunVisitor {
  readonly setups: { tUs: number; setup: Setup }[] = [];
  readonly events: WatchEvent[] = [];
  readonly checkpoints: Checkpoint[] = [];
  readonly resumedUs: number[] = [];
  /** By their text: a map says hello at each connection. */
  readonly maps = new Map<string, ReadingMap>();
  readonly beside = new Map<string, SecondSource>();
  /** The practice rig had its say in it. */
  rig = false;

  constructor(private readonly also: RunVisitor) {}

  page(page: Page, hash: Uint8Array): void {
    const { index, lastUs } = page.header;
    if (index % CHECKPOINT_PAGES === 0)
      this.checkpoints.push({ page: index, tUs: lastUs, sha256: toHex(hash) });
    for (const { entry } of page.placed) {
      if (entry.l === 'setup') this.setups.push({ tUs: entry.tUs, setup: entry.setup });
      if (entry.l === 'notice' && entry.notice.n === 'gap' && entry.notice.reason === 'resumed')
        this.resumedUs.push(entry.tUs);
      if (entry.l === 'notice' && entry.notice.n === 'rig') this.rig = true;
      if (entry.l === 'frame' && entry.map !== undefined) this.maps.set(JSON.stringify(entry.map), entry.map);
      if (entry.l === 'beside' && entry.frame.t === 'H') {
        const source = { deviceId: entry.frame.deviceId, map: entry.map ?? null };
        this.beside.set(JSON.stringify(source), source);
      }
    }
    for (const event of page.events) this.events.push(event);
    this.also.page?.(page, hash);
  }
}

/** Reads the pages once, chain and all. null: no first page stands. */
export function contentOf(pages: Uint8Array, sha256?: Sha256): ReadContent | null {
  const gathered = new Gathered({});
  return contentFrom(gathered, scanRun(pages, gathered, sha256 === undefined ? {} : { sha256 }));
}

/**
 * The same of pages that do not stand in memory.
 * @param also is handed every page
 * @param tap is given every chunk as it was read
 */
export async function readContent(
  pages: ByteSource,
  sha256: Sha256,
  also: Pick<RunVisitor, 'page'> = {},
  tap?: (chunk: Uint8Array) => void,
): Promise<ReadContent | null> {
  const gathered = new Gathered(also);
  return contentFrom(gathered, await readRun(pages, gathered, { sha256 }, tap));
}

function contentFrom(gathered: Gathered, scan: RunScan): ReadContent | null {
  const { setups, events, checkpoints, resumedUs, maps, beside } = gathered;
  const { head } = scan;
  if (head === null) return null;
  const content: Content = {
    runId: head.runId,
    jobId: head.jobId,
    practice: head.practice || gathered.rig || setups.some((s) => s.setup.practice === true),
    end: scan.end,
    resumedUs,
    openedUtcMs: head.utcMs,
    endedUtcMs: scan.lastUtcMs,
    engine: head.engine,
    software: head.software,
    seen: head.seen ?? null,
    pages: {
      count: scan.pages,
      bytes: scan.bytes,
      samples: scan.samples,
      firstUs: scan.firstUs,
      firstSampleUs: scan.firstSampleUs,
      lastUs: scan.lastUs,
      chainHead: toHex(scan.chainHead),
      checkpoints,
      damage: scan.damage,
    },
    setups,
    events,
    ...(maps.size === 0 ? {} : { maps: [...maps.values()] }),
    ...(beside.size === 0 ? {} : { beside: [...beside.values()] }),
  };
  return { content, scan, head };
}

export interface ManifestFacts {
  readonly pagesSha256: string;
  readonly sealedUtcMs: number;
  readonly sealedBy: string;
  readonly job: unknown;
  readonly enclosed?: Enclosed | null;
  readonly log: LogName | null;
  readonly page?: string | null;
  readonly wording: Wording;
  readonly signer: Signer;
}

/** @throws RangeError where a value is not JSON */
export function makeManifest(content: Content, facts: ManifestFacts): Manifest {
  const { signer } = facts;
  return {
    schema: content.practice ? PRACTICE_SCHEMA : RECORD_SCHEMA,
    ...content,
    pagesSha256: facts.pagesSha256,
    sealedUtcMs: facts.sealedUtcMs,
    sealedBy: facts.sealedBy,
    job: toJson(facts.job ?? null),
    ...(facts.enclosed == null ? {} : { enclosed: facts.enclosed }),
    log: facts.log === null ? null : { origin: facts.log.origin, publicKey: facts.log.publicKey },
    page: facts.page ?? null,
    wording: { language: facts.wording.language, decimal: facts.wording.decimal },
    signer: {
      algorithm: ALGORITHM,
      publicKey: toHex(signer.publicKey),
      fingerprint: signer.fingerprint,
      sinceUtcMs: signer.sinceUtcMs,
      previous: signer.previous,
    },
  };
}

export type ManifestReading =
  | { readonly ok: true; readonly manifest: Manifest }
  /** 'version': of a later program; 'form': not canonical JSON, or members of wrong types. */
  | { readonly ok: false; readonly what: 'form' | 'version' };

const isObject = (v: unknown): v is Record<string, unknown> =>
  typeof v === 'object' && v !== null && !Array.isArray(v);
const HEX32 = /^[0-9a-f]{64}$/;
const isHash = (v: unknown): v is string => typeof v === 'string' && HEX32.test(v);
const isMs = (v: unknown): boolean => v === null || isUtcMs(v);

const LANGUAGE = /^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/;

const isWording = (v: unknown): boolean =>
  isObject(v) &&
  typeof v.language === 'string' &&
  LANGUAGE.test(v.language) &&
  (v.decimal === 'point' || v.decimal === 'comma');

/** An address as it stands in a code: nothing in it may be taken for anything else. */
export const isPage = (v: unknown): boolean =>
  v === null || (typeof v === 'string' && v.length <= 200 && /^https?:\/\/[\w.:[\]-]+\/[\w./~-]*$/.test(v));

const isSecondSource = (v: unknown): boolean =>
  isObject(v) && typeof v.deviceId === 'string' && (v.map === null || parseReadingMap(v.map).ok);

const isLogName = (v: unknown): boolean =>
  v === null || (isObject(v) && typeof v.origin === 'string' && isHash(v.publicKey));

function wellFormed(m: Record<string, unknown>): boolean {
  const { pages, signer } = m;
  if (!isObject(pages) || !isObject(signer)) return false;
  const texts = [m.runId, m.software, m.sealedBy].every((t) => typeof t === 'string');
  const numbers = [m.engine, pages.count, pages.bytes, pages.samples, pages.lastUs].every(
    (n) => typeof n === 'number' && Number.isSafeInteger(n) && n >= 0,
  );
  const lists = [m.setups, m.events, m.resumedUs, pages.checkpoints, pages.damage].every(Array.isArray);
  if (!texts || !numbers || !lists) return false;
  // What they are beyond that is held against the pages; whoever reads them needs them to be what can be looked into.
  if (!(m.events as unknown[]).every((e) => isObject(e) && typeof e.e === 'string')) return false;
  if (!(m.setups as unknown[]).every((s) => isObject(s) && isObject(s.setup))) return false;
  if (m.maps !== undefined && !(Array.isArray(m.maps) && m.maps.every((map) => parseReadingMap(map).ok)))
    return false;
  if (m.enclosed !== undefined && enclosedIn(m.enclosed) === null) return false;
  if (m.beside !== undefined && !(Array.isArray(m.beside) && m.beside.every(isSecondSource))) return false;
  if (!('job' in m) || !isWording(m.wording) || !isLogName(m.log) || !isPage(m.page)) return false;
  if (m.jobId !== null && typeof m.jobId !== 'string') return false;
  if (m.seen !== null && !isHash(m.seen)) return false;
  if (!isEngine(m.engine) || !isUtcMs(m.sealedUtcMs) || !isUtcMs(signer.sinceUtcMs)) return false;
  if (typeof m.practice !== 'boolean' || !isMs(m.openedUtcMs) || !isMs(m.endedUtcMs)) return false;
  if (!isHash(m.pagesSha256) || !isHash(pages.chainHead)) return false;
  if (
    !(pages.checkpoints as unknown[]).every(
      (c) => isObject(c) && isHash(c.sha256) && typeof c.page === 'number',
    )
  )
    return false;
  const { previous } = signer;
  if (previous !== null && !(isObject(previous) && isHash(previous.fingerprint))) return false;
  return signer.algorithm === ALGORITHM && isHash(signer.publicKey) && isHash(signer.fingerprint);
}

/** Reads a manifest that may come from anywhere. */
export function parseManifest(bytes: Uint8Array): ManifestReading {
  const value = parseCanonical(bytes);
  if (!isObject(value)) return { ok: false, what: 'form' };
  if (typeof value.schema !== 'string') return { ok: false, what: 'form' };
  if (value.schema !== RECORD_SCHEMA && value.schema !== PRACTICE_SCHEMA)
    return { ok: false, what: /^steadybar-(record|practice)\/\d+$/.test(value.schema) ? 'version' : 'form' };
  // A practice record that says it is none is no form of ours.
  if (value.schema === PRACTICE_SCHEMA && value.practice !== true) return { ok: false, what: 'form' };
  return wellFormed(value)
    ? { ok: true, manifest: value as unknown as Manifest }
    : { ok: false, what: 'form' };
}

/** Members of the manifest that differ from what the pages say. */
export function differingMembers(manifest: Manifest, content: Content): readonly string[] {
  const claimed = manifest as unknown as Record<string, unknown>;
  const maps = content.maps ?? null;
  const beside = content.beside ?? null;
  return Object.entries({ ...content, maps, beside })
    .filter(([key, value]) => canonicalText(claimed[key] ?? null) !== canonicalText(value))
    .map(([key]) => key);
}

/** The papers name the job that they are of; the run's pages name the one that it was opened for. */
export function isOfAnotherJob({ job, jobId }: Pick<Manifest, 'job' | 'jobId'>): boolean {
  const named = isObject(job) ? job.jobId : undefined;
  return typeof named === 'string' && named !== jobId;
}
