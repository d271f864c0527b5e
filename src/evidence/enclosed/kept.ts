/**
 * What is laid beside a job or a run: its facts are one document, each photograph's bytes a file under the hash of
 * them, so that nothing is ever overwritten. Files come first; one that no document names is what a dead process left.
 */
import { type KeptEnclosed, type KeptPhoto, keptEnclosedIn } from '../../job/enclosed.ts';
import { unlessMissing } from '../../record/stores/missing.ts';
import { type DocumentStore, type FileStore, StoreError } from '../../record/stores/store.ts';

const PREFIX = 'photo-';
/** @param sha256 of the bytes, hex */
export const photoFileName = (sha256: string): string => `${PREFIX}${sha256}`;
export const isPhotoFile = (name: string): boolean => /^photo-[0-9a-f]{64}$/.test(name);

const NOTHING: KeptEnclosed = { version: 1, photos: [], signed: [] };

export interface RestingEnclosed {
  readonly revision: number;
  readonly enclosed: KeptEnclosed;
}

/** @param owner the job's id, or the run's where there is no job. @throws StoreError 'corrupt' */
export async function loadEnclosed(documents: DocumentStore, owner: string): Promise<RestingEnclosed> {
  const resting = await documents.get('enclosed', owner);
  if (resting === null) return { revision: 0, enclosed: NOTHING };
  const enclosed = keptEnclosedIn(resting.body);
  if (enclosed === null)
    throw new StoreError('corrupt', `the photographs beside ${owner} are not in their form`);
  return { revision: resting.revision, enclosed };
}

/** @throws StoreError 'stale' where another tab changed it since it was read */
export async function keepEnclosed(
  documents: DocumentStore,
  owner: string,
  { revision, enclosed }: RestingEnclosed,
  utcMs: number,
): Promise<void> {
  if (enclosed.photos.length + enclosed.signed.length === 0) {
    if (revision > 0) await documents.remove('enclosed', owner);
    return;
  }
  await documents.put({ kind: 'enclosed', id: owner, revision, savedUtcMs: utcMs, body: enclosed });
}

/** Hashes of all files that a photograph stands for. */
export const hashesOf = (photo: Pick<KeptPhoto, 'sha256' | 'small' | 'original'>): readonly string[] => [
  photo.sha256,
  photo.small.sha256,
  ...(photo.original === null ? [] : [photo.original.sha256]),
];

/** Writes bytes under their hash; those that are there already are not written again. @throws StoreError */
export async function keepPhotoFile(files: FileStore, sha256: string, bytes: Uint8Array): Promise<void> {
  const file = await files.open(photoFileName(sha256));
  let whole = file.size === bytes.length;
  try {
    if (!whole) {
      file.truncate(0);
      file.append(bytes);
      file.flush();
      whole = true;
    }
  } finally {
    file.close();
    // A full disk gets its room back at once.
    if (!whole) await files.remove(photoFileName(sha256)).catch(() => undefined);
  }
}

/** Of a photograph that nothing names any more. */
export async function removePhotoFiles(
  files: FileStore,
  photo: Parameters<typeof hashesOf>[0],
): Promise<void> {
  for (const sha256 of hashesOf(photo)) await unlessMissing(() => files.remove(photoFileName(sha256)));
}

/** Names of the files that such a document stands for; none where it has not its form. */
export const photoFilesIn = (body: unknown): readonly string[] =>
  (keptEnclosedIn(body)?.photos ?? []).flatMap((p) => hashesOf(p).map(photoFileName));
