/** The files of a record that follow from its pages: held against the signed sums, and made again. */

import { readAll } from './byte-source.ts';
import { canonicalText } from './canonical.ts';
import { type CheckWordsOf, hasCommands } from './check-text.ts';
import { Comparison, CsvComparison } from './comparison.ts';
import { deriveCheck, deriveFiles, deriveParquet, type Inventory, type Progress } from './derived-files.ts';
import { firstDifference } from './difference.ts';
import { named } from './file-findings.ts';
import type { Finding, Remark } from './findings.ts';
import type { ExtraFiles } from './job-file.ts';
import {
  apartOf,
  isTooLong,
  type Judge,
  type JudgedApart,
  type JudgedRun,
  JudgingFailed,
  type MadeElsewhere,
} from './judgement.ts';
import type { KeyTerm } from './key-terms.ts';
import type { Content, Manifest } from './manifest.ts';
import { FILE, isProofName } from './members.ts';
import type { RecordCrypto } from './signing.ts';
import { CsvWriter } from './trace-csv.ts';
import type { SenseRun } from './trace-rows.ts';
import { checkEnclosed, smallPhotos } from './verify-enclosed.ts';
import type { Digests, Member } from './verify-members.ts';
import type { Witnessed } from './witness/check-proof.ts';

export interface VerifyOptions {
  readonly crypto: RecordCrypto;
  /** Keys that are known here, by fingerprint; the value is whose they are. */
  readonly trusted: ReadonlyMap<string, string>;
  /** For which times they count; left out, and those not named: for all. */
  readonly terms?: ReadonlyMap<string, KeyTerm>;
  /** Derives readings again; null: derived files are only held against the signed sums. */
  readonly sense: SenseRun | null;
  /** Judges the input log again; null: the events are taken as they were signed, and that is said. */
  readonly judge: Judge | null;
  /** Left out: CHECK.txt is not made again. */
  readonly words?: CheckWordsOf;
  readonly extras?: ExtraFiles;
  readonly progress?: Progress;
  /** Hashes long members elsewhere, beside what is done here. */
  readonly digests?: Digests;
  /**
   * Only what a phone tells at once: the manifest's signature, the pages and their chain, the witness log and the additions.
   * What else the file holds is not read, and the verdict is on these alone.
   */
  readonly firstOnly?: boolean;
}

/** A verification under way. */
export interface Work {
  readonly options: VerifyOptions;
  readonly files: ReadonlyMap<string, Member>;
  /** Of the pages. */
  readonly inventory: Inventory;
  /** What is made of the pages elsewhere; undefined: nothing is. */
  readonly begun: Promise<MadeElsewhere | null> | undefined;
  readonly findings: Finding[];
  readonly remarks: Remark[];
}

const claimsTooLong = ({ pages }: Pick<Content, 'pages'>): boolean =>
  isTooLong(pages.lastUs - (pages.firstUs ?? 0), pages.samples);

type Unjudged = Extract<Remark, { r: 'not-judged' }>['why'];

/** Why the pages are not judged again; null: they are. @param sound they were read, and hold no damage */
export function whyNotJudged(
  { judge }: Pick<VerifyOptions, 'judge'>,
  content: Content,
  sound: boolean,
): Unjudged | null {
  if (judge === null) return 'not-asked';
  if (judge.engine !== content.engine) return 'engine';
  if (claimsTooLong(content)) return 'too-long';
  return sound ? null : 'damaged';
}

/** Whether the events that stand in the pages follow from their input log; what the manifest says of them is held against the pages. */
export async function checkJudgement(
  { options, findings, remarks, inventory, begun }: Work,
  content: Content,
  pages: Member,
): Promise<void> {
  const { judge } = options;
  const why = whyNotJudged(options, content, inventory.sound);
  if (judge === null || why !== null) {
    remarks.push({ r: 'not-judged', why: why ?? 'not-asked' });
    return;
  }
  const { progress, stopped } = stoppable(options.progress);
  let apart: JudgedApart;
  let judged: JudgedRun;
  try {
    judged = (await begun) ?? (await judge.run(pages.content, progress));
    apart = apartOf(content.events, judged.events);
  } catch (cause) {
    stopped();
    // Entries of another hand may be signed and sound and still be none that an engine can follow.
    const where = cause instanceof JudgingFailed ? { page: cause.page } : {};
    remarks.push({ r: 'not-judged', why: 'failed', ...where });
    return;
  }
  const [first] = judged.apart;
  if (first !== undefined) remarks.push({ r: 'states-apart', count: judged.apart.length, ...first });
  const { gone, fresh, moved } = apart;
  if (gone.length + fresh.length + moved.length === 0) return;
  const kinds = [...new Set([...gone, ...fresh, ...moved].map((e) => e.e))].sort();
  findings.push({
    f: 'judgement',
    recorded: gone.length,
    again: fresh.length,
    kinds,
    moved: moved.length,
  });
}

