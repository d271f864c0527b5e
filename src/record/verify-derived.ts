/** The files of a record that follow from its pages: held against the signed sums, and made again. */
import type { CheckWordsOf } from './check-text.ts';
import type { Finding, Remark } from './findings.ts';
import { toHex } from './hex.ts';
import { deriveCheck, deriveFiles, type ExtraFiles, FILE, type Progress } from './job-file.ts';
import type { Content, Manifest } from './manifest.ts';
import type { RecordCrypto } from './signing.ts';
import type { SenseRun } from './trace-rows.ts';
import type { ZipEntry } from './zip.ts';

export interface VerifyOptions {
  readonly crypto: RecordCrypto;
  /** Keys that are known here, by fingerprint; the value is whose they are. */
  readonly trusted: ReadonlyMap<string, string>;
  /** Derives readings again; null: derived files are only held against the signed sums. */
  readonly sense: SenseRun | null;
  /** Left out: CHECK.txt is not made again. */
  readonly words?: CheckWordsOf;
  readonly extras?: ExtraFiles;
  readonly progress?: Progress;
}

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
  const { files, findings, remarks } = work;
  const intact = content !== null;
  const made = intact
    ? await madeAgain(work, manifest, manifestBytes, pages)
    : new Map<string, number | null>();
  const fixed: readonly string[] = [
    FILE.manifest,
    FILE.signature,
    FILE.signer,
    FILE.pages,
    FILE.sums,
    FILE.sumsSignature,
  ];
  for (const name of files.keys()) {
    if (fixed.includes(name) || name.startsWith('additions/')) continue;
    const difference = made.get(name);
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

/** Holds a file that is made piece by piece against the one that is there, so that it need not stand whole. */
function comparison(bytes: Uint8Array): { take(piece: Uint8Array): void; difference(): number | null } {
  let at = 0;
  let first: number | null = null;
  return {
    take(piece) {
      if (first === null) {
        const here = equal(bytes.subarray(at, at + piece.length), piece);
        if (here !== null) first = at + here;
      }
      at += piece.length;
    },
    difference: () => first ?? (at === bytes.length ? null : at),
  };
}

/**
 * The derived files as this program makes them, by name: where each differs first from the one that is there, null
 * when it does not; those that can't be made are left out. Pages of another hand may be signed and sound and still
 * hold what no sensing can follow.
 */
async function madeAgain(
  { options, files }: Work,
  manifest: Manifest,
  manifestBytes: Uint8Array,
  pages: Uint8Array,
): Promise<ReadonlyMap<string, number | null>> {
  const made = new Map<string, number | null>();
  const progress = options.progress ?? ((): void => undefined);
  let traced = options.sense === null;
  const check = files.get(FILE.check);
  if (options.words !== undefined && check !== undefined) {
    try {
      made.set(FILE.check, equal(check.bytes, await deriveCheck(manifest, options.words)));
    } catch {
      // A language that only a later version has: told as not derived.
    }
  }
  if (options.sense !== null) {
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
    const compared = new Map([...files].map(([name, { bytes }]) => [name, comparison(bytes)]));
    const seen = new Set<string>();
    try {
      await deriveFiles(pages, manifest, options.sense, told, (file, piece) => {
        seen.add(file);
        compared.get(file)?.take(piece);
      });
      for (const [name, c] of compared) if (seen.has(name)) made.set(name, c.difference());
      traced = true;
    } catch {
      if (stop !== null) throw (stop as { cause: unknown }).cause;
    }
  }
  // They are drawn from the trace's values: without these they would only seem to differ.
  if (options.extras !== undefined && traced) {
    const manifestSha256 = toHex(await options.crypto.sha256(manifestBytes));
    try {
      for (const { name, bytes } of await options.extras({ manifest, manifestSha256, pages })) {
        const entry = files.get(name);
        if (entry !== undefined) made.set(name, equal(entry.bytes, bytes));
      }
    } catch {
      // As above: what can't be made is told as not derived.
    }
  }
  return made;
}
