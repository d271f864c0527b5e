/** Photographs and signatures by hand beside a job or a run: taken in, changed, removed, and what of them a seal takes. */

import {
  ADDED_SIDES,
  type AddedHand,
  type AddedPhoto,
  addedHandIn,
  addedPhotoIn,
  MOST_ADDED_BYTES,
} from '../../job/added.ts';
import { parseDocument } from '../../job/documents.ts';
import {
  type Enclosed,
  type HandSigned,
  type KeptEnclosed,
  type KeptPhoto,
  keptEnclosedSchema,
  MOST_ORIGINAL_BYTES,
  MOST_PHOTO_BYTES,
  MOST_PHOTOS,
  MOST_SMALL_BYTES,
  PHOTO_SIDE,
  SMALL_SIDE,
} from '../../job/enclosed.ts';
import { dayOf, hereOn } from '../../job/people.ts';
import type { SettingsDocument } from '../../job/settings-document.ts';
import { isBlank } from '../../job/strokes.ts';
import { toBase64 } from '../../record/base64.ts';
import { toHex } from '../../record/hex.ts';
import type { EvidenceDeps } from '../deps.ts';
import { EvidenceError } from '../faults.ts';
import type { EvidenceRequest } from '../messages.ts';
import {
  keepEnclosed,
  keepPhotoFile,
  loadEnclosed,
  photoFileName,
  type RestingEnclosed,
  removePhotoFiles,
} from './kept.ts';
import { LOOK_BYTES, lookAt, type PictureLook } from './look.ts';
import type { Beside, NewPhoto } from './messages.ts';
import type { Reduced } from './reduce.ts';

/** A picture with more is not decoded here: what it takes in memory is four bytes a pixel. */
const MOST_PIXELS = 110_000_000;
const MOST_SIDE = 30_000;

/** Whose document it is. @throws EvidenceError 'bad-request' */
export function ownerOf({ jobId, runId }: Beside): string {
  const owner = jobId ?? runId;
  if (owner === null) throw new EvidenceError('bad-request', 'photographs of no job and no run');
  return owner;
}

/** What of it is of this run: its own, and what was laid beside the job before any run. */
const isOf =
  (runId: string | null) =>
  (e: { readonly runId: string | null }): boolean =>
    runId === null || e.runId === null || e.runId === runId;

/** One change at a time, in whatever tab. */
async function changed(
  deps: EvidenceDeps,
  beside: Beside,
  change: (now: KeptEnclosed) => KeptEnclosed | Promise<KeptEnclosed>,
): Promise<KeptEnclosed> {
  const owner = ownerOf(beside);
  const release = await deps.locks.acquire(`enclosed-${owner}`);
  if (release === null)
    throw new EvidenceError('run-locked', 'the photographs are being changed in another tab');
  try {
    const resting: RestingEnclosed = await loadEnclosed(deps.documents, owner);
    const next = keptEnclosedSchema.safeParse(await change(resting.enclosed));
    if (!next.success)
      throw new EvidenceError('bad-request', next.error.issues.map((i) => i.path.join('.')).join(', '));
    await keepEnclosed(
      deps.documents,
      owner,
      { revision: resting.revision, enclosed: next.data },
      deps.utcMs(),
    );
    return next.data;
  } finally {
    release();
  }
}

/** Of this run, and of its job before any run. */
export async function enclosedBeside(deps: EvidenceDeps, beside: Beside): Promise<KeptEnclosed> {
  const { enclosed } = await loadEnclosed(deps.documents, ownerOf(beside));
  return viewFor(enclosed, beside);
}

const viewFor = ({ version, photos, signed }: KeptEnclosed, { runId }: Beside): KeptEnclosed => ({
  version,
  photos: photos.filter(isOf(runId)),
  signed: signed.filter(isOf(runId)),
});