/** Giving up is the progress's to throw, among what may fail otherwise. */
function stoppable(told: Progress | undefined): { readonly progress: Progress; stopped(): void } {
  let stop: { readonly cause: unknown } | null = null;
  return {
    async progress(share) {
      try {
        await told?.(share);
      } catch (cause) {
        stop = { cause };
        throw cause;
      }
    },
    stopped() {
      if (stop !== null) throw stop.cause;
    },
  };
}

/** No CHECK.txt is larger, bytes. */
const MOST_CHECK = 1 << 18;

/** What stands in the pages, as lines. */
const COPIED: readonly string[] = [FILE.events, FILE.log];

export async function checkDerived(
  work: Work,
  manifest: Manifest,
  content: Content | null,
  signed: ReadonlySet<string> | null,
  witnessed: Witnessed | null,
): Promise<void> {
  const { files, findings, remarks } = work;
  const intact = content !== null;
  const made: MadeAgain = intact
    ? await madeAgain(work, manifest, witnessed)
    : { differences: new Map(), isCsvApart: false, failed: false };
  // Of another engine the same counts may give other values.
  const isCsvChanged = made.isCsvApart && work.options.judge?.engine === content?.engine;
  const enclosed = checkEnclosed(work, manifest);
  const fixed: readonly string[] = [
    FILE.manifest,
    FILE.signature,
    FILE.signer,
    FILE.pages,
    FILE.sums,
    FILE.sumsSignature,
  ];
  for (const name of files.keys()) {
    if (fixed.includes(name) || name.startsWith('additions/') || isProofName(name) || enclosed.has(name))
      continue;
    const difference = made.differences.get(name);
    if (signed?.has(name)) {
      // Their form is the format's own, and they need no sensing: whoever signed another one wrote it himself.
      const follows = COPIED.includes(name) || (name === FILE.csv && isCsvChanged);
      if (follows && typeof difference === 'number') named(findings, name, difference);
      // Its words are the program's, and another version has others; what is to be typed is the format's own.
      else if (name === FILE.check && difference !== null && !(await sameCommands(work, manifest)))
        named(findings, name, difference ?? null);
      else if (difference === undefined)
        remarks.push({ r: 'not-derived', file: name, ...(made.failed ? { failed: true } : {}) });
      else if (difference !== null) remarks.push({ r: 'derived-otherwise', file: name });
    } else if (difference === undefined) {
      // Neither signed nor made again: nothing stands behind it. With changed pages that follows already.
      if (intact && signed !== null) findings.push({ f: 'strange', file: name });
      else if (intact) findings.push({ f: 'missing', file: FILE.sums });
    } else if (difference !== null) named(findings, name, difference);
  }
}

async function sameCommands({ files }: Work, manifest: Manifest): Promise<boolean> {
  const { content } = files.get(FILE.check)!;
  return (
    content.size <= MOST_CHECK && hasCommands(new TextDecoder().decode(await readAll(content)), manifest)
  );
}

interface MadeAgain {
  /** By name: where each differs first from the file that is there, null when it does not; those that can't be made are left out. */
  readonly differences: ReadonlyMap<string, number | null>;
  /** trace.csv says something else, and not by its rounding. */
  readonly isCsvApart: boolean;
  /** Making the trace again broke off. */
  readonly failed: boolean;
}

/**
 * The derived files as this program makes them. Pages of another hand may be signed and sound and still
 * hold what no sensing can follow.
 */
