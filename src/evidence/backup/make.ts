/** Making a backup: one file after another is read, hashed and handed to the Blob, so that few stand in memory. */

import { createRunList } from '../../engine/run-list.ts';
import {
  BACKED_UP_KINDS,
  BACKUP_FILE,
  BACKUP_SCHEMA,
  type BackupKind,
  documentLine,
  FOLDER,
  isBackedUp,
  MOST_BACKUP_MEMBERS,
  manifestBytes,
  README,
} from '../../record/backup.ts';
import { toHex } from '../../record/hex.ts';
import { runFileNames, runOfFile } from '../../record/recovery.ts';
import { sealedOf } from '../../record/seal.ts';
import { importFileName, listImports } from '../../record/stores/imports.ts';
import { keyHistory } from '../../record/stores/keys.ts';
import { unlessMissing } from '../../record/stores/missing.ts';
import type { DocumentKind } from '../../record/stores/store.ts';
import { zipWriter } from '../../record/zip-writer.ts';
import type { EvidenceDeps, Tell } from '../deps.ts';
import { isPhotoFile, photoFilesIn } from '../enclosed/kept.ts';
import { EvidenceError } from '../faults.ts';
import { BACKUP_GROUPS, type BackupGroup, type BackupMade } from './messages.ts';
import { isImport } from './things.ts';

// A kind of document is in the backup, or named here: what a restore has half done, the shared folder, the speeds of this
// tablet's ports, the packers that it left in a pipe, the order of its day, the drills that were played on it and the archive's rows,
// which are made up anew, stay behind, and its witness log: what is restored elsewhere is another installation's.
const LEFT_BEHIND: Readonly<Record<Exclude<DocumentKind, BackupKind>, true>> = {
  restore: true,
  office: true,
  speed: true,
  log: true,
  witness: true,
  left: true,
  day: true,
  practice: true,
  rows: true,
};
void LEFT_BEHIND;

/** Under which groups of a restore's summary a document is counted; keys stand in no row of it. */
function groupsOf(kind: BackupKind, id: string, body: unknown): readonly BackupGroup[] {
  if (kind === 'key') return [];
  if (kind !== 'seal') return [kind];
  if (isImport(id)) return ['import'];
  return (sealedOf(body)?.additions.length ?? 0) > 0 ? ['seal', 'addition'] : ['seal'];
}

/** @returns with the SHA-256 of its manifest, which names the sums of all of it */
export async function makeBackup(
  deps: EvidenceDeps,
  tell: Tell,
): Promise<BackupMade & { readonly sha256: string }> {
  const { files, documents, crypto } = deps;
  const parts: Blob[] = [];
  const sums: string[] = [];
  const zip = zipWriter(MOST_BACKUP_MEMBERS);
  const add = async (name: string, bytes: Uint8Array): Promise<string> => {
    const sha256 = toHex(await crypto.sha256(bytes));
    try {
      const header = zip.add(name, crypto.crc32(bytes), bytes.length);
      parts.push(new Blob([header, bytes] as Uint8Array<ArrayBuffer>[]));
    } catch (cause) {
      if (cause instanceof RangeError) throw new EvidenceError('too-large', cause.message);
      throw cause;
    }
    return sha256;
  };
  const summed = async (name: string, bytes: Uint8Array): Promise<void> => {
    sums.push(`${await add(name, bytes)}  ${name}\n`);
  };
  const utf8 = new TextEncoder();
  await summed(BACKUP_FILE.readme, utf8.encode(README));

  const runs = await createRunList(documents, files, deps.utcMs).list();
  const open = new Set(runs.filter((r) => r.state === 'open').map((r) => r.runId));
  const known = new Set(runs.map((r) => r.runId));
  const imports = new Set((await listImports(documents)).map((i) => importFileName(i.sha256)));
  const photos = new Set((await documents.list('enclosed')).flatMap((d) => photoFilesIn(d.body)));
  const wanted = (await files.list()).filter(({ name }) => {
    if (isPhotoFile(name)) return photos.has(name);
    const runId = runOfFile(name);
    return runId === null ? imports.has(name) : known.has(runId) && !open.has(runId);
  });
  const total = wanted.reduce((s, f) => s + f.size, 0);
  let done = 0;
  let kept = 0;
  for (const { name, size } of wanted) {
    await tell(total === 0 ? 0 : done / total);
    const bytes = await unlessMissing(() => files.readAll(name));
    // Removed meanwhile: what is gone can't be kept.
    if (bytes !== null) {
      await summed(`${FOLDER}${name}`, bytes);
      kept++;
    }
    done += size;
  }
  const lines: string[] = [];
  const groups = Object.fromEntries(BACKUP_GROUPS.map((g) => [g, 0])) as Record<BackupGroup, number>;
  for (const kind of BACKED_UP_KINDS)
    for (const { id, savedUtcMs, body } of await documents.list(kind)) {
      if (!isBackedUp(kind, id) || (open.has(id) && kind === 'run')) continue;
      lines.push(documentLine({ kind, id, savedUtcMs, body }));
      for (const group of groupsOf(kind, id, body)) groups[group]++;
    }
  await summed(BACKUP_FILE.documents, utf8.encode(lines.join('')));
  const sumsSha256 = await add(BACKUP_FILE.sums, utf8.encode(sums.join('')));
  const madeUtcMs = deps.utcMs();
  const leftOut = [...open];
  const key = (await keyHistory(documents)).at(-1)?.fingerprint ?? null;
  const manifest = {
    schema: BACKUP_SCHEMA,
    madeUtcMs,
    software: deps.software,
    documents: lines.length,
    files: kept,
    sumsSha256,
    leftOut,
    key,
  } as const;
  const sha256 = await add(BACKUP_FILE.manifest, manifestBytes(manifest));
  parts.push(new Blob(zip.finish() as Uint8Array<ArrayBuffer>[]));
  const day = new Date(madeUtcMs).toISOString().slice(0, 16).replace(/[T:]/g, '-');
  return {
    name: `steadybar-backup_${day}.zip`,
    file: new Blob(parts, { type: 'application/zip' }),
    groups,
    leftOut,
    sha256,
  };
}

export const pagesName = (runId: string): string => runFileNames(runId).pages;