/** @throws EvidenceError with what is wrong with it */
async function looked(file: Blob): Promise<PictureLook> {
  if (file.size > MOST_ORIGINAL_BYTES) throw new EvidenceError('picture-large', `${file.size} bytes`);
  const found = lookAt(new Uint8Array(await file.slice(0, LOOK_BYTES).arrayBuffer()));
  if (!found.ok) throw new EvidenceError(`picture-${found.why}`, file.type);
  const { width, height } = found.look;
  if (width * height > MOST_PIXELS || Math.max(width, height) > MOST_SIDE)
    throw new EvidenceError('picture-large', `${width} x ${height} pixels`);
  return found.look;
}

const isJpeg = ({ bytes, width, height }: Reduced, most: number, side: number): boolean =>
  bytes.length <= most && Math.max(width, height) <= side && bytes[0] === 0xff && bytes[1] === 0xd8;

/** @throws EvidenceError with what is wrong with it */
async function reduced(
  deps: EvidenceDeps,
  file: Blob,
  sides: readonly number[],
): Promise<{ readonly look: PictureLook; readonly made: readonly Reduced[] }> {
  const look = await looked(file);
  if (deps.reduce === undefined) throw new EvidenceError('picture-unread', 'this browser has no canvas here');
  try {
    return { look, made: await deps.reduce(file, look, sides) };
  } catch (cause) {
    throw new EvidenceError('picture-broken', cause instanceof Error ? cause.message : String(cause));
  }
}

/**
 * What stands in an addition beside its text: a photograph as large as fits, a signature by hand.
 * @throws EvidenceError 'picture-…', 'signature-blank', 'bad-request'
 */
export async function addedParts(
  deps: EvidenceDeps,
  { photo, hand }: Pick<Extract<EvidenceRequest, { q: 'add' }>, 'photo' | 'hand'>,
): Promise<{ readonly photo?: AddedPhoto; readonly hand?: AddedHand }> {
  if (hand !== undefined && isBlank(hand.strokes))
    throw new EvidenceError('signature-blank', 'nothing was drawn');
  let added: AddedPhoto | null = null;
  if (photo !== undefined) {
    const { made } = await reduced(deps, photo.file, ADDED_SIDES);
    const fits = made.find((m) => isJpeg(m, MOST_ADDED_BYTES, ADDED_SIDES[0]));
    if (fits === undefined) throw new EvidenceError('picture-large', 'no size of it fits an addition');
    const { bytes, width, height } = fits;
    const { occasion, utcMs, source } = photo;
    added = { jpeg: toBase64(bytes), width, height, occasion, utcMs: Math.round(utcMs), source };
    if (addedPhotoIn({ photo: added }) === null) throw new EvidenceError('bad-request', 'not a photograph');
  }
  if (hand !== undefined && addedHandIn({ hand }) === null)
    throw new EvidenceError('bad-request', 'not a signature');
  return { ...(added === null ? {} : { photo: added }), ...(hand === undefined ? {} : { hand }) };
}

/**
 * Makes a photograph small, hashes it and keeps it. The files come before the document that names them.
 * @throws EvidenceError 'picture-…', 'bad-request'; StoreError where the disk refuses
 */
