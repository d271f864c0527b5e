/** Opening a backup that may come from anywhere: every byte is accounted for before anything of it is believed. */
import {
  BACKUP_FILE,
  type BackupDocument,
  type BackupManifest,
  FOLDER,
  MOST_BACKUP_MEMBERS,
  MOST_FILE_BYTES,
  MOST_LIST_BYTES,
  readDocuments,
  readManifest,
  readSums,
} from '../../record/backup.ts';
import { toHex } from '../../record/hex.ts';
import { blobSource } from '../../record/stores/blob-source.ts';
import { isNoAccident } from '../../record/zip-form.ts';
import { readZip, type ZipEntry } from '../../record/zip-reader.ts';
import type { EvidenceDeps, Tell } from '../deps.ts';
import { EvidenceError } from '../faults.ts';

export interface BackupFile {
  /** Name in the store. */
  readonly name: string;
  readonly size: number;
  readonly sha256: string;
  /** @throws EvidenceError 'backup-damaged' when the bytes are not what they were */
  read(): Promise<Uint8Array>;
}

export interface OpenBackup {
  readonly manifest: BackupManifest;
  readonly documents: readonly BackupDocument[];
  readonly strange: number;
  readonly files: ReadonlyMap<string, BackupFile>;
}

const damaged = (detail: string): EvidenceError => new EvidenceError('backup-damaged', detail);

/** @throws EvidenceError 'not-a-backup', 'backup-damaged', 'backup-future', 'too-large' */
export async function openBackup(deps: EvidenceDeps, file: Blob, tell: Tell): Promise<OpenBackup> {
  const source = blobSource(file);
  const index = await readZip(source, MOST_BACKUP_MEMBERS);
  if (index.problem !== null) {
    const { fault, offset } = index.problem;
    const detail = `${fault} at byte ${offset}`;
    throw isNoAccident(fault) ? new EvidenceError('not-a-backup', detail) : damaged(detail);
  }
  const entries = new Map(index.entries.map((e) => [e.name, e]));
  const list = async (name: string): Promise<Uint8Array> => {
    const entry = entries.get(name);
    if (entry === undefined) throw new EvidenceError('not-a-backup', `no ${name}`);
    if (entry.size > MOST_LIST_BYTES) throw new EvidenceError('too-large', `${name}: ${entry.size} bytes`);
    return source.read(entry.start, entry.size);
  };
  const read = readManifest(await list(BACKUP_FILE.manifest));
  if (!read.ok)
    throw read.what === 'version'
      ? new EvidenceError('backup-future', 'made by a later version')
      : damaged(BACKUP_FILE.manifest);
  const sumsBytes = await list(BACKUP_FILE.sums);
  if (toHex(await deps.crypto.sha256(sumsBytes)) !== read.manifest.sumsSha256)
    throw damaged(BACKUP_FILE.sums);
  const sums = readSums(new TextDecoder().decode(sumsBytes));
  if (sums === null) throw damaged(BACKUP_FILE.sums);

  const checked = async (entry: ZipEntry): Promise<Uint8Array> => {
    const bytes = await source.read(entry.start, entry.size);
    const sha256 = toHex(await deps.crypto.sha256(bytes));
    if (bytes.length !== entry.size || sha256 !== sums.get(entry.name)) throw damaged(entry.name);
    return bytes;
  };
  const files = new Map<string, BackupFile>();
  let documents: ReturnType<typeof readDocuments> | null = null;
  for (const entry of index.entries) {
    await tell(entry.start / Math.max(1, file.size));
    if (entry.name === BACKUP_FILE.manifest || entry.name === BACKUP_FILE.sums) continue;
    if (entry.size > MOST_FILE_BYTES)
      throw new EvidenceError('too-large', `${entry.name}: ${entry.size} bytes`);
    if (entry.name === BACKUP_FILE.documents) {
      await list(entry.name);
      documents = readDocuments(new TextDecoder().decode(await checked(entry)));
      continue;
    }
    await checked(entry);
    if (!entry.name.startsWith(FOLDER)) continue;
    const name = entry.name.slice(FOLDER.length);
    const sha256 = sums.get(entry.name)!;
    files.set(name, { name, size: entry.size, sha256, read: () => checked(entry) });
  }
  for (const name of sums.keys()) if (!entries.has(name)) throw damaged(`${name} is missing`);
  if (documents === null) throw new EvidenceError('not-a-backup', `no ${BACKUP_FILE.documents}`);
  return { manifest: read.manifest, ...documents, files };
}
