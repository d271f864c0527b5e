/** The files of a record that follow from its pages: held against the signed sums, and made again. */
import type { Finding, Remark } from './findings.ts';
import { toHex } from './hex.ts';
import { deriveFiles, type ExtraFiles, FILE, join, type Progress } from './jobFile.ts';
import type { Content, Manifest } from './manifest.ts';
import type { RecordCrypto } from './signing.ts';
import type { SenseRun } from './traceRows.ts';
import type { ZipEntry } from './zip.ts';

export interface VerifyOptions {
  readonly crypto: RecordCrypto;
  /** Keys that are known here, by fingerprint; the value is whose they are. */
  readonly trusted: ReadonlyMap<string, string>;
  /** Derives readings again; null: derived files are only held against the signed sums. */
  readonly sense: SenseRun | null;
  readonly extras?: ExtraFiles;
  readonly progress?: Progress;
}

/** A run that claims to be longer than this is not judged again: a clock of years would keep the judge for hours. */
const MOST_DERIVED_US = 8 * 86_400e6;

/** A verification under way. */
export interface Work {
  readonly options: VerifyOptions;
  readonly files: Map<string, ZipEntry>;
  readonly findings: Finding[];
  readonly remarks: Remark[];
}

/** Where two files differ first; null when they don't. */
export const equal = (a: Uint8Array, b: Uint8Array): number | null => {
  const n = Math.min(a.length, b.length);
  for (let i = 0; i < n; i++) if (a[i] !== b[i]) return i;
  return a.length === b.length ? null : n;
};

/** One finding a file is enough; a later one may know the place. */
export function named(findings: Finding[], file: string, offset: number | null): void {
  const at = findings.findIndex((f) => f.f === 'file' && f.file === file);
  if (at < 0) findings.push({ f: 'file', file, offset });
  else if (offset !== null) findings[at] = { f: 'file', file, offset };
}

export async function checkDerived(
  work: Work,
  manifest: Manifest,
  manifestBytes: Uint8Array,
  pages: Uint8Array,
  content: Content | null,
  signed: ReadonlySet<string> | null,
): Promise<void> {
  const { files, findings, remarks, options } = work;
  const intact = content !== null;
  // The length is what the pages say, not what a manifest claims of them.
  const length = content?.pages.lastUs ?? 0;
  const made = intact
    ? await madeAgain(options, manifest, manifestBytes, pages, length)
    : new Map<string, Uint8Array>();
  const fixed: readonly string[] = [
    FILE.manifest,
    FILE.signature,
    FILE.signer,
    FILE.pages,
    FILE.sums,
    FILE.sumsSignature,
  ];
  for (const [name, entry] of files) {
    if (fixed.includes(name) || name.startsWith('additions/')) continue;
    const again = made.get(name);
    const difference = again === undefined ? undefined : equal(entry.bytes, again);
    if (signed?.has(name)) {
      if (difference === undefined) remarks.push({ r: 'not-derived', file: name });
      else if (difference !== null) remarks.push({ r: 'derived-otherwise', file: name });
    } else if (difference === undefined) {
      // Neither signed nor made again: nothing stands behind it. With changed pages that follows already.
      if (intact && signed !== null) findings.push({ f: 'strange', file: name });
      else if (intact) findings.push({ f: 'missing', file: FILE.sums });
    } else if (difference !== null) named(findings, name, difference);
  }
}

/**
 * The derived files as this program makes them; those that it can't make are left out. Pages of another hand may
 * be signed and sound and still hold what no sensing can follow.
 */
async function madeAgain(
  options: VerifyOptions,
  manifest: Manifest,
  manifestBytes: Uint8Array,
  pages: Uint8Array,
  lengthUs: number,
): Promise<ReadonlyMap<string, Uint8Array>> {
  const made = new Map<string, Uint8Array>();
  const progress = options.progress ?? ((): void => undefined);
  let traced = options.sense === null;
  if (options.sense !== null && lengthUs <= MOST_DERIVED_US) {
    // Giving up is the progress's to throw, and is let through.
    let stop: { cause: unknown } | null = null;
    const told: Progress = async (share) => {
      try {
        await progress(share);
      } catch (cause) {
        stop = { cause };
        throw cause;
      }
    };
    try {
      const derived = await deriveFiles(pages, manifest, options.sense, told);
      for (const [name, chunks] of derived) made.set(name, join(chunks));
      traced = true;
    } catch {
      if (stop !== null) throw (stop as { cause: unknown }).cause;
    }
  }
  // They are drawn from the trace's values: without these they would only seem to differ.
  if (options.extras !== undefined && traced) {
    const manifestSha256 = toHex(await options.crypto.sha256(manifestBytes));
    try {
      for (const { name, bytes } of await options.extras({ manifest, manifestSha256, pages }))
        made.set(name, bytes);
    } catch {
      // As above: what can't be made is told as not derived.
    }
  }
  return made;
}