async function madeAgain(work: Work, manifest: Manifest, witnessed: Witnessed | null): Promise<MadeAgain> {
  const { options, files, findings } = work;
  const made = new Map<string, number | null>();
  const check = files.get(FILE.check);
  if (options.words !== undefined && check !== undefined) {
    try {
      const text = await deriveCheck(manifest, options.words);
      made.set(FILE.check, firstDifference(await readAll(check.content), text));
    } catch {
      // A language that only a later version has: told as not derived.
    }
  }
  const trace =
    options.sense === null || claimsTooLong(manifest)
      ? null
      : await traceAgain(work, manifest, options.sense);
  for (const [name, { difference }] of trace ?? []) made.set(name, difference);
  const traced = options.sense === null || trace !== null;
  // They are drawn from the trace's values: without these they would only seem to differ.
  if (options.extras !== undefined && traced) {
    const manifestSha256 = files.get(FILE.manifest)!.sha256;
    try {
      const photos = await smallPhotos(work, manifest);
      const view = { manifest, manifestSha256, witnessed, photos, played: work.inventory.played };
      for (const { name, bytes } of await options.extras(view)) {
        const there = files.get(name)?.content;
        if (there !== undefined) made.set(name, firstDifference(await readAll(there), bytes));
        // Where sums name it, its absence was told with them.
        else if (!findings.some((f) => f.f === 'missing' && f.file === name))
          findings.push({ f: 'missing', file: name });
      }
    } catch {
      // As above: what can't be made is told as not derived.
    }
  }
  return {
    differences: made,
    isCsvApart: trace?.get(FILE.csv)?.isApart === true,
    failed: !traced && !claimsTooLong(manifest),
  };
}

/** A file that was made again beside the one that is there. */
interface Compared {
  /** Where the two differ first; null: nowhere. */
  readonly difference: number | null;
  /** Of trace.csv: it says something else, beyond rounding. */
  readonly isApart: boolean;
}

/** Trace, log and events, those that are there. null where they can't be made; giving up is the progress's to throw, and is let through. */
async function traceAgain(
  work: Work,
  manifest: Manifest,
  sense: SenseRun,
): Promise<ReadonlyMap<string, Compared> | null> {
  // What others made is good where all of it is as it is there; else it is made here, and found where it differs.
  if (await isSameElsewhere(work, manifest)) {
    const same = { difference: null, isApart: false };
    return new Map(
      [...COPIED, FILE.csv, FILE.parquet].flatMap((n) => (work.files.has(n) ? [[n, same]] : [])),
    );
  }
  const { options, files, inventory } = work;
  const { progress, stopped } = stoppable(options.progress);
  const compared = new Map<string, Comparison>();
  for (const name of [...COPIED, FILE.csv, FILE.parquet]) {
    const there = files.get(name)?.content;
    if (there !== undefined)
      compared.set(name, name === FILE.csv ? new CsvComparison(there) : new Comparison(there));
  }
  const take = async (file: string, piece: Uint8Array): Promise<void> => compared.get(file)?.take(piece);
  try {
    await deriveFiles(files.get(FILE.pages)!.content, inventory, manifest, sense, take, progress);
  } catch {
    stopped();
    return null;
  }
  return new Map(
    [...compared].map(([name, c]) => [
      name,
      { difference: c.difference(), isApart: c instanceof CsvComparison && c.apart },
    ]),
  );
}

/** Whether the files of data are those that follow from what was judged elsewhere. */
async function isSameElsewhere({ begun, files, inventory }: Work, manifest: Manifest): Promise<boolean> {
  const trace = (await begun)?.trace ?? null;
  if (trace === null || !trace.isCsvSame) return false;
  if (canonicalText(trace.shape) !== canonicalText(inventory.shape())) return false;
  const compared = new Map<string, Comparison>();
  for (const name of [...COPIED, FILE.csv, FILE.parquet]) {
    const there = files.get(name)?.content;
    if (there !== undefined) compared.set(name, new Comparison(there));
  }
  const take = async (name: string, piece: Uint8Array): Promise<void> => compared.get(name)?.take(piece);
  await take(FILE.events, inventory.eventsFile());
  await take(FILE.log, inventory.logFile());
  await take(FILE.csv, new CsvWriter(trace.shape).header());
  await deriveParquet(trace.shape, trace.groups, manifest, take);
  // Of trace.csv the head alone went by here.
  const isSame = [...compared].every(([name, c]) => (name === FILE.csv ? c.isSame : c.difference() === null));
  if (isSame) trace.taken();
  return isSame;
}
