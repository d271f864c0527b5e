import { createHash } from 'node:crypto';
import { createRecordCrypto, type RecordCrypto } from '../record/signing.ts';

/** WebCrypto of Node, and its own SHA-256 for the pages of a chain: no promise a page. */
export const nodeCrypto = (): RecordCrypto =>
  createRecordCrypto(globalThis.crypto.subtle, (...pieces) => {
    const hash = createHash('sha256');
    for (const piece of pieces) hash.update(piece);
    return new Uint8Array(hash.digest());
  });