export async function addPhoto(deps: EvidenceDeps, beside: Beside, photo: NewPhoto): Promise<KeptEnclosed> {
  const { file, keepOriginal, ...facts } = photo;
  const { enclosed } = await loadEnclosed(deps.documents, ownerOf(beside));
  if (enclosed.photos.filter(isOf(beside.runId)).length >= MOST_PHOTOS)
    throw new EvidenceError('pictures-full', `${MOST_PHOTOS} photographs`);
  const { look, made } = await reduced(deps, file, [PHOTO_SIDE, SMALL_SIDE]);
  const [large, small] = made;
  if (
    large === undefined ||
    small === undefined ||
    !isJpeg(large, MOST_PHOTO_BYTES, PHOTO_SIDE) ||
    !isJpeg(small, MOST_SMALL_BYTES, SMALL_SIDE)
  )
    throw new EvidenceError('picture-unread', 'the browser made another picture than was asked for');
  const kept = async (bytes: Uint8Array): Promise<{ sha256: string; bytes: number }> => {
    const sha256 = toHex(await deps.crypto.sha256(bytes));
    await keepPhotoFile(deps.files, sha256, bytes);
    return { sha256, bytes: bytes.length };
  };
  const sizes = async ({ bytes, width, height }: Reduced) => ({ ...(await kept(bytes)), width, height });
  const entry: KeptPhoto = {
    ...(await sizes(large)),
    small: await sizes(small),
    occasion: facts.occasion,
    utcMs: facts.utcMs,
    source: facts.source,
    by: facts.by.trim().slice(0, 40),
    note: facts.note.trim().slice(0, 300),
    original: keepOriginal
      ? {
          ...(await kept(new Uint8Array(await file.arrayBuffer()))),
          type: look.type,
          carries: [...look.carries],
        }
      : null,
    runId: beside.runId,
    sealed: false,
  };
  const next = await changed(deps, beside, (now) => {
    if (now.photos.some((p) => p.sha256 === entry.sha256))
      throw new EvidenceError('picture-twice', entry.sha256.slice(0, 8));
    return { ...now, photos: [...now.photos, entry] };
  });
  return viewFor(next, beside);
}

/** @throws EvidenceError 'missing', 'sealed' */
function at(now: KeptEnclosed, sha256: string): KeptPhoto {
  const found = now.photos.find((p) => p.sha256 === sha256);
  if (found === undefined) throw new EvidenceError('missing', 'no such photograph');
  if (found.sealed) throw new EvidenceError('picture-sealed', 'it stands in a sealed record');
  return found;
}

/** What is said of a photograph, until it is sealed. */
export async function changePhoto(
  deps: EvidenceDeps,
  beside: Beside,
  sha256: string,
  change: Partial<Pick<KeptPhoto, 'occasion' | 'by' | 'note'>>,
): Promise<KeptEnclosed> {
  const next = await changed(deps, beside, (now) => {
    const found = at(now, sha256);
    const { occasion = found.occasion, by = found.by, note = found.note } = change;
    return {
      ...now,
      photos: now.photos.map((p) => (p === found ? { ...p, occasion, by, note } : p)),
    };
  });
  return viewFor(next, beside);
}

/** The document goes first: a file without one is harmless, the reverse would be a photograph that is not there. */
export async function removePhoto(deps: EvidenceDeps, beside: Beside, sha256: string): Promise<KeptEnclosed> {
  let gone: KeptPhoto | null = null;
  const next = await changed(deps, beside, (now) => {
    gone = at(now, sha256);
    return { ...now, photos: now.photos.filter((p) => p !== gone) };
  });
  if (gone !== null && !(await isNamed(deps, gone))) await removePhotoFiles(deps.files, gone);
  return viewFor(next, beside);
}

/** The same file may lie beside another job too. */
async function isNamed(deps: EvidenceDeps, { sha256 }: KeptPhoto): Promise<boolean> {
  for (const { body } of await deps.documents.list('enclosed')) {
    const photos = (body as Partial<KeptEnclosed> | null)?.photos;
    if (Array.isArray(photos) && photos.some((p: Partial<KeptPhoto> | null) => p?.sha256 === sha256))
      return true;
  }
  return false;
}

/** @throws EvidenceError 'signature-blank', 'bad-request' */
export async function addSigned(
  deps: EvidenceDeps,
  beside: Beside,
  signed: Omit<HandSigned, 'utcMs'>,
): Promise<KeptEnclosed> {
  if (isBlank(signed.strokes)) throw new EvidenceError('signature-blank', 'nothing was drawn');
  const { as, strokes } = signed;
  const name = signed.name.trim().slice(0, 80);
  if (name === '') throw new EvidenceError('bad-request', 'a signature needs its name');
  const next = await changed(deps, beside, (now) => ({
    ...now,
    signed: [
      ...now.signed,
      {
        as,
        name,
        utcMs: Math.round(deps.utcMs()),
        strokes: strokes.map((s) => [...s]),
        runId: beside.runId,
        sealed: false,
      },
    ],
  }));
  return viewFor(next, beside);
}

