import { createHash } from 'node:crypto';
import { createRecordCrypto, type RecordCrypto } from '../record/signing.ts';

/** WebCrypto of Node, and its own SHA-256 for the pages of a chain: no promise a page. */
export const nodeCrypto = (): RecordCrypto =>
  createRecordCrypto(
    globalThis.crypto.subtle,
    (bytes) => new Uint8Array(createHash('sha256').update(bytes).digest()),
  );
