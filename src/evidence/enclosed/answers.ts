import type { EvidenceDeps } from '../deps.ts';
import { EvidenceError } from '../faults.ts';
import type { EvidenceAnswers, EvidenceRequest, RecordRef } from '../messages.ts';
import type { OpenRecord } from '../open.ts';
import {
  addPhoto,
  addSigned,
  changePhoto,
  enclosedBeside,
  photoBytes,
  removePhoto,
  removeSigned,
} from './enclosed.ts';
import type { EnclosedRequest } from './messages.ts';

type Handlers = {
  readonly [Q in EnclosedRequest['q'] | 'photo']: (
    request: Extract<EvidenceRequest, { q: Q }>,
  ) => Promise<EvidenceAnswers[Q]>;
};

/** The evidence worker's answers about photographs and signatures by hand. */
export const enclosedAnswers = (
  deps: EvidenceDeps,
  open: (ref: RecordRef) => Promise<OpenRecord>,
): Handlers => ({
  enclosed: ({ beside }) => enclosedBeside(deps, beside),
  'add-photo': ({ beside, photo }) => addPhoto(deps, beside, photo),
  'change-photo': ({ beside, sha256, change }) => changePhoto(deps, beside, sha256, change),
  'remove-photo': ({ beside, sha256 }) => removePhoto(deps, beside, sha256),
  'add-signed': ({ beside, signed }) => addSigned(deps, beside, signed),
  'remove-signed': ({ beside, as, utcMs }) => removeSigned(deps, beside, as, utcMs),
  photo: async ({ sha256, ref }) => {
    if (!/^[0-9a-f]{64}$/.test(sha256)) throw new EvidenceError('bad-request', 'no hash');
    const bytes = ref === undefined ? await photoBytes(deps, sha256) : await (await open(ref)).photo(sha256);
    if (bytes === null) throw new EvidenceError('missing', 'the photograph is not there');
    // Only ever what was made here or vouched for by a hash, and only ever shown as a picture.
    return new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'image/jpeg' });
  },
});