/** Until it is sealed. @param utcMs of the signature, as it is listed */
export async function removeSigned(
  deps: EvidenceDeps,
  beside: Beside,
  as: HandSigned['as'],
  utcMs: number,
): Promise<KeptEnclosed> {
  const next = await changed(deps, beside, (now) => {
    const found = now.signed.find((s) => s.as === as && s.utcMs === utcMs);
    if (found === undefined) throw new EvidenceError('missing', 'no such signature');
    if (found.sealed) throw new EvidenceError('picture-sealed', 'it stands in a sealed record');
    return { ...now, signed: now.signed.filter((s) => s !== found) };
  });
  return viewFor(next, beside);
}

/** The firm's name and mark and its people; settings that are not in their form stop no seal. */
async function settingsOf(
  deps: EvidenceDeps,
): Promise<Pick<SettingsDocument, 'firm' | 'mark' | 'people' | 'here'>> {
  const stored = await deps.documents.get('settings', 'tablet');
  const parsed = stored === null ? null : parseDocument('settings', stored.body);
  return parsed?.ok === true ? parsed.value : { firm: '' };
}

/** What a seal takes: all that is of this run, without what the tablet notes for itself. null: nothing lies there. */
export async function enclosedForSeal(
  deps: EvidenceDeps,
  beside: Beside,
  openedUtcMs: number | null,
): Promise<Enclosed | null> {
  const { photos, signed } = await enclosedBeside(deps, beside);
  const { firm, mark, people, here } = await settingsOf(deps);
  const present = openedUtcMs === null ? [] : hereOn(people ?? [], here ?? [], dayOf(openedUtcMs));
  if (photos.length + signed.length + present.length === 0 && firm.trim() === '' && mark === undefined)
    return null;
  return {
    present: [...present],
    firm: firm.trim(),
    mark: mark ?? null,
    photos: photos.slice(0, MOST_PHOTOS).map(({ runId, sealed, ...photo }) => photo),
    signed: signed.map(({ runId, sealed, ...hand }) => hand),
  };
}

/** Notes what a sealed record has of it, so that nothing of that is removed. */
export async function noteSealed(deps: EvidenceDeps, beside: Beside, taken: Enclosed): Promise<void> {
  const photos = new Set(taken.photos.map((p) => p.sha256));
  const hands = new Set(taken.signed.map((s) => s.utcMs));
  await changed(deps, beside, (now) => ({
    ...now,
    photos: now.photos.map((p) => (photos.has(p.sha256) ? { ...p, sealed: true } : p)),
    signed: now.signed.map((s) => (hands.has(s.utcMs) ? { ...s, sealed: true } : s)),
  }));
}

/** Bytes of a kept photograph, by their hash. @throws StoreError 'missing' */
export const photoBytes = (deps: EvidenceDeps, sha256: string): Promise<Uint8Array> =>
  deps.files.readAll(photoFileName(sha256));

/** With a run that is removed: what was laid beside it alone goes too, what lies beside its job stays. */
export async function removeBesideRun(
  deps: EvidenceDeps,
  beside: Beside & { readonly runId: string },
): Promise<void> {
  const { enclosed } = await loadEnclosed(deps.documents, ownerOf(beside));
  const own = (e: { readonly runId: string | null }): boolean => e.runId === beside.runId;
  const gone = enclosed.photos.filter(own);
  if (gone.length === 0 && !enclosed.signed.some(own)) return;
  await changed(deps, beside, (now) => ({
    ...now,
    photos: now.photos.filter((p) => !own(p)),
    signed: now.signed.filter((s) => !own(s)),
  }));
  for (const photo of gone) if (!(await isNamed(deps, photo))) await removePhotoFiles(deps.files, photo);
}
