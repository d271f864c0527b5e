import type { Handlers } from '../../engine/worker/answers.ts';
import { type ByteSource, partOf } from '../../record/byte-source.ts';
import type { RecordCrypto } from '../../record/signing.ts';
import { digestOf } from '../../record/verify-members.ts';
import type { PieceContract } from './order.ts';
import { makePiece } from './piece.ts';

/**
 * What a worker for pieces answers.
 * @param open the file that it is given, and what to do when it is done with
 */
export function pieceHandlers(
  open: (file: Blob | string) => { readonly source: ByteSource; close(): void },
  crypto: Pick<RecordCrypto, 'hashing' | 'crc32'>,
): Handlers<PieceContract> {
  async function over<T>(file: Blob | string, work: (source: ByteSource) => Promise<T>): Promise<T> {
    const { source, close } = open(file);
    try {
      return await work(source);
    } finally {
      close();
    }
  }

  return {
    piece: ({ file, order }, tell) => over(file, (source) => makePiece(source, order, tell)),
    digest: ({ file, stretch: { start, size } }, tell) =>
      over(file, (source) => digestOf(partOf(source, start, size), crypto, tell)),
  };
}
