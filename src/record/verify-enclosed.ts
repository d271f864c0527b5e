/** A record's photographs: the manifest names the hash of each, so that it vouches for them whatever the sums say. */
import { enclosedFiles } from '../job/enclosed.ts';
import { readAll } from './byte-source.ts';
import { named } from './file-findings.ts';
import type { Finding } from './findings.ts';
import type { PhotosByHash } from './job-file.ts';
import type { Manifest } from './manifest.ts';
import type { Member } from './verify-members.ts';

interface FoundFiles {
  readonly files: ReadonlyMap<string, Member>;
  readonly findings: Finding[];
}

/** Names what is not there or is another file. @returns the names that the manifest vouches for */
export function checkEnclosed({ files, findings }: FoundFiles, manifest: Manifest): ReadonlySet<string> {
  const wanted = enclosedFiles(manifest.enclosed ?? null);
  for (const { name, sha256 } of wanted) {
    const there = files.get(name);
    if (there !== undefined && there.sha256 !== sha256) named(findings, name, null);
    // Where sums name it, its absence was told with them.
    else if (there === undefined && !findings.some((f) => f.f === 'missing' && f.file === name))
      findings.push({ f: 'missing', file: name });
  }
  return new Set(wanted.map((f) => f.name));
}

/** Those that a certificate shows, as far as they are the sealed ones. */
export async function smallPhotos(
  { files }: Pick<FoundFiles, 'files'>,
  manifest: Manifest,
): Promise<PhotosByHash> {
  const small = new Map((manifest.enclosed?.photos ?? []).map((p) => [p.small.sha256, p.small.bytes]));
  const found = new Map<string, Uint8Array>();
  for (const { name, sha256 } of enclosedFiles(manifest.enclosed ?? null)) {
    const there = files.get(name);
    // No more is read than the manifest's own bound.
    if (there?.sha256 === sha256 && there.size === small.get(sha256))
      found.set(sha256, await readAll(there.content));
  }
  return found;
}
